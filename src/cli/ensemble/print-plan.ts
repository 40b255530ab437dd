import { shortNumber } from "../../numeric/index.ts";
import {
  type DialAhead,
  type Prediction,
  type RunLength,
  raceInWords,
  type Strategy,
} from "../../planning/index.ts";
import {
  commonRateUnit,
  estimatorNames,
  halfWidthText,
  humanDuration,
  rateNumber,
  rateSize,
  unitAsFraction,
  wayInWords,
  wayName,
} from "../../view/words/index.ts";
import { styled, textTable, wrap } from "../style.ts";
import type { Verdict } from "./verify-plan.ts";

/** A row of a plan: a way of measuring, and what it comes to. */
export interface PlanRow {
  readonly strategy: Strategy;
  /** How long it takes, where an accuracy was asked for. */
  readonly length: RunLength | null;
  /** What the run gives; null where there is no run. */
  readonly prediction: Prediction | null;
  /** Of the interval at the confidence asked for; NaN where there is none. */
  readonly halfWidth: number;
  readonly ahead: DialAhead | null;
  readonly verdict: Verdict | null;
}

/** What was asked. */
export interface PlanQuestion {
  readonly title: string;
  /** Accuracy, or null where a length was given. */
  readonly within: number | null;
  /** Length of the run; s, or null where an accuracy was given. */
  readonly length: number | null;
  readonly confidence: number;
  /** How far ahead; s, or null. */
  readonly ahead: number | null;
  /** Where the scenario's counter looks: the answer is for what it sees there. */
  readonly input: string;
}

/** The first columns of every table: what is looked at, how the rate is made of it, the gate. */
const head = ["way of measuring", "estimator", "gate"] as const;
const cellsOf = ({ strategy }: PlanRow): string[] => [
  wayName(strategy),
  estimatorNames[strategy.estimator],
  strategy.counter.gate === "single" ? "single" : `${shortNumber(strategy.counter.gate, 6)} s`,
];
const table = (rows: readonly (readonly string[])[]): string => textTable(rows, [0, 1]);

const percent = (confidence: number): string => `${shortNumber(100 * confidence, 6)} %`;

/** An accuracy in time a day, and as a fraction. */
const accuracyInWords = (accuracy: number): string =>
  `${halfWidthText(accuracy, 3)} (${shortNumber(accuracy)})`;

/** The rows below include ways that watch another stage. */
const withCounterOn = ({ input }: PlanQuestion): string => ` with the counter on the ${input}`;

/** A plan for people: the answer first. */
export function printPlan(question: PlanQuestion, rows: readonly PlanRow[]): string {
  const { within } = question;
  const lines = [styled("bold", question.title)];
  if (within !== null) lines.push(...printLengths(question, within, rows));
  else lines.push(...printPredictions(question, rows));
  if (rows.some(({ verdict }) => verdict !== null)) lines.push("", ...printVerdicts(rows));
  return `${lines.join("\n")}\n`;
}

function printLengths(question: PlanQuestion, within: number, rows: readonly PlanRow[]): string[] {
  const goal = `to ${accuracyInWords(within)} at ${percent(question.confidence)}${withCounterOn(question)}`;
  const reached = rows
    .filter(({ length }) => length?.reachable)
    .toSorted((a, b) => a.length!.length - b.length!.length);
  const best = reached.find(({ strategy }) => strategy.counter.input === question.input);
  const reasons = new Set(rows.map(({ length }) => length?.limitedBy ?? ""));
  if (best === undefined) {
    const why = reasons.size === 1 ? `: ${[...reasons][0]}` : "";
    return [
      wrap(`No run, however long, tells the rate ${goal}${why}.`),
      ...(reasons.size === 1 ? [] : ["", lengthTable(rows), "", ...printReasons(rows)]),
    ];
  }
  const lines = [
    wrap(
      `To know the rate ${goal}, the shortest run takes ` +
        `${humanDuration(best.length!.length)}: ${wayInWords(best.strategy)}.`,
    ),
    "",
    lengthTable(rows),
  ];
  const notes = printReasons(rows);
  if (notes.length > 0) lines.push("", ...notes);
  lines.push(...printAhead(question, best));
  return lines;
}

const lengthTable = (rows: readonly PlanRow[]): string =>
  table([
    [...head, "run", "readings"],
    ...rows.map((row) => [
      ...cellsOf(row),
      row.length?.reachable ? humanDuration(row.length.length) : "never",
      row.length?.reachable ? shortCount(row.length.readings) : "–",
    ]),
  ]);

