import { exp } from "./portable-exp.ts";
import { log } from "./portable-log.ts";

/** Layers of the ziggurat, the lowest of them with the tail. */
export const zigguratLayers = 256;

/**
 * Where the tail begins: the root of the condition that 256 layers of equal area close at the top.
 * Source: Marsaglia & Tsang 2000, whose area 0.00492867323399 a layer follows from it.
 */
export const zigguratTail = 3.6541528853610088;

/** Cells a half layer is cut into: 24 bits of a word are left beside the number of the layer. */
const cells = 8388608;

/** exp(−r²/2) times the Mills ratio ∫ exp((r² − x²)/2) dx from r up, by its continued fraction. */
function tailArea(r: number): number {
  let denominator = r;
  for (let k = 200; k >= 1; k--) {
    denominator = r + k / denominator;
  }
  return exp(-0.5 * r * r) / denominator;
}

/** Width of a cell in each layer: a deviate is a signed number of cells times this. */
export const zigguratWidth = new Float64Array(zigguratLayers);

/** Number of cells of each layer that lie wholly under the density, accepted without a further look. */
export const zigguratInside = new Int32Array(zigguratLayers);

/** Density exp(−x²/2) at the outer edge of each layer, and 1 at the end, the top of the ziggurat. */
export const zigguratDensity = new Float64Array(zigguratLayers + 1);

/** Area of each layer, the lowest with its tail; all alike. */
export const zigguratArea =
  zigguratTail * exp(-0.5 * zigguratTail * zigguratTail) + tailArea(zigguratTail);

let outer = zigguratTail;
let density = exp(-0.5 * outer * outer);
// The lowest layer is as wide as its area asks for; beyond the start of the tail it stands for the tail.
zigguratWidth[0] = zigguratArea / density / cells;
zigguratInside[0] = Math.floor((outer / (zigguratArea / density)) * cells);
zigguratDensity[0] = 0;
for (let layer = 1; layer < zigguratLayers; layer++) {
  zigguratDensity[layer] = density;
  density += zigguratArea / outer;
  const inner = layer === zigguratLayers - 1 ? 0 : Math.sqrt(-2 * log(density));
  zigguratWidth[layer] = outer / cells;
  zigguratInside[layer] = Math.floor((inner / outer) * cells);
  outer = inner;
}
zigguratDensity[zigguratLayers] = 1;
