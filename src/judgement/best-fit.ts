import {
  type DeviationLevels,
  type Held,
  type Known,
  type NoisePosterior,
  type Settled,
  settle,
} from "../noise-model/index.ts";
import { median, robustDeviation } from "../numeric/index.ts";
import type { Readings } from "../readings/index.ts";
import type { TemperatureCoefficient } from "./at-mean-temperature.ts";
import { gateRace } from "./gate-race.ts";
import { rateOfSlope } from "./rate-of-slope.ts";
import { repeatedReadings } from "./repeated-readings.ts";
import { toRecord } from "./to-record.ts";

/** A rate with the interval that holds it with 95 %; f/f₀ − 1. */
export interface HeldRate {
  readonly rate: number;
  readonly interval95: readonly [number, number];
}

/** Something that shifts a rate and that no averaging removes. */
export interface SystematicCause {
  readonly cause: string;
  /** Half-width; dimensionless. */
  readonly bound: number;
}

/** Something found in a record by the model. */
export interface Finding {
  readonly code:
    | "phase_step"
    | "slip"
    | "outlier"
    | "repeated_reading"
    | "joined_run"
    | "gate_race"
    | "rounding";
  /** Reading at which it is, from 0; null where it is about the record. */
  readonly reading: number | null;
  readonly message: string;
  /** Size of a step or an outlier; s of time error, NaN where there is none. */
  readonly size: number;
}

/** A noise level, as people give it. */
export interface HeldLevel extends Held {
  readonly kind: keyof DeviationLevels;
}

/** The answer: generalised least squares under the noise found, averaged over what it may be. */
export interface BestFit {
  /** Over this run. */
  readonly overRun: HeldRate;
  /** Steady: what the clock would keep. */
  readonly steady: HeldRate;
  /** Standard deviation of the next run's best fit about this one's; dimensionless. */
  readonly nextRun: number;
  readonly systematic: readonly SystematicCause[];
  readonly levels: readonly HeldLevel[];
  readonly findings: readonly Finding[];
  /** Coefficient of the temperature; 1/K; left out where it was not asked for. */
  readonly temperature?: TemperatureCoefficient;
  /** The model, for what else is asked; null where the readings do not move at all. */
  readonly posterior: NoisePosterior | null;
  /** From the first edge to the last; s. */
  readonly duration: number;
  /** Turns a slope of the model into a rate. */
  readonly toRate: (slope: number) => number;
  /** What was added to the model's slope: the bias of a gate that races with the edges. */
  readonly shift: number;
}

/** Readings below which no noise can be told from so few. */
export const leastReadings = 4;
/** Scatter in steps of the last digit below which digits, and not noise, decide. */
const coarse = 0.5;
export const levelKinds = ["whitePm", "whiteFm", "flickerFm", "randomWalkFm"] as const;

/**
 * The best fit of a record: both rates, how sure, what spoils it.
 *
 * @param readings - the record, slips repaired and what is off set to missing; at least 4 readings not missing
 * @param known - what is known of the source
 * @returns the best fit; null for too few readings
 *
 * Source: noise-model. Exact case: readings of one period give its rate, ± half a step of their last digit.
 */
export function bestFit(readings: Readings, known: Known = {}): BestFit | null {
  const repeated = repeatedReadings(readings);
  const { record, place } = toRecord(readings, repeated);
  const present = record.gain.reduce((n, g) => n + (Number.isNaN(g) ? 0 : 1), 0);
  if (present < leastReadings) return null;
  const isPeriod = readings.kind === "period";
  const toRate = isPeriod ? rateOfSlope : (slope: number) => slope;
  const findings: Finding[] = repeated.map((reading) => ({
    code: "repeated_reading",
    reading,
    message: "repeats the one before to the last digit and is left out",
    size: Number.NaN,
  }));
  for (const reading of readings.joins ?? []) {
    findings.push({
      code: "joined_run",
      reading,
      message: "begins another run; one rate is fitted to both, each with its own start",
      size: Number.NaN,
    });
  }
  const digits = digitsOf(readings);
  const lengths = record.length.reduce((a, b) => a + b, 0) + record.gap.reduce((a, b) => a + b, 0);
  if (!(digits.scatter > 0)) {
    findings.push(roundingFinding("all readings are the same to the last digit"));
    const rate = toRate(digits.slope);
    const around = (half: number): [number, number] => [
      toRate(digits.slope - half),
      toRate(digits.slope + half),
    ];
    const held: HeldRate = { rate, interval95: around(0.5 * digits.step) };
    const levels = levelKinds.map((kind) => ({ kind, estimate: 0, low: 0, high: 0 }));
    return {
      overRun: held,
      steady: held,
      nextRun: digits.step / Math.sqrt(12),
      systematic: [],
      levels,
      findings,
      posterior: null,
      duration: lengths,
      toRate,
      shift: 0,
    };
  }
  const settled = settle(record, known);
  const { posterior } = settled;
  findings.push(...faultFindings(settled, place, readings));
  const systematic: SystematicCause[] = [];
  const race = raceOf(readings, posterior);
  const shift = race?.correction ?? 0;
  // A counter that keeps to one number of cycles has no race; its rate is then that of the doubt.
  const doubt = readings.kind === "period" ? readings.countDoubt : undefined;
  const other = doubt === undefined ? 0 : Math.abs(doubt - shift);
  const bound = Math.max(race?.bound ?? 0, other);
  if (bound > 0) systematic.push({ cause: "gate_race", bound });
  if (race !== null) {
    findings.push({
      code: "gate_race",
      reading: null,
      message: `the gate of whole ticks races with its last edge, so that late edges are caught more readily; what that does on average is taken out, and what is not known of it is the bound; a gate of ${Number(race.better.toPrecision(6))} s would avoid it${other > 0 ? "; whether the counter keeps to one number of cycles cannot be told, so that the bound holds either" : ""}`,
      size: Number.NaN,
    });
  }
  const isCoarse = digits.scatter < coarse * digits.step;
  if (isCoarse) findings.push(roundingFinding("the readings scatter less than their last digit"));
  const held = ({ estimate, low, high }: Held): HeldRate => {
    // Where the digits decide, any rate that they allow is held as well.
    const half = isCoarse ? 0.5 * digits.step : 0;
    const least = isCoarse ? Math.min(low, digits.slope - half) : low;
    const most = isCoarse ? Math.max(high, digits.slope + half) : high;
    return {
      rate: toRate(estimate + shift),
      interval95: [toRate(least + shift), toRate(most + shift)],
    };
  };
  return {
    overRun: held(posterior.overRun()),
    steady: held(posterior.steady()),
    nextRun: posterior.nextRun(),
    systematic,
    levels: levelKinds.map((kind) => ({ kind, ...posterior.level(kind) })),
    findings: findings.sort((a, b) => (a.reading ?? -1) - (b.reading ?? -1)),
    ...(record.temperature === undefined
      ? {}
      : { temperature: { ...posterior.temperature(), mean: meanOf(readings, place) } }),
    posterior,
    duration: posterior.scaled.events.duration * posterior.scaled.timeUnit,
    toRate,
    shift,
  };
}

