import { Ajv } from "ajv";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { parseScenario, resolvedToJson, scenarioJsonSchema } from "../../src/scenario/index.ts";
import { complaintsAbout, demo, demos, sample, spoilt } from "./sample.ts";

const accepts = new Ajv({ strict: true, allowUnionTypes: true }).compile(scenarioJsonSchema());

describe("scenarioJsonSchema", () => {
  it("is the file beside the demos", async () => {
    const text = `${JSON.stringify(scenarioJsonSchema(), null, 2)}\n`;
    await expect(text).toMatchFileSnapshot("../../scenarios/scenario.schema.json");
  });

  it.each(demos)("accepts %s, which names it to editors", (name) => {
    expect(demo(name)).toMatch(
      /^# yaml-language-server: \$schema=\.\/scenario\.schema\.json\n#\n# /,
    );
    expect(accepts(parse(demo(name))), JSON.stringify(accepts.errors)).toBe(true);
  });

  it.each(demos)("accepts %s with every default written out", (name) => {
    const json = resolvedToJson(parseScenario(demo(name), name).scenario);
    expect(accepts(json), JSON.stringify(accepts.errors)).toBe(true);
  });

  it("accepts the key by which JSON files name it", () => {
    const json = { $schema: "./scenario.schema.json", ...parse(sample) };
    expect(accepts(json)).toBe(true);
    expect(parseScenario(JSON.stringify(json), "x.json").warnings).toEqual([]);
  });

  it.each([
    ["carrier_hz", "carier_hz"],
    ["length_s: 20000", "length_s: long"],
    ["length_s: 20000", "length_s: 0"],
    ["length_s: 20000", "# no length"],
    ["steps_per_tick: 5", "steps_per_tick: 1.5"],
    ["kind: missed_step", "kind: missed_tick"],
    ["kind: drive_off, at_s: 100, for_s: 10", "kind: drive_off, at_s: 100"],
    ["gate_s: 50", "gate_s: double"],
    ["gate_s: 50", "gate_s: 50, technique: other"],
    ["{ fractional_offset: -3e-9 }", "other"],
    ["{ fractional_offset: -3e-9 }", "{ offset: -3e-9 }"],
    ["mean_c: 20", "mean_c: warm"],
    ["white_fm_adev_1s: 2e-11", "h: { h3: 1 }"],
    ["white_fm_adev_1s: 2e-11", "white_fm_adev_1s: -1"],
    ["drive:", "drives:"],
  ])("refuses %s written as %s, as the parser does", (piece, by) => {
    const text = spoilt(piece, by);
    expect(complaintsAbout(text).length).toBeGreaterThan(0);
    expect(accepts(parse(text))).toBe(false);
  });
});
