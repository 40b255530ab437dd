import { describe, expect, it } from "vitest";
import { digitWarnings } from "../../src/judgement/index.ts";
import { normalStream } from "./power-law-noise.ts";

const codes = (values: Float64Array) =>
  digitWarnings({ kind: "time_error", timeError: values, spacing: 1 }).map((w) => w.code);
const noise = (seed: string, length: number, step: number) => {
  const normal = normalStream(seed);
  return Float64Array.from({ length }, () => Math.round(normal() / step) * step);
};

describe("digitWarnings", () => {
  it("says that a record without spread is frozen", () => {
    expect(codes(new Float64Array(10).fill(1.5))).toEqual(["frozen"]);
  });

  it("says that a record is coarser than its noise", () => {
    expect(codes(noise("coarse", 400, 3))).toEqual(["coarse"]);
  });

  it("says where a record stood still for a while", () => {
    const values = noise("still", 400, 1e-6);
    values.fill(values[100]!, 100, 120);
    expect(codes(values)).toEqual(["repeated"]);
  });

  it.each([1e-9, 1e-3, 0.1])("has nothing against steps of %d of the noise", (step) => {
    expect(codes(noise("fine", 2000, step))).toEqual([]);
  });

  it("leaves few readings alone", () => {
    expect(codes(Float64Array.of(1, 1, 1))).toEqual([]);
  });
});
