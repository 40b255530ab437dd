import type { Judgement, RateEstimate, TemperatureFit } from "../analysis/index.ts";
import { firstDriftingRow, noiseName } from "../analysis/index.ts";
import type { MadeReadings } from "../log/index.ts";
import {
  conciseNumber,
  conciseUncertainty,
  humanDuration,
  rateInWords,
} from "../planning/index.ts";
import type { Note } from "../readings/index.ts";
import { counted } from "./counted.ts";
import { methodNames } from "./method-names.ts";
import { outliersInWords, stepsInWords } from "./outliers-in-words.ts";
import { plainRate } from "./plain-rate.ts";
import { howToRead, rateCells, rateHead } from "./rate-columns.ts";
import { refusals } from "./refusals.ts";
import { shortTime } from "./short-time.ts";
import { styled, textTable, wrap } from "./style.ts";

const limits = {
  systematic_bound: "the time base is known no better",
  measurement: "the jitter of the readings",
  white_fm: "white FM of the oscillator",
  flicker_fm: "flicker FM of the oscillator: no mean converges",
  random_walk_fm: "random-walk FM of the oscillator: no mean converges",
  unknown: "noise that could not be told",
} as const;

/**
 * What `judge` found, for people: the answer first, then what spoils it, then the tables.
 *
 * @param read - the log it is about
 */
export function printJudgement(
  judgement: Judgement,
  temperature: TemperatureFit | null,
  read: MadeReadings,
  cause: string | null,
  within: number | null,
): string {
  const lines: string[] = [...answer(judgement.estimates, cause), ""];
  lines.push(
    wrap(`Read: ${read.detected}.`),
    ...kindOfRecord(judgement),
    ...notesInWords(read.notes),
  );
  if (temperature) {
    const { coefficient, standardUncertainty, meanTemperature } = temperature;
    const text = conciseUncertainty(coefficient, standardUncertainty, true);
    lines.push(
      wrap(
        `Temperature: ${text} per K, taken out; rates are those at ${meanTemperature.toFixed(1)} °C.`,
      ),
    );
  }
  lines.push(
    ...spoils(judgement, read.readings.line ?? []),
    "",
    estimateTable(judgement.estimates),
  );
  const [first] = judgement.estimates;
  if (first !== undefined) lines.push(...howToRead(first.rate, halfOf(first.interval95)));
  for (const { method, applies, why } of judgement.estimates) {
    if (applies) lines.push(wrap(`${methodNames[method]}: ${why}`, 80, "  "));
  }
  lines.push(...refusals(judgement.estimates));
  if (judgement.estimatesWithStrays) {
    lines.push("", "With the strays left in:", estimateTable(judgement.estimatesWithStrays));
  }
  lines.push(...furtherAnswers(judgement, within), "", ...stability(judgement));
  return `${lines.join("\n")}\n`;
}

/** Notes about a log, for people. */
function notesInWords(notes: readonly Note[]): string[] {
  return notes.map(({ message }) => wrap(`Note: ${message}.`, 80, "  "));
}

/** The most certain estimate that applies. */
function answer(estimates: readonly RateEstimate[], cause: string | null): string[] {
  const useful = estimates.filter((e) => e.applies && Number.isFinite(e.standardUncertainty));
  const best = useful.sort((a, b) => a.standardUncertainty - b.standardUncertainty)[0];
  if (best === undefined) {
    const [mean] = estimates;
    const why = mean?.why ?? "";
    if (mean === undefined || Number.isNaN(mean.rate)) return [wrap(`No rate: ${why}.`)];
    return [wrap(`Rate: ${plainRate(mean.rate)}, with no honest uncertainty: ${why}`)];
  }
  const half = (best.interval95[1] - best.interval95[0]) / 2;
  const fraction = conciseUncertainty(best.rate, half, true);
  const method = methodNames[best.method];
  const lines = [
    `Rate: ${styled("bold", rateInWords(best.rate, half))}, 95 % (${fraction}), by ${method}.`,
  ];
  if (best.steadyInterval95 === null) {
    lines.push(wrap(`No steady rate can be given: ${best.steadyWhy}.`));
  } else {
    const steady = (best.steadyInterval95[1] - best.steadyInterval95[0]) / 2;
    lines.push(`As a steady rate: ${rateInWords(best.rate, steady)}, 95 %.`);
  }
  if (best.systematicBound > 0) {
    const bound = plainRate(best.systematicBound).replace("+", "±");
    lines.push(
      wrap(`Beside this up to ${bound}${cause ? `: ${cause}` : " from the counter's time base"}.`),
    );
  }
  if (Number.isFinite(best.nextRunStandardDeviation) && best.nextRunStandardDeviation > 0) {
    const next = plainRate(best.nextRunStandardDeviation).replace("+", "±");
    lines.push(
      wrap(`A next run as long as this one may differ by ${next} (one standard deviation).`),
    );
  }
  return lines;
}

