import { describe, expect, it } from "vitest";
import { jsonText } from "../../src/view/table/index.ts";

describe("jsonText", () => {
  it("is read back as the same value", () => {
    const value = { b: [1, 2.5e-11, null], a: 'quotes " and 🕰️ and \u0000' };
    expect(JSON.parse(jsonText(value))).toEqual(value);
    expect(jsonText({ a: 1 })).toBe('{\n  "a": 1\n}\n');
  });

  it("refuses numbers that JSON cannot hold (RFC 8259, section 6)", () => {
    expect(() => jsonText({ rate: [NaN] })).toThrow("must be finite, got NaN");
    expect(() => jsonText({ rate: Infinity })).toThrow('got Infinity at key "rate"');
  });
});
