import { describe, expect, it } from "vitest";
import { refusals } from "../../src/cli/index.ts";

const estimate = (method: "mean_of_readings" | "end_to_end" | "line_fit", why: string) => ({
  method,
  applies: why === "",
  why,
});

describe("refusals", () => {
  it("names together what is refused for one reason", () => {
    expect(
      refusals([
        estimate("mean_of_readings", ""),
        estimate("end_to_end", "breaks"),
        estimate("line_fit", "breaks"),
      ]),
    ).toEqual(["end to end and line fit do not apply: breaks"]);
    expect(
      refusals([
        estimate("mean_of_readings", "few"),
        estimate("end_to_end", "few"),
        estimate("line_fit", "it drifts"),
      ]),
    ).toEqual([
      "mean of readings and end to end do not apply: few",
      "line fit does not apply: it drifts",
    ]);
  });

  it("says nothing where all apply", () => {
    expect(refusals([estimate("line_fit", "")])).toEqual([]);
  });
});
