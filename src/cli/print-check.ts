import { shortNumber } from "../numeric/index.ts";
import type { ChainCheck } from "../planning/index.ts";
import type { Derived, Scenario } from "../scenario/index.ts";
import { counted, humanDuration, rateText } from "../view/words/index.ts";
import { labelled, styled, wrap } from "./style.ts";

/** What `check` found, for people: warnings last, before them what stands in no file as it is. */
export function printCheck(
  scenario: Scenario,
  check: ChainCheck,
  derived: readonly Derived[],
): string {
  const rows = [...ofTheDrive(check), ...ofTheReadings(check)];
  const warnings = check.warnings.map(({ path, message }) =>
    wrap(`warning: ${path}: ${message}`, 80, "  "),
  );
  const parts = [
    styled("bold", scenario.title),
    ...labelled(rows),
    ...printDerived(derived),
    ...(warnings.length > 0 ? ["", ...warnings] : []),
  ];
  return `${parts.join("\n")}\n`;
}

/** Values that stand in no file as they are, by where they come from. */
function printDerived(derived: readonly Derived[]): string[] {
  const sources = [...new Set(derived.map(({ from }) => from))];
  const lines = sources.map((source) => {
    const values = derived
      .filter(({ from }) => from === source)
      .map(({ path, value }) => `${path} ${shortNumber(value, 4)}`);
    return wrap(`${values.join(", ")}: ${source}`, 80, "  ");
  });
  return lines.length > 0 ? ["", "Converted or typical:", ...lines] : [];
}

type Row = readonly [label: string, text: string];

function ofTheDrive(check: ChainCheck): Row[] {
  const { setting, loop, detection, margin } = check;
  const rows: Row[] = [["tick period", `${check.tickPeriod} s`]];
  if (check.burstsPerTick !== null) rows.push(["bursts per tick", String(check.burstsPerTick)]);
  rows.push(["recording", check.recording]);
  if (setting) {
    const { requestedHz, setHz, fractionalError } = setting;
    rows.push(
      ["frequency asked for", `${requestedHz} Hz`],
      ["frequency set", `${setHz} Hz`],
      ["setting error", `${rateText(fractionalError)} (${shortNumber(fractionalError, 3)})`],
    );
  }
  if (loop) {
    const bandwidth = shortNumber(loop.noiseBandwidthHz, 3);
    rows.push(
      ["loop", `${loop.naturalHz} Hz, damping ${loop.damping}; noise bandwidth ${bandwidth} Hz`],
      ["timing noise of its edges", `${humanDuration(loop.jitter.total)} rms`],
    );
  }
  if (detection) {
    const { meanDelay, rmsDelay, missProbability, blockedProbability } = detection;
    const share = (probability: number) =>
      probability < 1e-12 ? "below 1e-12" : shortNumber(probability);
    rows.push(
      [
        "detection delay",
        Number.isNaN(meanDelay)
          ? "no burst makes a step"
          : `${humanDuration(meanDelay)}, spread ${humanDuration(rmsDelay)} rms`,
      ],
      ["missed bursts", share(missProbability)],
      ["blocked bursts", share(blockedProbability)],
    );
  }
  if (margin) {
    const percent = (ratio: number) => `${shortNumber(100 * Math.abs(ratio - 1))} %`;
    rows.push([
      "drive margin",
      `amplitude may fall ${percent(margin.amplitudeRatio)}, threshold rise ${percent(margin.thresholdRatio)}`,
    ]);
  }
  return rows;
}

function ofTheReadings(check: ChainCheck): Row[] {
  const { beats, readingRms, digits, timeResolution, leftOut } = check;
  return [
    ...beats.slice(0, 3).map(({ p, q, period, delayAmplitude }): Row => {
      const every = Number.isFinite(period) ? `every ${humanDuration(period)}` : "always (exactly)";
      const swing = `the delay swings by ±${humanDuration(delayAmplitude)}`;
      return ["tone and bursts in step", `${every}, ${p} to ${q}: ${swing}`];
    }),
    ["single reading", singleReading(readingRms, digits)],
    ["numerical resolution", `${humanDuration(timeResolution)} at the end of the run`],
    ...leftOut.map(
      ({ path, processes, ratio }): Row =>
        path === "receiver.charge"
          ? [
              "left out of jumps",
              `charge of the burst before: ${shortNumber(ratio)} of the receiver's noise power`,
            ]
          : [
              "left out of the loop",
              `${counted(processes, "process", "processes")} of ${path}: below ${shortNumber(ratio)} of the spectrum`,
            ],
    ),
  ];
}

function singleReading(rms: number, digits: number | null): string {
  if (digits === null) return "the scenario has nothing random in it: no digit can be judged";
  const meaning =
    digits === 0
      ? "no digit means anything"
      : `about ${counted(digits, "digit")} ${digits === 1 ? "means" : "mean"} something`;
  return `${rateText(rms).replace("+", "")} rms (${shortNumber(rms)}): ${meaning}`;
}
