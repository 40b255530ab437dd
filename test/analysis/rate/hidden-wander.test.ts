import { describe, expect, it } from "vitest";
import { boundaryModes, hiddenWander, noisePosterior } from "../../../src/judgement/index.ts";
import { type MadeNoise, makeEdges } from "./power-law-noise.ts";

const of = (k: number, noise: MadeNoise, seed: string) =>
  noisePosterior(boundaryModes(makeEdges(k, noise, seed).measured));

/** Share of twenty records under white FM in which flicker and random-walk FM are rejected. */
const rejected = (k: number) =>
  Array.from({ length: 20 }, (_, s) =>
    hiddenWander(of(k, { whiteFm: 1 }, `reject ${k} ${s}`), k),
  ).filter((found) => found === null).length / 20;

describe("hiddenWander", () => {
  it("cannot reject flicker FM from 20 readings of white FM, which is why they have no steady interval", () => {
    // NIST SP 1065 and the literature on 32 points: the type is told right in 35 to 82 % of records only.
    expect(rejected(20)).toBe(0);
    expect(rejected(1000)).toBe(1);
  });

  it("bounds what hides below white PM above what is there", () => {
    // Too weak to show: h₋₁ = 10·σ²/K³ and its memory of 1e5 runs. 5 % may miss; more than 5 of 40: 1e-2.
    const k = 300;
    const level = 10 / k ** 3;
    let missed = 0;
    for (let s = 0; s < 40; s++) {
      const bound = hiddenWander(of(k, { measurement: 1, flickerFm: level }, `hide ${s}`), k);
      if (!((bound?.variance ?? 0) >= 10.6 * level)) missed++;
    }
    expect(missed).toBeLessThanOrEqual(5);
  });

  it("falls against the jitter of the end edges as the record grows", () => {
    const share = (k: number) => {
      const found = Array.from({ length: 9 }, (_, s) => {
        const bound = hiddenWander(of(k, { measurement: 1 }, `grow ${s}`), k);
        return (bound?.variance ?? 0) / (2 / k ** 2);
      });
      return found.sort((a, b) => a - b)[4]!;
    };
    // As 1/K: sixteenfold the length, a sixteenth, within a factor of three for the scatter of nine records.
    expect(share(1600) / share(100)).toBeLessThan(3 / 16);
  });

  it("finds nothing where no hypothesis wanders", () => {
    const still = of(60, { measurement: 1 }, "still").filter((h) => h.source === "none");
    expect(hiddenWander(still, 60)).toBeNull();
  });
});
