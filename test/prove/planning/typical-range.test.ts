import { expect, it } from "vitest";
import { draftKeys, nested, unknownRanges } from "../../../src/cli/index.ts";
import { lengthRange, parseAccuracy, planLengths } from "../../../src/planning/index.ts";
import { parseScenario } from "../../../src/scenario/index.ts";

/** A generator of the test's own: Park & Miller's minimal standard. */
function generator(seed: number) {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
}

const kinds = [
  ["bursts", { within: "10 s/month", timebase: "oven" }],
  ["itself", { within: "10 s/month", timebase: "quartz" }],
  ["bursts", { within: "10 ms/day", standard: "rubidium", timebase: "standard" }],
] as const;

// Chains drawn evenly on a logarithmic scale from the typical ranges, each planned as it truly is.
it("200 chains of typical sizes: the length needed lies within what the typical scenario says in 90 %", () => {
  const draw = generator(7);
  let held = 0;
  let chains = 0;
  for (const [drive, rest] of kinds) {
    const answers = { drive, ...rest };
    const keys = draftKeys(answers);
    const within = parseAccuracy(answers.within);
    const scenarioWith = (values: Readonly<Record<string, number>>) => {
      const sections = nested(
        keys.map(({ path, value }) => ({ path, value: values[path] ?? value })),
      );
      return parseScenario(JSON.stringify({ length_s: 3600, ...sections }), "typical").scenario;
    };
    const ranges = unknownRanges(keys);
    const { optimistic, pessimistic } = lengthRange(scenarioWith, ranges, within);
    expect([drive, pessimistic < Infinity]).toEqual([drive, true]);
    for (let chain = 0; chain < 67; chain++, chains++) {
      const drawn = ranges.map(({ path, ends: [least, most] }) => {
        const share = draw();
        return [path, least === 0 ? most * share : least * (most / least) ** share];
      });
      const { rows, shortest } = planLengths(scenarioWith(Object.fromEntries(drawn)), within);
      const length = rows.find(({ strategy }) => strategy === shortest)?.result.length ?? Infinity;
      if (optimistic <= length && length <= pessimistic) held++;
    }
  }
  expect(held / chains).toBeGreaterThanOrEqual(0.9);
});
