import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  defaultSettings,
  fromAddress,
  lessonScenario,
  lessonSteps,
  type Settings,
  saidIn,
  settingRules,
  toAddress,
  withSaid,
} from "../../../src/lab/index.ts";
import { demo } from "../../page/lesson-file.ts";

const steps = lessonSteps({ scenario: lessonScenario(demo("observatory")), title: "" });
const defaults = defaultSettings("seed-1");
const rules = settingRules(steps);

/** Any settings that the page can come to. */
const anySettings: fc.Arbitrary<Settings> = fc
  .record({
    step: fc.constantFrom(...steps.map(({ id }) => id)),
    seed: fc.string({ minLength: 1, maxLength: 60, unit: "grapheme" }),
    gates: fc.constantFrom("0-4,4-8", "1-2", "0-16"),
    said: fc.constantFrom("", "period.500000", "draw.1-0.5-0.2-0.1-0.05-0.02-0.01_chain.1"),
    word: fc.constantFrom("", "acorn"),
    off: fc.constantFrom("", "drive", "reference,drive,time base"),
    within: fc.constantFrom("1e-7", "0.5 ppm", "2 ms/day"),
    burst: fc.integer({ min: 1, max: 200 }).map(String),
    dead: fc.constantFrom("yes", "no"),
  })
  .map((some) => ({ ...defaults, ...some }));

describe("settings in the address", () => {
  it("come back as they were", () => {
    fc.assert(
      fc.property(anySettings, (settings) => {
        const found = fromAddress(`#${toAddress(settings, defaults)}`, defaults, rules);
        expect(found).toEqual({ settings, refused: [] });
      }),
      { seed: 3 },
    );
  });

  it("take no room where nothing differs", () => {
    expect(toAddress(defaults, defaults)).toBe("");
  });

  it("are refused by name where they make no sense, and left at their defaults", () => {
    const address =
      "#gates=3&burst=0&burst=201&periods=1.5&within=soon&off=drive,moon&seed=&__proto__=1&x=1";
    const { settings, refused } = fromAddress(address, defaults, rules);
    expect(settings).toEqual(defaults);
    expect(refused).toEqual([
      "gates",
      "burst",
      "burst",
      "periods",
      "within",
      "off",
      "seed",
      "__proto__",
      "x",
    ]);
  });

  it("are only those that the scenario has controls for", () => {
    const bare = lessonSteps({ scenario: lessonScenario(demo("school-laboratory")), title: "" });
    const found = fromAddress("#burst=5&step=loss&off=drive", defaults, settingRules(bare));
    expect(found.refused).toEqual(["burst", "step", "off"]);
  });

  it("keep what was predicted in each step, the last of it", () => {
    const said = withSaid(withSaid(withSaid("", "period", "500"), "chain", "1"), "period", "20.5");
    expect(said).toBe("chain.1_period.20.5");
    expect(saidIn(said, "period")).toBe("20.5");
    expect(saidIn(said, "chain")).toBe("1");
    expect(saidIn(said, "long")).toBeNull();
  });
});
