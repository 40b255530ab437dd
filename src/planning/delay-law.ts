import type { Scenario } from "../scenario/index.ts";
import {
  type ErrorLaw,
  errorCells,
  errorLaw,
  errorReach,
  errorWidth,
} from "../stages/counter/index.ts";
import { toneHz } from "../stages/drive/index.ts";
import {
  amplitudeNodes,
  burstGrid,
  PassageKernel,
  RectifiedTone,
} from "../stages/receiver/index.ts";

/** The amplitude's Gaussian is cut off here; standard deviations. */
const amplitudeCut = 4;

/**
 * The distribution of the detection delay about its mean: it follows the half cycles of the tone and is far from
 * Gaussian.
 *
 * @param scenario - the scenario
 * @returns the law in units of its own rms; null where there is no receiver, or where its noise is too small for
 *   the passage to be computed on a grid
 *
 * Source: first-passage density of `PassageKernel`, averaged over amplitude and, for a free tone, phase.
 */
export function delayLaw({ receiver, drive }: Scenario): ErrorLaw | null {
  if (receiver === null || drive === null || receiver.noiseV === 0) return null;
  const tone = new RectifiedTone(receiver, toneHz(drive));
  const grid = burstGrid(receiver, drive, tone);
  if (grid.isFrozen) return null;
  const density = new Float64Array(Math.floor(drive.burst / grid.step));
  const sum = new Float64Array(density.length);
  const phases = drive.carrierLock === "locked" ? 1 : grid.phases;
  for (const { amplitudeV, weight } of amplitudeNodes(receiver, drive, amplitudeCut)) {
    const kernel = new PassageKernel(
      receiver,
      tone,
      amplitudeV,
      grid.perPeriod,
      grid.step,
      density.length,
    );
    for (let k = 0; k < phases; k++) {
      const filled = kernel.density((k * kernel.perPeriod) / grid.phases, density);
      // Between the half cycles the computed density is zero but for rounding, of either sign.
      for (let i = 0; i < filled; i++) sum[i] = sum[i]! + weight * Math.max(0, density[i]!);
    }
  }
  return inCells(sum);
}

/** A density on an even grid, brought to cells in units of its rms about its mean. */
function inCells(density: Float64Array): ErrorLaw {
  let total = 0;
  let mean = 0;
  density.forEach((weight, i) => {
    total += weight;
    mean += weight * i;
  });
  mean /= total;
  let variance = 0;
  const upTo = new Float64Array(density.length + 1);
  density.forEach((weight, i) => {
    variance += (weight / total) * (i - mean) ** 2;
    upTo[i + 1] = upTo[i]! + weight / total;
  });
  const rms = Math.sqrt(variance);
  // Point i stands for the stretch from i − ½ to i + ½.
  const below = (x: number) => {
    const place = Math.min(density.length, Math.max(0, mean + x * rms + 0.5));
    const whole = Math.min(density.length - 1, Math.floor(place));
    return upTo[whole]! + (place - whole) * (upTo[whole + 1]! - upTo[whole]!);
  };
  return errorLaw(
    Float64Array.from({ length: errorCells }, (_, cell) => {
      const low = -errorReach + cell * errorWidth;
      return below(low + errorWidth) - below(low);
    }),
  );
}
