import { describe, expect, it } from "vitest";
import { holdsTruth, judged, spoiltRun } from "./spoilt-run.ts";

// Fewer digits make equal neighbours by chance, and a line that stands twice could not be told.
const spoilt =
  "digits: 11, doubled_line_probability: 0.02, junk_line_probability: 0.02, cut_last_line: true";

describe("judge on a log that a run has spoilt, whose truth is known", () => {
  it.each(["period", "frequency", "stamped"])(
    "finds junk, doubled and cut lines exactly: %s",
    (format) => {
      let found = 0;
      for (let seed = 0; seed < 4; seed++) {
        const { text, said, scenario } = spoiltRun(`s${seed}`, `{ format: ${format}, ${spoilt} }`);
        const by = judged(text, 1 / scenario.clock.tickHz);
        // The first few are told one by one, the rest by number.
        expect(by.skipped).toBe(said.junk_lines.length);
        expect(by.junk).toEqual(said.junk_lines.slice(0, by.junk.length));
        expect(by.doubled).toEqual(said.doubled_lines);
        expect(by.cut).toEqual([said.cut_line]);
        expect(text.split("\n")).toHaveLength(said.lines);
        found += said.junk_lines.length + said.doubled_lines.length;
      }
      expect(found).toBeGreaterThan(30);
    },
  );

  it("holds the true rate where lines are lost and stamps tell it", () => {
    let held = 0;
    const seeds = 8;
    for (let seed = 0; seed < seeds; seed++) held += holdsTruth(`lost ${seed}`) ? 1 : 0;
    // Two of eight missed has a probability of 2 % at a coverage of 97 %; test/prove counts more seeds.
    expect(held).toBeGreaterThanOrEqual(seeds - 1);
  });
});
