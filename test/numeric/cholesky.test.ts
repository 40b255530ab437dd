import { describe, expect, it } from "vitest";
import { cholesky } from "../../src/numeric/index.ts";

describe("cholesky", () => {
  it("factors the textbook matrix [[4, 12, -16], [12, 37, -43], [-16, -43, 98]] (common practice, no published source)", () => {
    const factor = cholesky(Float64Array.of(4, 12, -16, 12, 37, -43, -16, -43, 98), 3);
    expect([...factor]).toEqual([2, 0, 0, 6, 1, 0, -8, 5, 3]);
  });

  it("gives a zero pivot where a row depends on the rows before it", () => {
    expect([...cholesky(Float64Array.of(4, 2, 2, 1), 2)]).toEqual([2, 0, 1, 0]);
  });

  it("gives zeros for no covariance", () => {
    expect([...cholesky(new Float64Array(4), 2)]).toEqual([0, 0, 0, 0]);
  });

  it("throws RangeError for an indefinite matrix", () => {
    expect(() => cholesky(Float64Array.of(1, 2, 2, 1), 2)).toThrow(/positive semidefinite/);
  });

  it("throws RangeError for a matrix of another size", () => {
    expect(() => cholesky(new Float64Array(3), 2)).toThrow(/must hold 4 numbers, got 3/);
  });
});
