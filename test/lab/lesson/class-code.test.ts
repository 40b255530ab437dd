import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Bench, claimOf, claimVerdict, codeOf, paceOf, tasks } from "../../../src/lab/index.ts";
import { demo } from "../../page/lesson-file.ts";

const pace = paceOf(
  () => false,
  () => {},
);

const claim = fc.record({
  word: fc.string({ minLength: 1, maxLength: 20, unit: "grapheme" }),
  name: fc.string({ minLength: 1, maxLength: 20, unit: "grapheme" }),
  rate: fc.double({ min: -1e6, max: 1e6, noNaN: true }).map((value) => value + 0),
  half: fc.double({ min: 1e-9, max: 1e6, noNaN: true }),
});

describe("codes of a class", () => {
  it("come back as they were, of any word and name", () => {
    fc.assert(
      fc.property(claim, (one) => {
        const code = codeOf(one);
        expect(code).toMatch(/^[\w-]+$/);
        expect(claimOf(` ${code}\n`)).toEqual(one);
      }),
      { seed: 5 },
    );
  });

  it("are none where a letter was lost", () => {
    const code = codeOf({ word: "acorn", name: "Ada", rate: 1234, half: 20 });
    expect(claimOf(code.slice(0, -3))).toBeNull();
    expect(claimOf(code.slice(1))).toBeNull();
    expect(claimOf("hello")).toBeNull();
  });

  it("are judged: too much, too little, sound", () => {
    const one = { word: "w", name: "n", rate: 100, half: 5 };
    expect(claimVerdict(one, 106, 1)).toBe("claimed too much");
    expect(claimVerdict(one, 101, 0.4)).toBe("claimed too little");
    expect(claimVerdict(one, 101, 1)).toBe("sound");
  });
});

describe("the challenge of a class", () => {
  it("hides one rate behind a word, and gives each pupil runs of their own", async () => {
    const bench = new Bench(demo("school-laboratory"));
    const { truth, best } = await tasks.truth(bench, { word: "acorn" }, pace);
    const other = await tasks.truth(bench, { word: "beech" }, pace);
    expect(truth).not.toBe(other.truth);
    const found = async (name: string) => {
      const runs = [[1, 600]] as const;
      const answer = await tasks.class(bench, { word: "acorn", name, runs }, pace);
      return answer.found[0]!.rates.find(({ method }) => method === "line_fit")!.rate;
    };
    const [ada, bo] = [await found("Ada"), await found("Bo")];
    expect(ada).not.toBe(bo);
    // The best way is what `best` is about: within three times a 95 % half-width, 1 in 10⁸ is not.
    for (const rate of [ada, bo]) expect(Math.abs(rate - truth)).toBeLessThan(3 * best);
  });
});
