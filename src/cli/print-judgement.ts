import { firstDriftingRow, noiseName } from "../analysis/index.ts";
import type { Judgement, RateEstimate } from "../judgement/index.ts";
import type { MadeReadings } from "../log/index.ts";
import { shortNumber } from "../numeric/index.ts";
import type { Readings } from "../readings/index.ts";
import {
  counted,
  estimatorNames,
  halfWidthText,
  humanDuration,
  plusMinus,
  rateSize,
  rateText,
} from "../view/words/index.ts";
import { agreementInWords } from "./agreement-in-words.ts";
import { estimateTable } from "./estimate-table.ts";
import { headlineInWords } from "./headline-in-words.ts";
import { outliersInWords, stepsInWords } from "./outliers-in-words.ts";
import { refusals } from "./refusals.ts";
import { spanOf } from "./span-of.ts";
import { labelled, textTable, wrap } from "./style.ts";

const limits = {
  systematic_bound: "the accuracy of the time base",
  measurement: "the timing noise of the readings",
  white_fm: "white FM of the oscillator",
  flicker_fm: "flicker FM of the oscillator: no mean converges",
  random_walk_fm: "random-walk FM of the oscillator: no mean converges",
  unknown: "noise of a kind that these readings do not tell",
} as const;

/**
 * What `judge` found, for people: the answer first, then the record it rests on, what spoils it, the tables.
 *
 * @param read - the log it is about
 */
export function printJudgement(
  judgement: Judgement,
  read: MadeReadings,
  within: number | null,
): string {
  const { estimates, estimatesWithStrays, temperature, agreement } = judgement;
  const { readings: record, detected, notes } = read;
  const lines: string[] = [...answer(judgement), "", ...kindOfRecord(judgement, record)];
  lines.push(wrap(`Read: ${detected}.`, 80, "  "));
  lines.push(...notes.map(({ message }) => wrap(`Note: ${message}.`, 80, "  ")));
  if (agreement) lines.push(...agreementInWords(agreement));
  if (temperature) {
    const { estimate, low, high, mean } = temperature;
    const text = plusMinus(estimate, (high - low) / 2, true);
    const at = `${mean.toFixed(1)} °C`;
    lines.push(wrap(`Temperature: ${text} per K (95 %), taken out; rates are those at ${at}.`));
  }
  lines.push(...spoils(judgement, record.line ?? []), "", ...tableOf(estimates));
  const valid = estimates.filter(({ applies }) => applies);
  lines.push(...labelled(valid.map(({ method, why }) => [`  ${estimatorNames[method]}`, why])));
  lines.push(...refusals(estimates));
  if (estimatesWithStrays) {
    lines.push("", "With the outliers left in:", ...tableOf(estimatesWithStrays));
  }
  lines.push(...furtherAnswers(judgement, within), "", ...stability(judgement));
  return `${lines.join("\n")}\n`;
}

/** The best fit, or why there is none. */
function answer({ headline, estimates, nextRun }: Judgement): string[] {
  if (headline !== null) return headlineInWords(headline, nextRun);
  const mean = estimates[0];
  if (mean === undefined || Number.isNaN(mean.rate)) return [wrap(`No rate: ${mean?.why ?? ""}.`)];
  return [wrap(`Rate: ${rateText(mean.rate)}, with no honest uncertainty: ${mean.why}`)];
}

function kindOfRecord(judgement: Judgement, record: Readings): string[] {
  const { readings, missing, gate, backToBack, deadTime, singleReading, noiseFound } = judgement;
  const kind =
    backToBack === null
      ? "time errors every"
      : `${backToBack ? "back to back" : deadTime === 0 ? "one after another" : "with dead time"}, gate`;
  const gaps = missing > 0 ? ` (${missing} missing)` : "";
  const [from, to] = spanOf(record);
  const span = `${humanDuration(to - from)}, from ${shortNumber(from, 6)} s to ${shortNumber(to, 6)} s`;
  const { standardDeviation } = singleReading;
  const lines = [
    wrap(
      `Record: ${counted(readings, "reading")}${gaps} in ${span}, ${kind} ${humanDuration(gate)}.`,
    ),
  ];
  // Of one reading no scatter is known.
  if (!Number.isNaN(standardDeviation)) {
    lines.push(`A single reading scatters by ${rateSize(standardDeviation)} rms.`);
  }
  if (Number.isFinite(noiseFound.edgeJitter) && noiseFound.edgeJitter > 0) {
    lines.push(`Timing noise of one edge: ${humanDuration(noiseFound.edgeJitter)} rms.`);
  }
  return lines;
}

