import { describe, expect, it } from "vitest";
import { BoundaryTree, nodeSize, RectifiedTone } from "../../src/stages/receiver/index.ts";
import { receiver, tone as sent } from "./samples.ts";

const theta = 4.5;
const cases = [
  ["full", true, 12],
  ["half", true, 18],
  ["full", false, 12],
  ["full", true, 3],
] as const;

describe("BoundaryTree", () => {
  it.each(cases)(
    "%s wave, leak %s, %f V: lines lie on or below θE − AR, to the bend of a cell",
    (rectifier, leak, amplitude) => {
      const tone = new RectifiedTone({ ...receiver, rectifier, leak }, sent);
      const tree = new BoundaryTree(tone, 2, 6);
      // θE − AR on the curve itself, at positions of no knot; R over four periods by recurrence.
      const boundary = (x: number) => {
        const period = Math.floor(x);
        const before = tone.growth(period);
        let response = 0;
        for (let p = 0; p < period; p++) response += tone.growth(p) * tone.responsePerPeriod;
        const within = tone.growth(x - period);
        response += before * tone.response(x - period, within);
        return theta * before * within - amplitude * tone.integrator.gain * response;
      };
      const driven = amplitude * tone.integrator.gain;
      const bend = (driven * Math.PI * tone.ratio) / 64 ** 2;
      for (let level = 0; level <= 8; level++) {
        for (let i = 0; i < 1 << level; i++) {
          const at = ((1 << level) + i) * nodeSize;
          const width = 4 / (1 << level);
          for (const part of [0.13, 0.31, 0.57, 0.83]) {
            const x = (i + part) * width;
            const w = tone.growth(x) ** 2 - 1;
            const line =
              theta * (tree.nodes[at]! + tree.nodes[at + 1]! * w) -
              driven * (tree.nodes[at + 2]! + tree.nodes[at + 3]! * w);
            const gap = boundary(x) - line;
            expect(gap).toBeGreaterThan(-bend);
            // In a cell the line is the boundary.
            if (level === 8) expect(gap).toBeLessThan(bend);
          }
        }
      }
    },
  );

  it("errs by nothing in the mean of a cell away from kinks", () => {
    const tone = new RectifiedTone(receiver, sent);
    const tree = new BoundaryTree(tone, 0, 5);
    for (const cell of [5, 11, 20, 26]) {
      let gap = 0;
      let chord = 0;
      const n = 2000;
      const clockOf = (x: number) => tone.growth(x) ** 2 - 1;
      const at = (32 + cell) * nodeSize;
      const [x0, x1] = [cell / 32, (cell + 1) / 32];
      const [r0, r1] = [tone.response(x0, tone.growth(x0)), tone.response(x1, tone.growth(x1))];
      for (let i = 0; i < n; i++) {
        const x = x0 + ((i + 0.5) * (x1 - x0)) / n;
        const w = clockOf(x);
        const r = tone.response(x, tone.growth(x));
        gap += tree.nodes[at + 2]! + tree.nodes[at + 3]! * w - r;
        chord += r0 + ((r1 - r0) * (w - clockOf(x0))) / (clockOf(x1) - clockOf(x0)) - r;
      }
      // The plain chord is off by h²f''/12; what is left is of the next order.
      expect(Math.abs(gap)).toBeLessThan(0.05 * Math.abs(chord));
    }
  });
});
