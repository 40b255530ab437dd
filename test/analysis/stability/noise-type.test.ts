import { describe, expect, it } from "vitest";
import { noiseName, noiseTypes } from "../../../src/analysis/index.ts";

describe("noiseName", () => {
  it("says the type in words", () => {
    expect(noiseTypes.map(noiseName)).toEqual([
      "white PM",
      "flicker PM",
      "white FM",
      "flicker FM",
      "random-walk FM",
    ]);
  });
});
