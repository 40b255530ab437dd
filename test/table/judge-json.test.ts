import { describe, expect, it } from "vitest";
import { judgeReadings } from "../../src/judgement/index.ts";
import { jsonText, judgeToJson } from "../../src/view/table/index.ts";

/** Time errors every minute, a dial set right by a second in the middle and one reading that is wrong by 0.3 s. */
const timeError = Float64Array.from(
  { length: 60 },
  (_, i) => 1e-4 * Math.sin(i * i) + (i >= 30 ? 1 : 0) + (i === 12 ? 0.3 : 0),
);

const judged = (nominal: { nominalPeriod?: number }) =>
  JSON.parse(
    jsonText(
      judgeToJson(judgeReadings({ kind: "time_error", timeError, spacing: 60, ...nominal })),
    ),
  );

describe("judgeToJson", () => {
  it("gives a step of the time error in seconds, and in no cycles where no period is known", () => {
    // The second and the 0.3 s are put in above; a second is half a cycle of two, so no whole slip.
    const { outliers } = judged({});
    expect(outliers).toMatchObject([
      { reading: 12, kind: "stray", cycles: null },
      { reading: 30, kind: "step", cycles: null },
    ]);
    expect(outliers[0].time_error_s).toBeCloseTo(0.3, 3);
    expect(outliers[1].time_error_s).toBeCloseTo(1, 3);
    expect(judged({ nominalPeriod: 2 }).outliers[1].cycles).toBeCloseTo(-0.5, 3);
  });

  it("has keys of one kind throughout", () => {
    const keys: string[] = [];
    JSON.stringify(judged({}), (key, value) => {
      keys.push(key);
      return value;
    });
    expect(keys.filter((key) => !/^[a-z0-9_]*$/.test(key))).toEqual([]);
  });
});