/** Mean temperature over the readings that the record holds; °C. */
function meanOf({ temperature }: Readings, place: Int32Array): number {
  let sum = 0;
  let count = 0;
  for (const i of place) {
    if (Number.isNaN(temperature?.[i] ?? Number.NaN)) continue;
    sum += temperature![i]!;
    count++;
  }
  return sum / count;
}

/** Scatter, usual value and digits of the readings, as slopes. */
function digitsOf(readings: Readings): { scatter: number; slope: number; step: number } {
  if (readings.kind === "time_error") {
    const { timeError, spacing } = readings;
    const rises = timeError.slice(1).map((x, i) => (x - timeError[i]!) / spacing);
    const step = (readings.resolution ?? 0) / spacing;
    return { scatter: spread(rises), slope: median(rises), step };
  }
  const { period, nominalPeriod, rounding = 0 } = readings;
  const slopes = period.map((p) => 1 - p / nominalPeriod);
  const step = Math.max(readings.resolution ?? 0, Math.sqrt(12) * rounding);
  return { scatter: spread(slopes), slope: median(slopes), step };
}

/** Robust deviation, or the plain one where most values are alike. */
function spread(values: Float64Array): number {
  const usual = median(values);
  const robust = robustDeviation(values, usual);
  if (robust > 0) return robust;
  let square = 0;
  let count = 0;
  for (const v of values) {
    if (Number.isNaN(v)) continue;
    square += (v - usual) * (v - usual);
    count++;
  }
  return Math.sqrt(square / count);
}

function roundingFinding(what: string): Finding {
  const message = `${what}, so that the digits set the interval; more digits would narrow it, averaging does not`;
  return { code: "rounding", reading: null, message, size: Number.NaN };
}

function faultFindings({ faults }: Settled, place: Int32Array, readings: Readings): Finding[] {
  const tick = readings.nominalPeriod ?? Number.NaN;
  return faults.map(({ kind, reading, size, deviation, probability }) => {
    const ticks = Math.round(size / tick);
    const isSlip =
      kind === "phase_step" &&
      ticks !== 0 &&
      Math.abs(size - ticks * tick) < 3 * deviation &&
      deviation < 0.25 * tick;
    const amount = `${Number((1e3 * Math.abs(size)).toPrecision(2))} ms`;
    const sure = `probability ${probability > 0.999 ? "above 0.999" : probability.toFixed(3)}`;
    const message =
      kind === "outlier"
        ? `is off by ${amount} by itself (${sure}) and does not count`
        : isSlip
          ? `holds a slip of ${Math.abs(ticks)} tick${Math.abs(ticks) === 1 ? "" : "s"} (${sure}), which is no part of the rate`
          : `holds a step of ${amount} in the phase (${sure}), as of a line lost or two runs joined; its size is fitted`;
    return { code: isSlip ? "slip" : kind, reading: place[reading]!, message, size };
  });
}

/** The race of a gate of whole ticks. With dead time the readings do not tell white PM from white FM. */
function raceOf(readings: Readings, posterior: NoisePosterior) {
  if (readings.kind === "time_error" || readings.gate === undefined || readings.isRate) return null;
  const { gate, backToBack, period, cycles } = readings;
  const usual = median(period);
  let count = 0;
  let square = 0;
  let present = 0;
  period.forEach((p, i) => {
    if (Number.isNaN(p)) return;
    count += cycles[i]!;
    square += (cycles[i]! * (p - usual)) ** 2;
    present++;
  });
  const pm = posterior.level("whitePm").estimate;
  const wfm = posterior.level("whiteFm").estimate;
  return gateRace({
    gate,
    period: usual,
    length: (count / present) * usual,
    scatter: Math.sqrt(square / present),
    backToBack,
    edgeShare: backToBack ? (2 * pm * pm) / (2 * pm * pm + wfm * wfm * gate) : Number.NaN,
  });
}
