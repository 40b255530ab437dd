import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { spread } from "../../src/view/chart/index.ts";

const blocks = fc.array(
  fc.record({
    wanted: fc.integer({ min: 0, max: 400 }),
    size: fc.integer({ min: 1, max: 40 }),
  }),
  { minLength: 1, maxLength: 12 },
);

describe("spread", () => {
  it("lets nothing overlap, keeps the order, and stays inside where there is room", () => {
    fc.assert(
      fc.property(blocks, (list) => {
        const sizes = list.map(({ size }) => size);
        const wanted = list.map(({ wanted }) => wanted);
        const centres = spread(wanted, sizes, -10, 410);
        const order = wanted.map((_, i) => i).sort((a, b) => centres[a]! - centres[b]!);
        let end = -10;
        for (const i of order) {
          expect(centres[i]! - sizes[i]! / 2).toBeGreaterThanOrEqual(end - 1e-9);
          end = centres[i]! + sizes[i]! / 2;
        }
        const total = sizes.reduce((sum, size) => sum + size, 0);
        if (total <= 420) expect(end).toBeLessThanOrEqual(410 + 1e-9);
        const inOrder = order.map((i) => wanted[i]!);
        expect(inOrder).toEqual([...inOrder].sort((a, b) => a - b));
      }),
      { seed: 14, numRuns: 500 },
    );
  });

  it("leaves alone what does not overlap", () => {
    expect(spread([10, 50, 90], [20, 20, 20], 0, 100)).toEqual([10, 50, 90]);
  });

  it("moves a crowd as little as least squares allows", () => {
    // Two blocks of 20 that both want 50: shifts of 10 each way have the least sum of squares.
    expect(spread([50, 50], [20, 20], 0, 100)).toEqual([40, 60]);
    expect(spread([50, 53, 90], [20, 20, 20], 0, 120)).toEqual([41.5, 61.5, 90]);
    expect(spread([98, 99], [20, 20], 0, 100)).toEqual([70, 90]);
  });
});
