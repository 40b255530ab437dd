import { describe, expect, it } from "vitest";
import { firstDriftingRow, stabilityTableFromTimeError } from "../../../src/analysis/index.ts";
import { normalStream } from "../../judgement/power-law-noise.ts";

describe("firstDriftingRow", () => {
  const normal = normalStream("drifting");
  const white = Float64Array.from({ length: 1024 }, () => 1e-6 * normal());

  it("finds no drift in white PM nor in a random walk of the frequency", () => {
    const quiet = stabilityTableFromTimeError(white, 1);
    expect(firstDriftingRow(quiet)).toBe(quiet.length);
    let rate = 0;
    let time = 0;
    const walk = white.map((step) => {
      rate += step;
      time += rate;
      return time;
    });
    const wandering = stabilityTableFromTimeError(walk, 1);
    expect(firstDriftingRow(wandering)).toBe(wandering.length);
  });

  // NIST SP 1065, section 5: drift D makes the Allan deviation D·τ/√2; white PM of rms x makes it √3·x/τ. With
  // D = 1e-9/s and x = 1e-6 s the two are equal at τ = √(√6·1e-6/1e-9) = 49 s.
  it("finds it where D·τ/√2 overtakes the noise", () => {
    const drifting = white.map((x, i) => x + 0.5e-9 * i * i);
    const rows = stabilityTableFromTimeError(drifting, 1);
    const first = rows[firstDriftingRow(rows)]!.tauS;
    expect(first).toBeGreaterThan(49);
    expect(first).toBeLessThan(49 * 4);
  });

  it("asks for more than twice the Hadamard deviation (own practice), in two rows one after the other", () => {
    const row = (ratio: number) => ({ allanDeviation: ratio, hadamardDeviation: 1 });
    expect(firstDriftingRow([1, 2.1, 1, 2.1, 2.1].map(row))).toBe(3);
    expect(firstDriftingRow([1, 1.9, 1.9, 1.9, 1.9].map(row))).toBe(5);
  });

  it("takes a drift without noise for drift at once", () => {
    const record = Float64Array.from({ length: 200 }, (_, i) => 1e-6 * i * i);
    expect(firstDriftingRow(stabilityTableFromTimeError(record, 1))).toBe(0);
  });
});
