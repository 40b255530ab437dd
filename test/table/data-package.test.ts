import { Ajv } from "ajv";
import { describe, expect, it } from "vitest";
import {
  burstsColumns,
  dataPackage,
  jsonText,
  periodReadingsColumns,
  ticksColumns,
  timeIntervalReadingsColumns,
} from "../../src/view/table/index.ts";
import { frictionlessProfile } from "./frictionless-profile.ts";

// SHA-256 of the empty string: FIPS 180-4 example values, widely reproduced.
const emptyDigest = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";

const file = (name: string, columns: typeof ticksColumns) => ({
  name,
  path: `${name}.csv`,
  title: name,
  description: `The ${name}`,
  columns,
  primaryKey: [columns[0]!.name],
  bytes: 0,
  sha256: emptyDigest,
});

const input = {
  name: "harbour-1",
  title: 'Harbour "east" <b>🕰️</b>',
  description: "A run",
  created: "2024-02-29T12:00:00Z",
  command: ["run", "harbour"],
  files: [
    file("readings", periodReadingsColumns),
    file("ticks", ticksColumns),
    file("bursts", burstsColumns),
  ],
  provenance: {
    schema_version: 1,
    tool: "tickwright",
    version: "0.1.0",
    scenario: { title: "Harbour", length_s: 100 },
    scenario_text: "title: Harbour\nlength_s: 100\n",
    scenario_sha256: emptyDigest,
    recording: "bursts",
    seed: "harbour-1",
    length_s: 100,
    ends_at_length: true,
    readings_wanted: null,
    was_interrupted: false,
    generator: "tychei",
    node: "20.19.0",
    v8: "11.3",
    platform: "linux x64",
    counts: { readings: 2 },
    warnings: [{ code: "setting", path: "synthesizer.output_hz", message: "off" }],
    truth: { steady_rate: 2e-11 },
    digests: { "readings.csv": emptyDigest },
  },
} as const;

const validate = new Ajv({ allErrors: true }).compile(frictionlessProfile);

describe("dataPackage", () => {
  it("is a descriptor by Frictionless Data Package v2", () => {
    const read: unknown = JSON.parse(jsonText(dataPackage(input)));
    validate(read);
    expect(validate.errors).toBeNull();
  });

  it("is judged by a profile that can tell a bad descriptor", () => {
    const good = dataPackage(input);
    expect(validate({ ...good, created: "yesterday" })).toBe(false);
    expect(validate({ ...good, resources: [{ ...good.resources[0], path: "/x" }] })).toBe(false);
    expect(validate({ ...good, resources: [{ ...good.resources[0], hash: "sha256" }] })).toBe(
      false,
    );
  });

  it("gives every quantity its unit twice: as a UCUM code and in words", () => {
    const fields = dataPackage(input).resources.flatMap((resource) => resource.schema.fields);
    // UCUM case-sensitive codes: second s, hertz Hz, pure number 1, annotations in braces.
    const suffix: Record<string, string> = { s: "_s", Hz: "_hz" };
    for (const field of fields) {
      const unit = "tickwright:unit" in field ? field["tickwright:unit"] : undefined;
      expect(unit === undefined).toBe(field.type === "string");
      if (unit !== undefined && unit in suffix) {
        expect(field.name.endsWith(suffix[unit]!)).toBe(true);
        expect(field.title).toContain(`(${unit})`);
      } else {
        expect(field.name).not.toMatch(/_(s|hz|v)$/);
      }
    }
  });

  it("names the columns that other programs rely on", () => {
    const names = (columns: typeof ticksColumns) => columns.map((column) => column.name).join();
    expect(names(periodReadingsColumns)).toBe(
      "reading,start_s,cycles,period_s,frequency_hz,rate,flag",
    );
    expect(names(timeIntervalReadingsColumns)).toBe("reading,start_s,time_error_s,flag");
    expect(names(ticksColumns)).toBe("tick,time_error_s,source");
    expect(names(burstsColumns)).toBe("burst,start_error_s,delay_s,outcome");
  });

  it("depends on nothing but its input", () => {
    expect(jsonText(dataPackage(input))).toBe(jsonText(dataPackage(structuredClone(input))));
  });

  it("refuses what the standard refuses", () => {
    const bad = (change: object) => () =>
      dataPackage({ ...input, files: [{ ...input.files[0]!, ...change }] });
    expect(bad({ name: "Readings" })).toThrow(RangeError);
    expect(bad({ bytes: -1 })).toThrow("bytes of readings must be an integer >= 0, got -1");
    expect(bad({ sha256: "abc" })).toThrow("sha256 of readings");
    expect(bad({ primaryKey: ["tick"] })).toThrow("must name columns, got tick");
    expect(() => dataPackage({ ...input, created: "2024" })).toThrow("created must match");
    expect(() => dataPackage({ ...input, files: [] })).toThrow("one or more");
    expect(() => dataPackage({ ...input, files: [input.files[0]!, input.files[0]!] })).toThrow(
      "different names",
    );
  });
});
