import { describe, expect, it } from "vitest";
import { complaintText } from "../../src/scenario/index.ts";
import { complaintsAbout, placeAt, sample, sampleWith, spoilt, warningsWith } from "./sample.ts";

const said = (...sets: string[]) => complaintsAbout(sample, sets).map(complaintText);
const rate = (hz: number) =>
  `disturbances.2={ kind: drive_rate, at_s: 300, for_s: 9, output_hz: ${hz} }`;

describe("senseOfDisturbances", () => {
  it("warns of what is written out of order, or lies beyond the end of the run", () => {
    expect(warningsWith("disturbances.1.at_s=50")).toEqual([
      "disturbance_order disturbances.1.at_s",
    ]);
    expect(warningsWith("disturbances.1.at_s=20000")).toEqual([
      "disturbance_beyond_end disturbances.1.at_s",
    ]);
  });

  it.each([
    "drive_off, for_s: 1",
    "drive_rate, for_s: 1, output_hz: 4",
    "amplitude, for_s: 1, factor: 2",
  ])("refuses %s where there is no drive", (kind) => {
    const text = sample
      .replace(/^synthesizer:[\s\S]*?^counter:/m, "counter:")
      .replace("kind: drive_off, at_s: 100, for_s: 10", `at_s: 1, kind: ${kind}`);
    const name = kind.split(",")[0]!;
    const place = placeAt(text, text.indexOf(name));
    expect(complaintsAbout(text).map(complaintText)).toEqual([
      `x.yaml:${place}: disturbances.0.kind: is ${name}, but the scenario has no drive; leave it out, or add drive and receiver`,
    ]);
  });

  it("refuses two of one kind at once, and names them as they stand in the file", () => {
    const text = spoilt("kind: missed_step, at_s: 200", "kind: drive_off, at_s: 95, for_s: 10");
    const place = placeAt(text, text.indexOf("100, for_s"));
    expect(complaintsAbout(text).map(complaintText)).toEqual([
      `x.yaml:${place}: disturbances.0.at_s: falls into disturbances.1, which is of the same kind; join the two, or let one end before the other begins`,
    ]);
  });

  it("lets two of one kind follow each other, and two of different kinds meet", () => {
    expect(warningsWith("disturbances.1={ kind: drive_off, at_s: 110, for_s: 5 }")).toEqual([]);
    expect(
      warningsWith("disturbances.1={ kind: amplitude, at_s: 105, for_s: 5, factor: 0.9 }"),
    ).toEqual([]);
  });

  it("refuses a rate at which bursts do not fit", () => {
    expect(warningsWith(rate(16))).toEqual([]);
    expect(said(rate(17))[0]).toContain(
      "disturbances.2.output_hz: leaves 0.0588 s from burst to burst, and a burst lasts 0.06 s",
    );
  });

  it("warns of a rate so low that the clock falls back between bursts", () => {
    expect(warningsWith(rate(0.67))).toEqual([]);
    expect(warningsWith(rate(0.66))).toEqual(["fallback_takes_over disturbances.2.output_hz"]);
  });

  it("warns of disturbances of a clock that the counter does not look at", () => {
    const { warnings } = sampleWith("counter.input=synthesizer", "counter.holdoff_s=0");
    expect(warnings.map(({ code, path }) => `${code} ${path}`)).toEqual([
      "no_effect disturbances.0",
      "no_effect disturbances.1",
    ]);
  });
});
