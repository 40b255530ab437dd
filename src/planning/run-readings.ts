import type { RecordColumns } from "../chain/index.ts";
import {
  type EstimatorMethod,
  edgeRecord,
  edgeSlopes,
  meanOfReadingsSlope,
  type RateMethod,
  rateMethods,
  rateOfSlope,
} from "../judgement/index.ts";
import { median } from "../numeric/index.ts";
import { type PeriodReadings, presentPlaces, type Readings, valuesAt } from "../readings/index.ts";
import { nominalPeriod, type Scenario } from "../scenario/index.ts";
import { gateTimes } from "../stages/counter/index.ts";

/**
 * The readings of a simulated run as the analysis takes them: it does not know that they were simulated.
 *
 * @param scenario - the scenario of the run
 * @param record - what the run recorded
 * @returns readings; time errors on the even grid of the seconds asked for, NaN where one is missing
 */
export function runReadings(scenario: Scenario, record: RecordColumns): Readings {
  const { counter } = scenario;
  if (counter.technique === "time_interval") {
    const nominal = nominalPeriod(scenario);
    const grid = onGrid(record, gateTimes(counter, nominal).gate, atSeconds(record));
    return { kind: "time_error", ...grid, nominalPeriod: nominal };
  }
  return {
    kind: "period",
    period: record.interval.map((interval, i) => interval / record.cycles[i]!),
    cycles: record.cycles.map((cycles, i) =>
      Number.isNaN(record.interval[i]!) ? Number.NaN : cycles,
    ),
    start: record.start,
    nominalPeriod: nominalPeriod(scenario),
    backToBack: counter.deadTime === 0,
    deadTime: counter.deadTime,
  };
}

/** What an estimator is about: its value on the same edges without jitter and counter error. */
export interface EstimateTruth {
  /** From deterministic causes alone; dimensionless. */
  readonly steadyRate: number;
  /** With the oscillator's accumulated noise; dimensionless. */
  readonly rateOverRun: number;
}

/**
 * The truth of each estimate of a run: the same estimator applied to the same edges, seen without error.
 *
 * @param scenario - the scenario of the run
 * @param record - what the run recorded; at least one reading (two time errors)
 * @returns rates f/f₀ − 1 by method; NaN where the method has no value
 * @throws RangeError if the record holds no reading
 */
export function estimateTruths(
  scenario: Scenario,
  record: RecordColumns,
): Record<RateMethod, EstimateTruth> {
  const slopes =
    scenario.counter.technique === "time_interval"
      ? slopesOfTimeErrors(record)
      : slopesOfPeriods(scenario, record);
  const truth = (method: RateMethod): EstimateTruth => {
    // The best fit is about what the run gained from its first edge to its last.
    const own = method === "best_fit" ? "end_to_end" : method;
    return {
      steadyRate: rateOfSlope(slopes(own, "steady")),
      rateOverRun: rateOfSlope(slopes(own, "overRun")),
    };
  };
  return Object.fromEntries(rateMethods.map((method) => [method, truth(method)])) as Record<
    RateMethod,
    EstimateTruth
  >;
}

type Slopes = (method: EstimatorMethod, kind: "steady" | "overRun") => number;

function slopesOfPeriods(scenario: Scenario, record: RecordColumns): Slopes {
  const readings = runReadings(scenario, record) as PeriodReadings;
  const { nominalPeriod: period, backToBack } = readings;
  const kept = presentPlaces(record.interval);
  const pick = (column: Float64Array) => valuesAt(column, kept);
  const columns = {
    steady: { gained: pick(record.steadyError), from: pick(record.startSteadyError) },
    overRun: { gained: pick(record.errorOverRun), from: pick(record.startErrorOverRun) },
  };
  const { edge } = edgeRecord(readings);
  const cycles = pick(record.cycles);
  return (method, kind) => {
    const { gained, from } = columns[kind];
    if (method === "mean_of_readings") return meanOfReadingsSlope(gained, cycles, period);
    const x = edgeErrors(from, gained, edge.length, backToBack);
    return edgeSlopes[method](edge, x, period);
  };
}

/** Time errors of the edges of a record, in the order of `edgeRecord`. */
function edgeErrors(
  from: Float64Array,
  gained: Float64Array,
  edges: number,
  backToBack: boolean,
): Float64Array {
  const x = new Float64Array(edges);
  if (backToBack && edges === gained.length + 1) {
    for (let i = 0; i < gained.length; i++) x[i + 1] = x[i]! + gained[i]!;
    return x;
  }
  const origin = from[0]!;
  if (edges === 2 * gained.length) {
    for (let i = 0; i < gained.length; i++) {
      x[2 * i] = from[i]! - origin;
      x[2 * i + 1] = from[i]! - origin + gained[i]!;
    }
    return x;
  }
  // Gaps break a record back to back into stretches: an edge each, and one more for every stretch.
  let at = 0;
  for (let i = 0; i < gained.length; i++) {
    const start = from[i]! - origin;
    const isContinued = i > 0 && Math.abs(start - x[at - 1]!) <= 1e-15 * (1 + Math.abs(start));
    if (!isContinued) x[at++] = start;
    x[at++] = start + gained[i]!;
  }
  return x;
}

function slopesOfTimeErrors(record: RecordColumns): Slopes {
  const kinds = { steady: record.steadyError, overRun: record.errorOverRun };
  const edge = record.start.map((start, i) => start + record.interval[i]! - record.start[0]!);
  return (method, kind) => {
    if (edge.length < 2) return Number.NaN;
    // The mean of the differences leaves the first and the last.
    const slope = edgeSlopes[method === "mean_of_readings" ? "end_to_end" : method];
    const rate = slope(edge, kinds[kind], 1);
    return rate / (1 + rate);
  };
}

/**
 * Time errors as they would have been at the seconds themselves: each was taken at the tick after its second,
 * when the clock had gained or lost a little more, at the rate of most of the run: what slips come to is no rate.
 */
function atSeconds({ start, interval, error }: RecordColumns): Float64Array {
  if (start.length < 2) return error;
  const stamp = start.map((second, i) => second + interval[i]!);
  const rates = error.slice(1).map((x, i) => (x - error[i]!) / (stamp[i + 1]! - stamp[i]!));
  const rate = median(rates);
  return error.map((x, i) => x - rate * interval[i]!);
}

/** Spreads values over the even grid of the seconds asked for; a thinned record has a wider grid. */
function onGrid(record: RecordColumns, spacing: number, values: Float64Array) {
  const { start } = record;
  let step = Number.POSITIVE_INFINITY;
  for (let i = 1; i < start.length; i++) step = Math.min(step, start[i]! - start[i - 1]!);
  if (!Number.isFinite(step)) step = spacing;
  const place = (i: number) => Math.round((start[i]! - start[0]!) / step);
  const size = start.length === 0 ? 0 : place(start.length - 1) + 1;
  const timeError = new Float64Array(size).fill(Number.NaN);
  for (let i = 0; i < start.length; i++) timeError[place(i)] = values[i]!;
  return { timeError, spacing: step };
}