/** Why ways of measuring never get there, or read wrong; those with the same reason together. */
function printReasons(rows: readonly PlanRow[]): string[] {
  const reasons = new Map<string, string[]>();
  for (const { strategy, length } of rows) {
    const race = strategy.race === null ? null : raceInWords(strategy.race);
    const reason = length?.limitedBy ?? race;
    if (reason === null) continue;
    reasons.set(reason, [...(reasons.get(reason) ?? []), wayInWords(strategy)]);
  }
  return [...reasons].map(([reason, ways]) => wrap(`${ways.join("; ")}: ${reason}`, 80, "  "));
}

function printPredictions(question: PlanQuestion, rows: readonly PlanRow[]): string[] {
  const known = rows
    .filter(({ halfWidth }) => !Number.isNaN(halfWidth))
    .toSorted((a, b) => a.halfWidth - b.halfWidth);
  const best = known.find(({ strategy }) => strategy.counter.input === question.input);
  const length = humanDuration(question.length!);
  if (best === undefined) return [wrap(`A run of ${length} gives no rate.`)];
  const source = best.prediction!.sourceDeviation;
  const unit = commonRateUnit(known.map(({ halfWidth }) => halfWidth));
  const lines = [
    wrap(
      `A run of ${length} tells the rate to ${accuracyInWords(best.halfWidth)} ` +
        `at ${percent(question.confidence)} at best${withCounterOn(question)}: ${wayInWords(best.strategy)}.`,
    ),
    "",
    table([
      [...head, "readings", `rms, ${unit.name}`, percent(question.confidence)],
      ...rows.map((row) => [
        ...cellsOf(row),
        row.prediction === null ? "–" : shortCount(row.prediction.readings),
        ...(Number.isNaN(row.halfWidth)
          ? ["–", "–"]
          : [
              rateNumber(row.prediction!.standardUncertainty, unit, 2),
              `±${rateNumber(row.halfWidth, unit)}`,
            ]),
      ]),
    ]),
    "",
    wrap(
      `${unitAsFraction(unit)}. rms: of the estimate about the rate over the run. The interval counts the time base too` +
        (source > 0 ? `, and the reference's own wandering, ${rateSize(source, 2)}.` : "."),
    ),
  ];
  const notes = printReasons(rows);
  if (notes.length > 0) lines.push("", ...notes);
  lines.push(...printAhead(question, best));
  return lines;
}

function printAhead({ ahead, confidence }: PlanQuestion, best: PlanRow): string[] {
  if (ahead === null || best.ahead === null) return [];
  const { error, interval } = best.ahead;
  const half = (interval[1] - interval[0]) / 2;
  const gained = error < 0 ? "lost" : "gained";
  return [
    "",
    wrap(
      `${humanDuration(ahead)} after that run the dial will have ${gained} ` +
        `${humanDuration(Math.abs(error))}, known to ±${humanDuration(half)} at ${percent(confidence)}.`,
    ),
  ];
}

function printVerdicts(rows: readonly PlanRow[]): string[] {
  const done = rows.filter(({ verdict }) => verdict !== null && verdict.runs > 0);
  const lines: string[] = [];
  if (done.length > 0) {
    const unit = commonRateUnit(done.map(({ verdict }) => verdict!.claim.predicted));
    lines.push(
      `${done[0]!.verdict!.runs} runs simulated; rms in ${unit.name}:`,
      table([
        [...head.slice(0, 2), "predicted", "simulated", "ratio, 95 %"],
        ...done.map((row) => [
          ...cellsOf(row).slice(0, 2),
          rateNumber(row.verdict!.claim.predicted, unit, 2),
          rateNumber(row.verdict!.observed, unit, 2),
          row.verdict!.ratio95.map(ratioText).join(" to "),
        ]),
      ]),
    );
  }
  for (const { strategy, verdict } of done) {
    if (!verdict!.agrees) lines.push(`DIFFERS: ${wayInWords(strategy)}`);
  }
  const skipped = rows
    .filter(({ verdict }) => verdict?.skipped)
    .map(({ strategy, verdict }) =>
      wrap(`not simulated: ${wayInWords(strategy)}: ${verdict!.skipped}`, 80, "  "),
    );
  if (skipped.length > 0) lines.push(...(done.length > 0 ? [""] : []), ...skipped);
  return lines;
}

const ratioText = (ratio: number): string =>
  Number.isFinite(ratio) ? (ratio < 10 ? ratio.toFixed(2) : shortNumber(ratio)) : "–";

/** A whole number in full up to six digits, else in three. */
const shortCount = (count: number): string => shortNumber(count, count < 1e6 ? 6 : 3);
