import { describe, expect, it } from "vitest";
import type { NoiseModes } from "../../../src/judgement/index.ts";
import { quadraticForms } from "../../../src/judgement/index.ts";

const w = [1.2, -0.4, 0.7, 2.1, -1.3];
const d = [0.5, 0.1, -0.2, 0.05, 0.3];
const p = [0.9, 0.8, 0.6, 0.35, 0.1];
const odd = [1, 0, 1, 0, 1];
const spectrum = [2, 1.5, 1.1, 0.7, 0.4];

const products = (a: number[], b: number[]) => Float64Array.from(a, (x, i) => x * b[i]!);
const modes = {
  count: new Float64Array(5).fill(1),
  power: products(w, w),
  edge2: products(p, p),
  edgePower: products(p, w),
  edgeDrift: products(p, d),
  drift2: products(d, d),
  driftPower: products(d, w),
  odd: Uint8Array.from(odd),
} as unknown as NoiseModes;

/** ln |C| and a′C⁻¹b by Gaussian elimination of the whole matrix. */
function dense(edges: number, a: number[], b: number[]) {
  const rows = spectrum.map((s, i) => [
    ...spectrum.map((_, j) => {
      const beside = odd[i] === odd[j] ? edges * p[i]! * p[j]! : 0;
      return beside + (i === j ? s : 0);
    }),
    b[i]!,
  ]);
  let log = 0;
  for (const [k, pivot] of rows.entries()) {
    log += Math.log(pivot[k]!);
    for (const [i, row] of rows.entries()) {
      const share = row[k]! / pivot[k]!;
      if (i !== k) for (let j = k; j <= 5; j++) row[j] = row[j]! - share * pivot[j]!;
    }
  }
  return { log, form: rows.reduce((sum, row, k) => sum + (a[k]! * row[5]!) / row[k]!, 0) };
}

describe("quadraticForms", () => {
  it.each([0, 0.3, 40])("are those of the whole matrix, edges' variance %f", (edges) => {
    const forms = quadraticForms(modes, Float64Array.from(spectrum), edges);
    expect(forms.logDeterminant).toBeCloseTo(dense(edges, w, w).log, 12);
    expect(forms.record).toBeCloseTo(dense(edges, w, w).form, 12);
    expect(forms.drift).toBeCloseTo(dense(edges, d, d).form, 12);
    expect(forms.both).toBeCloseTo(dense(edges, d, w).form, 12);
  });
});
