import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  defaultSettings,
  fromAddress,
  lessonScenario,
  lessonSteps,
  type Settings,
  settingRules,
  toAddress,
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
    gate: fc.constantFrom("1", "5", "100"),
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
      "#gate=3&burst=0&burst=201&periods=1.5&within=soon&off=drive,moon&seed=&__proto__=1&x=1";
    const { settings, refused } = fromAddress(address, defaults, rules);
    expect(settings).toEqual(defaults);
    expect(refused).toEqual([
      "gate",
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
});
