import type { DialAhead, Prediction, RunLength, Strategy } from "../../planning/index.ts";
import { humanDuration } from "../../planning/index.ts";
import { plainRate } from "../plain-rate.ts";
import { styled, textTable, wrap } from "../style.ts";
import { shortNumber } from "./short-number.ts";
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

const gateInWords = ({ counter }: Strategy): string =>
  counter.gate === "single" ? "single" : `${shortCount(counter.gate)} s`;

const percent = (confidence: number): string => `${Number((100 * confidence).toPrecision(6))} %`;

/** An accuracy as fraction and in time a day. */
const accuracyInWords = (accuracy: number): string =>
  `${shortNumber(accuracy)} (${plainRate(accuracy).replace("+", "±")})`;

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
  const goal = `to ±${accuracyInWords(within).replace("(±", "(")} at ${percent(question.confidence)}${withCounterOn(question)}`;
  const reached = rows
    .filter(({ length }) => length?.reachable)
    .toSorted((a, b) => a.length!.length - b.length!.length);
  const best = reached.find(({ strategy }) => strategy.counter.input === question.input);
  const reasons = new Set(rows.map(({ length }) => length?.limitedBy ?? ""));
  if (best === undefined) {
    const why = reasons.size === 1 ? `: ${[...reasons][0]}` : "";
    return [
      wrap(`No run, however long, tells the rate ${goal}${why}.`),
      ...(reasons.size === 1 ? [] : ["", ...printTable(rows), "", ...printReasons(rows)]),
    ];
  }
  const lines = [
    wrap(
      `To know the rate ${goal}, the shortest run takes ` +
        `${humanDuration(best.length!.length)}: ${best.strategy.description}.`,
    ),
    "",
    ...printTable(rows),
  ];
  const notes = printReasons(rows);
  if (notes.length > 0) lines.push("", ...notes);
  lines.push(...printAhead(question, best));
  return lines;
}

function printTable(rows: readonly PlanRow[]): string[] {
  const table = textTable([
    ["way of measuring", "gate", "run", "readings"],
    ...rows.map(({ strategy, length }) => [
      strategy.description,
      gateInWords(strategy),
      length?.reachable ? humanDuration(length.length) : "never",
      length?.reachable ? shortCount(length.readings) : "–",
    ]),
  ]);
  return [table];
}

/** Why ways of measuring never get there; those with the same reason together. */
function printReasons(rows: readonly PlanRow[]): string[] {
  const reasons = new Map<string, string[]>();
  for (const { strategy, length } of rows) {
    const reason = length?.limitedBy ?? null;
    if (reason === null) continue;
    reasons.set(reason, [...(reasons.get(reason) ?? []), strategy.description]);
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
  const lines = [
    wrap(
      `A run of ${length} tells the rate to ±${accuracyInWords(best.halfWidth).replace("(±", "(")} ` +
        `at ${percent(question.confidence)} at best${withCounterOn(question)}: ${best.strategy.description}.`,
    ),
    "",
    textTable([
      ["way of measuring", "gate", "readings", "rms", percent(question.confidence)],
      ...rows.map(({ strategy, prediction, halfWidth }) => [
        strategy.description,
        gateInWords(strategy),
        prediction === null ? "–" : shortCount(prediction.readings),
        Number.isNaN(halfWidth) ? "–" : shortNumber(prediction!.standardUncertainty),
        Number.isNaN(halfWidth) ? "–" : plainRate(halfWidth).replace("+", "±"),
      ]),
    ]),
    "",
    wrap(
      "rms: of the estimate about the rate over the run. The interval counts the time base too" +
        (source > 0 ? `, and the reference's own wandering, ${shortNumber(source)}.` : "."),
    ),
  ];
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
    lines.push(
      textTable([
        [`${done[0]!.verdict!.runs} runs simulated`, "predicted", "rms", "ratio, 95 %", ""],
        ...done.map(({ strategy, verdict }) => [
          strategy.description,
          shortNumber(verdict!.claim.predicted),
          shortNumber(verdict!.observed),
          verdict!.ratio95.map(ratioText).join(" to "),
          verdict!.agrees ? "" : "DIFFERS",
        ]),
      ]),
    );
  }
  const skipped = rows
    .filter(({ verdict }) => verdict?.skipped)
    .map(({ strategy, verdict }) =>
      wrap(`not simulated: ${strategy.description}: ${verdict!.skipped}`, 80, "  "),
    );
  if (skipped.length > 0) lines.push(...(done.length > 0 ? [""] : []), ...skipped);
  return lines;
}

const ratioText = (ratio: number): string => (ratio < 10 ? ratio.toFixed(2) : shortNumber(ratio));

/** A whole number in full up to six digits, else in three. */
function shortCount(count: number): string {
  if (count < 1e6) return String(count);
  return count.toExponential(2).replace("e+", "e");
}
