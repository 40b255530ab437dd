import type { ChainCheck } from "../planning/index.ts";
import { conciseNumber, humanDuration } from "../planning/index.ts";
import type { Scenario } from "../scenario/index.ts";
import { counted } from "./counted.ts";
import { plainRate } from "./plain-rate.ts";
import { shortTime } from "./short-time.ts";
import { styled, wrap } from "./style.ts";

/** What `check` found, for people. */
export function printCheck(scenario: Scenario, check: ChainCheck): string {
  const rows: [string, string][] = [];
  const { setting, loop, detection, margin } = check;
  rows.push(["tick period", `${check.tickPeriod} s`]);
  if (check.burstsPerTick !== null) rows.push(["bursts a tick", String(check.burstsPerTick)]);
  rows.push(["recording", check.recording]);
  if (setting) {
    rows.push(["rate asked for", `${setting.requestedHz} Hz`], ["rate set", `${setting.setHz} Hz`]);
    const { fractionalError } = setting;
    const size = Number(fractionalError.toPrecision(3));
    rows.push(["setting error", `${size}, ${plainRate(fractionalError)}`]);
  }
  if (loop) {
    const bandwidth = Number(loop.noiseBandwidthHz.toPrecision(3));
    rows.push([
      "loop",
      `${loop.naturalHz} Hz, damping ${loop.damping}; noise bandwidth ${bandwidth} Hz`,
    ]);
    rows.push(["synthesizer jitter", `${shortTime(loop.jitter.total)} rms`]);
  }
  if (detection) {
    const { meanDelay, rmsDelay, missProbability, blockedProbability } = detection;
    const delay = `${shortTime(meanDelay)}, spread ${shortTime(rmsDelay)} rms`;
    rows.push(["detection delay", Number.isNaN(meanDelay) ? "no burst makes a step" : delay]);
    const share = (probability: number) =>
      probability < 1e-12 ? "below 1e-12" : conciseNumber(probability);
    rows.push(["missed bursts", share(missProbability)]);
    rows.push(["blocked bursts", share(blockedProbability)]);
  }
  if (margin) {
    const percent = (ratio: number) => `${Number((100 * Math.abs(ratio - 1)).toPrecision(2))} %`;
    rows.push([
      "drive margin",
      `amplitude may fall ${percent(margin.amplitudeRatio)}, threshold rise ${percent(margin.thresholdRatio)}`,
    ]);
  }
  for (const beat of check.beats.slice(0, 3)) {
    const period = Number.isFinite(beat.period)
      ? humanDuration(beat.period)
      : "for ever (exact ratio)";
    rows.push([
      "beat",
      `${beat.p}/${beat.q}: ${period}, delay swing ±${shortTime(beat.delayAmplitude)}`,
    ]);
  }
  rows.push([
    "single reading",
    `${conciseNumber(check.readingRms)} rms: ${meaningful(check.digits)}`,
  ]);
  rows.push(["time resolution", `${shortTime(check.timeResolution)} at the end of the run`]);
  for (const { path, processes, ratio } of check.leftOut) {
    rows.push(
      path === "receiver.charge"
        ? [
            "left out of jumps",
            `charge of the burst before: ${conciseNumber(ratio)} of the receiver's noise power`,
          ]
        : [
            "left out of loop",
            `${counted(processes, "process", "processes")} of ${path}: below ${conciseNumber(ratio)} of the spectrum`,
          ],
    );
  }
  const width = Math.max(...rows.map(([name]) => name.length));
  const lines = rows.map(([name, value]) =>
    wrap(
      `${name.padEnd(width)}  ${value}`.replace(/ {2,}/g, (s) => "\u00a0".repeat(s.length)),
      80,
      " ".repeat(width + 2),
    ),
  );
  const warnings = check.warnings.map(({ path, message }) =>
    wrap(`warning: ${path}: ${message}`, 80, "  "),
  );
  const parts = [
    styled("bold", scenario.title),
    ...lines,
    ...(warnings.length > 0 ? ["", ...warnings] : []),
  ];
  return `${parts.join("\n").replaceAll("\u00a0", " ")}\n`;
}

/** What a rate of so many significant digits is good for. */
function meaningful(digits: number): string {
  if (digits === 0) return "no digit means anything";
  return `about ${counted(digits, "digit")} ${digits === 1 ? "means" : "mean"} something`;
}
