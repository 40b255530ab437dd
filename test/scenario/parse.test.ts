import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { complaintText, parseScenario, ScenarioError } from "../../src/scenario/index.ts";
import { complaintsAbout, demo, demos, sample } from "./sample.ts";

/** Parses; a refusal must be located within the text. Any other error fails the property. */
function acceptsOrLocates(text: string, sets: string[] = []): boolean {
  try {
    parseScenario(text, "x.yaml", sets);
    return true;
  } catch (error) {
    if (!(error instanceof ScenarioError)) throw error;
    expect(error.complaints.length).toBeGreaterThan(0);
    expect(error.message).toBe(error.complaints.map(complaintText).join("\n"));
    const lines = text.replace(/^\ufeff/, "").split("\n");
    for (const { line, column, message, file } of error.complaints) {
      expect(message).not.toBe("");
      if (line === null || column === null) {
        expect(file).toMatch(/^--set /);
        continue;
      }
      expect(line).toBeGreaterThanOrEqual(1);
      expect(line).toBeLessThanOrEqual(lines.length);
      expect(column).toBeGreaterThanOrEqual(1);
      expect(column).toBeLessThanOrEqual(lines[line - 1]!.length + 1);
    }
    return false;
  }
}

describe("parseScenario", () => {
  it.each(demos)("takes %s without a warning", (name) => {
    expect(parseScenario(demo(name), `${name}.yaml`).warnings).toEqual([]);
  });

  it("gives the same scenario for YAML and for the same as JSON", () => {
    const json = JSON.stringify(parse(sample), null, 2);
    expect(parseScenario(json, "x.json")).toStrictEqual(parseScenario(sample, "x.yaml"));
  });

  it.each([
    ["a number", "5"],
    ["prose", "This is no scenario at all."],
    ["a list", "- a\n- b"],
  ])("refuses %s", (_case, text) => {
    const texts = complaintsAbout(text).map(complaintText);
    expect(texts).toEqual([
      "x.yaml:1:1: is no scenario: it must have keys with values, such as length_s: 3600",
    ]);
  });

  it("tells everything that is wrong, in the order of the file", () => {
    const text = sample
      .replace("length_s: 20000", "length_s: -1")
      .replace("noise_v: 0.1", "noise: 0.1")
      .replace("10e6", "fast");
    expect(complaintsAbout(text).map(({ path }) => path)).toEqual([
      "length_s",
      "reference.nominal_hz",
      "receiver.noise",
    ]);
  });

  it("tells many faults by number", () => {
    const text = sample.replace(
      /^disturbances:[\s\S]*/m,
      `disturbances:\n${"  - {}\n".repeat(300)}`,
    );
    const complaints = complaintsAbout(text);
    expect(complaints).toHaveLength(21);
    expect(complaints.at(-1)!.message).toBe("and 280 more faults");
  });

  it("takes aliases, and finds faults behind them", () => {
    const text = sample
      .replace("noise: { white_fm_adev_1s: 2e-11 }", "noise: &quiet { white_fm_adev_1s: 2e-11 }")
      .replace("after_s: 1.5", "after_s: 1.5, noise: *quiet");
    const { scenario } = parseScenario(text, "x");
    expect(scenario.clock.fallback?.noise.h0).toBe(scenario.reference.noise.h0);
    const wrong = text.replace("2e-11", "loud");
    expect(complaintsAbout(wrong).map(({ path, line }) => `${line} ${path}`)).toEqual([
      "8 reference.noise.white_fm_adev_1s",
      "8 receiver.fallback.noise.white_fm_adev_1s",
    ]);
  });
});

describe("parseScenario on broken texts", () => {
  it("refuses with places, whatever is cut out of a scenario and put in instead", () => {
    const at = fc.nat({ max: sample.length });
    const put = fc.oneof(
      fc.string({ unit: "binary", maxLength: 8 }),
      fc.constantFrom(
        "{",
        "]",
        ": ",
        "\n",
        "\n- ",
        "&a ",
        "*a",
        "!!",
        "'",
        "|",
        "\t",
        "---\n",
        "1e999",
      ),
    );
    fc.assert(
      fc.property(at, fc.nat({ max: 30 }), put, (start, length, text) => {
        acceptsOrLocates(sample.slice(0, start) + text + sample.slice(start + length));
      }),
      { seed: 4, numRuns: 250 },
    );
  });

  it("refuses with places, whatever value a key is given", () => {
    const keys = [...sample.matchAll(/[a-z_]+: /g)].map(({ 0: key, index }) => index + key.length);
    const value = fc.json({ maxDepth: 2 });
    fc.assert(
      fc.property(fc.constantFrom(...keys), value, (offset, json) => {
        const rest = sample.slice(offset).replace(/^(\{.*\}|\[.*\]|[^,}\n]*)/, () => json);
        acceptsOrLocates(sample.slice(0, offset) + rest);
      }),
      { seed: 5, numRuns: 200 },
    );
  });

  it("refuses with places, whatever is overridden", () => {
    const step = fc.constantFrom(
      "drive",
      "counter",
      "timebase",
      "gate_s",
      "0",
      "disturbances",
      "x",
      "noise",
    );
    const path = fc.array(step, { maxLength: 3 }).map((steps) => steps.join("."));
    const value = fc.oneof(fc.json({ maxDepth: 1 }), fc.string({ maxLength: 6 }));
    fc.assert(
      fc.property(path, value, (key, text) => {
        acceptsOrLocates(sample, [`${key}=${text}`]);
      }),
      { seed: 6, numRuns: 200 },
    );
  });

  it("refuses with places any text at all", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 200 }), (text) => {
        expect(acceptsOrLocates(text)).toBe(false);
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});
