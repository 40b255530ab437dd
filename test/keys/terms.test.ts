import { describe, expect, it } from "vitest";
import { z } from "zod";
import { asWritten, inTerms } from "../../src/keys/index.ts";

const written = {
  burst_s: 0.06,
  amplitude_v: 12,
  h_minus_1: 1,
  white_s_per_sqrt_hz: 2,
  lines: [{ frequency_hz: 50, at_s: 1 }],
  loop: { natural_hz: 1.5 },
};
const terms = {
  burst: 0.06,
  amplitudeV: 12,
  hMinus1: 1,
  white: 2,
  lines: [{ frequencyHz: 50, at: 1 }],
  loop: { naturalHz: 1.5 },
};
const number = z.number();
const schema = z.strictObject({
  burst_s: number,
  amplitude_v: number.default(1),
  h_minus_1: number.optional(),
  white_s_per_sqrt_hz: number,
  lines: z.array(z.strictObject({ frequency_hz: number, at_s: number })).default([]),
  loop: z.strictObject({ natural_hz: number }).optional(),
});

describe("inTerms", () => {
  it("leaves seconds unnamed and puts the rest in camel case, all the way down", () => {
    expect(inTerms(written)).toEqual(terms);
  });
});

describe("asWritten", () => {
  it("is the way back", () => {
    expect(asWritten(schema, inTerms(written))).toEqual(written);
  });

  it("leaves out what is null or not in the file, and finds a section that stands beside its keys", () => {
    const { loop: _loop, ...rest } = terms;
    const found = asWritten(schema, { ...rest, hMinus1: null, other: 3, naturalHz: 1.5 });
    const { h_minus_1: _level, ...others } = written;
    expect(found).toEqual(others);
    expect(asWritten(schema, { ...rest, loop: null })).not.toHaveProperty("loop");
  });
});