function kindOfRecord(judgement: Judgement): string[] {
  const { readings, missing, gate, backToBack, deadTime, singleReading, noiseFound } = judgement;
  const kind =
    backToBack === null
      ? "time errors every"
      : backToBack
        ? "back to back, each"
        : deadTime === 0
          ? "one after another, each"
          : "with dead time, each";
  const gaps = missing > 0 ? ` (${missing} missing)` : "";
  const { standardDeviation } = singleReading;
  // Of one reading no scatter is known.
  const scatter = Number.isNaN(standardDeviation)
    ? ""
    : `; a single one scatters by ${plainRate(standardDeviation).replace("+", "")}`;
  const lines = [
    wrap(`${counted(readings, "reading")}${gaps}, ${kind} ${humanDuration(gate)}${scatter}.`),
  ];
  if (Number.isFinite(noiseFound.edgeJitter) && noiseFound.edgeJitter > 0) {
    lines.push(`Jitter of one edge: ${shortTime(noiseFound.edgeJitter)} rms.`);
  }
  for (const { frequency, rms } of noiseFound.beats) {
    lines.push(
      `Beat in the time errors: every ${humanDuration(1 / frequency)}, ${shortTime(rms)} rms.`,
    );
  }
  return lines;
}

function spoils(judgement: Judgement, line: ArrayLike<number>): string[] {
  const { outliers, lost, slipNote, strayEffect } = judgement;
  const lines = outliersInWords(outliers, line);
  if (lost !== 0) {
    lines.push(
      `Slips: ${Number(Math.abs(lost).toPrecision(6))} s ${lost > 0 ? "lost" : "gained"}, apart from the rate.`,
    );
  }
  lines.push(...stepsInWords(outliers));
  if (slipNote !== "") lines.push(wrap(`Note: ${slipNote}.`, 80, "  "));
  if (strayEffect !== "") lines.push(wrap(`Note: ${strayEffect}.`, 80, "  "));
  for (const { message } of judgement.warnings) lines.push(wrap(`Caution: ${message}.`, 80, "  "));
  return lines;
}

function estimateTable(estimates: readonly RateEstimate[]): string {
  const rows = estimates.map((e) => [
    methodNames[e.method],
    ...rateCells(
      e.rate,
      halfOf(e.interval95),
      e.steadyInterval95 === null ? Number.NaN : halfOf(e.steadyInterval95),
      1.96 * e.naiveStandardUncertainty,
    ),
  ]);
  return textTable([["rate, 95 %", ...rateHead], ...rows]);
}

const halfOf = (interval: readonly [number, number]): number => (interval[1] - interval[0]) / 2;

function furtherAnswers(judgement: Judgement, within: number | null): string[] {
  const { longer, ahead } = judgement;
  const width = Math.max(...Object.values(methodNames).map((name) => name.length));
  const row = (method: RateEstimate["method"], text: string) =>
    `  ${methodNames[method].padEnd(width)}  ${text}`;
  const lines: string[] = [];
  if (longer && within !== null) {
    const goal = `±${plainRate(within).replace("+", "")} (${conciseNumber(within, 3)})`;
    lines.push(
      "",
      longer.length > 0
        ? `To know the rate to ${goal} at 95 %:`
        : wrap(`How much longer it takes to know the rate to ${goal} these readings cannot tell.`),
    );
    for (const { method, reachable, further, now, limitedBy } of longer) {
      const text = !reachable
        ? `never: ${limits[limitedBy]}`
        : further === 0
          ? `is there already (${plainRate(now).replace("+", "±")})`
          : `${humanDuration(further)} more`;
      lines.push(row(method, text));
    }
  }
  if (ahead?.length === 0) {
    lines.push("", "What the dial will be off by then these readings cannot tell.");
  } else if (ahead) {
    lines.push("", `In ${humanDuration(ahead[0]!.after)} the dial will be, at 95 %:`);
    for (const { method, gain, interval95 } of ahead) {
      const half = (interval95[1] - interval95[0]) / 2;
      const size = Math.abs(gain);
      const text = Number.isFinite(half) ? conciseUncertainty(size, half) : size.toPrecision(3);
      lines.push(row(method, `${text} s ${gain < 0 ? "behind" : "ahead"}`));
    }
  }
  return lines;
}

function stability(judgement: Judgement): string[] {
  const { stability: rows, stabilityWhy } = judgement;
  if (rows.length === 0) return [wrap(`No stability table: ${stabilityWhy}.`)];
  const short = (value: number | null) => (value === null ? "–" : value.toExponential(2));
  const drifting = firstDriftingRow(rows);
  const table = rows.map((row, i) => [
    String(Number(row.tauS.toPrecision(4))),
    short(row.allanDeviation),
    row.allanLow === null ? "–" : `${short(row.allanLow)}…${short(row.allanHigh)}`,
    short(row.modifiedAllanDeviation),
    short(row.timeDeviation),
    i >= drifting ? "drift" : row.noiseType === null ? "–" : noiseName(row.noiseType),
  ]);
  return [
    textTable([["τ/s", "Allan dev.", "95 %", "mod. Allan", "time dev./s", "noise"], ...table], [5]),
    ...(drifting < rows.length
      ? [
          wrap(
            "drift: the rate changes by more than its noise (the Allan deviation is over twice the " +
              "Hadamard deviation, which a steady drift does not touch); the interval counts noise alone.",
          ),
        ]
      : []),
  ];
}