function spoils(judgement: Judgement, line: ArrayLike<number>): string[] {
  const { lost, slipNote, strayEffect, findings } = judgement;
  // What the model found has words of its own.
  const own = new Set(findings.map(({ reading }) => reading));
  const outliers = judgement.outliers.filter(({ reading }) => !own.has(reading));
  const lines = outliersInWords(outliers, line);
  if (lost !== 0) {
    const size = shortNumber(Math.abs(lost), 6);
    lines.push(`Slips: ${size} s ${lost > 0 ? "lost" : "gained"}, not counted in the rate.`);
  }
  lines.push(...stepsInWords(outliers));
  for (const { reading, message } of findings) {
    const where = reading === null ? "" : `${placeOf(reading, line)} `;
    lines.push(wrap(`Note: ${where}${message}.`, 80, "  "));
  }
  if (slipNote !== "") lines.push(wrap(`Note: ${slipNote}.`, 80, "  "));
  if (strayEffect !== "") lines.push(wrap(`Note: ${strayEffect}.`, 80, "  "));
  for (const { message } of judgement.warnings) lines.push(wrap(`Caution: ${message}.`, 80, "  "));
  return lines;
}

const tableOf = (estimates: readonly RateEstimate[]): string[] =>
  estimateTable(
    estimates.map((e) => ({
      method: e.method,
      rate: e.rate,
      overRun: halfOf(e.interval95),
      steady: e.steadyInterval95 === null ? Number.NaN : halfOf(e.steadyInterval95),
      naive: 1.96 * e.naiveStandardUncertainty,
    })),
  );

const halfOf = (interval: readonly [number, number]): number => (interval[1] - interval[0]) / 2;

function furtherAnswers(judgement: Judgement, within: number | null): string[] {
  const { longer, ahead } = judgement;
  const lines: string[] = [];
  const tell = (
    rows: readonly { readonly method: RateEstimate["method"]; readonly text: string }[],
  ) =>
    lines.push(
      ...labelled(rows.map(({ method, text }) => [`  ${estimatorNames[method]}`, text] as const)),
    );
  if (longer && within !== null) {
    const goal = `${halfWidthText(within, 3)} (${shortNumber(within, 3)})`;
    lines.push(
      "",
      longer.length > 0
        ? `To know the rate to ${goal} at 95 %:`
        : wrap(`These readings do not tell how long it takes to know the rate to ${goal}.`),
    );
    tell(
      longer.map(({ method, reachable, further, now, limitedBy }) => ({
        method,
        text: !reachable
          ? `never: ${limits[limitedBy]}`
          : further === 0
            ? `is there already (${halfWidthText(now, 3)})`
            : `${humanDuration(further)} more`,
      })),
    );
  }
  if (ahead?.length === 0) {
    lines.push("", "These readings do not tell what the dial will be off by then.");
  } else if (ahead) {
    lines.push("", `In ${humanDuration(ahead[0]!.after)} the dial will be, at 95 %:`);
    tell(
      ahead.map(({ method, gain, interval95 }) => {
        const half = halfOf(interval95);
        const size = Math.abs(gain);
        const text = Number.isFinite(half) ? plusMinus(size, half) : size.toPrecision(3);
        return { method, text: `${text} s ${gain < 0 ? "behind" : "ahead"}` };
      }),
    );
  }
  return lines;
}

function stability(judgement: Judgement): string[] {
  const { stability: rows, stabilityWhy } = judgement;
  if (rows.length === 0) return [wrap(`No stability table: ${stabilityWhy}.`)];
  const short = (value: number | null) => (value === null ? "–" : value.toExponential(2));
  const drifting = firstDriftingRow(rows);
  const table = rows.map((row, i) => [
    shortNumber(row.tauS, 4),
    short(row.allanDeviation),
    row.allanLow === null ? "–" : `${short(row.allanLow)} … ${short(row.allanHigh)}`,
    short(row.modifiedAllanDeviation),
    short(row.timeDeviation),
    i >= drifting ? "drift" : row.noiseType === null ? "–" : noiseName(row.noiseType),
  ]);
  return [
    "Overlapping Allan, modified Allan and time deviation by averaging time:",
    textTable([["τ, s", "σ_y(τ)", "95 %", "mod σ_y(τ)", "σ_x(τ), s", "noise"], ...table], [5]),
    ...(drifting < rows.length
      ? [
          wrap(
            "drift: the rate changes by more than its noise (the overlapping Allan deviation is over twice " +
              "the overlapping Hadamard deviation, which a steady drift does not touch); the interval counts noise alone.",
          ),
        ]
      : []),
  ];
}

/** Where a reading stands, for people. */
const placeOf = (reading: number, line: ArrayLike<number>) =>
  (line[reading] ?? 0) > 0 ? `line ${line[reading]}` : `reading ${reading + 1}`;
