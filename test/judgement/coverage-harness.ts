import { readFileSync } from "node:fs";
import { type RunOptions, RunRecord, Simulation } from "../../src/chain/index.ts";
import type { EstimatorMethod } from "../../src/judgement/index.ts";
import {
  endToEndSlope,
  lineFitSlope,
  plainEstimates,
  rateOfSlope,
} from "../../src/judgement/index.ts";
import { type EstimateTruth, estimateTruths, runReadings } from "../../src/planning/index.ts";
import type { Readings } from "../../src/readings/index.ts";
import type { Scenario } from "../../src/scenario/index.ts";
import { parseScenario } from "../../src/scenario/index.ts";
import { type MadeNoise, makeEdges, normalStream } from "./power-law-noise.ts";

/** Coverage of one estimator's two intervals over an ensemble of records. */
export interface Coverage {
  readonly method: EstimatorMethod;
  /** About the rate over the run: given wherever the estimator says that it applies. */
  readonly run: IntervalCoverage;
  readonly steady: IntervalCoverage;
}

/** What the intervals of an ensemble hold, and how wide they are. */
export interface IntervalCoverage {
  /** Records whose interval was given. */
  readonly given: number;
  /** Share of those that hold their truth. */
  readonly covered: number;
  /** Median half-width; dimensionless. */
  readonly halfWidth: number;
  /** Half-width of someone who knows the noise: 1.96 times the rms error of the ensemble; dimensionless. */
  readonly informed: number;
  /** The one over the other; NaN where nothing but rounding errs. */
  readonly ratio: number;
}

/** Readings, and what each estimator would give on the same edges without jitter, and without the source's noise. */
export interface MadeRecord {
  readonly readings: Readings;
  readonly truths: Readonly<Partial<Record<EstimatorMethod, EstimateTruth>>>;
}

/** Makes the record of one seed. */
export type RecordMaker = (intervals: number, seed: string) => MadeRecord;

const interval = 10;
/** Fractional size of one unit of noise: large enough for doubles, small enough for s = rate. */
const scale = 1e-7;

/** Back-to-back readings of ten cycles of one second, with the noise asked for on top of a set rate. */
export function backToBackRecord(intervals: number, noise: MadeNoise, seed: string) {
  const { truth, measured } = makeEdges(intervals, noise, seed);
  const slope = 2e-6;
  const edge = Float64Array.from(truth, (_, k) => k * interval);
  const place = (x: number, k: number) => x * scale * interval + slope * k * interval;
  const readings: Readings = {
    kind: "period",
    period: Float64Array.from(
      { length: intervals },
      (_, i) => 1 - (place(measured[i + 1]!, i + 1) - place(measured[i]!, i)) / interval,
    ),
    cycles: new Float64Array(intervals).fill(interval),
    start: null,
    nominalPeriod: 1,
    backToBack: true,
  };
  return { readings, edge, truth: truth.map(place), steady: rateOfSlope(slope) };
}

/** A maker of back-to-back readings with the noise asked for. */
export const backToBack =
  (noise: MadeNoise): RecordMaker =>
  (intervals, seed) => {
    const { readings, edge, truth, steady } = backToBackRecord(intervals, noise, seed);
    // A drift is part of the steady rate: half its growth, by either estimator.
    const steadyRate = steady + (scale * (noise.drift ?? 0) * intervals) / 2;
    const of = (slope: typeof endToEndSlope) => ({
      rateOverRun: rateOfSlope(slope(edge, truth, 1)),
      steadyRate,
    });
    const ends = of(endToEndSlope);
    const line = of(lineFitSlope);
    return { readings, truths: { mean_of_readings: ends, end_to_end: ends, line_fit: line } };
  };

/** A maker of readings with dead time, of which no two share an edge. */
export const withDeadTime =
  (noise: DeadTimeNoise): RecordMaker =>
  (count, seed) => {
    const { readings, overRun, steady } = deadTimeRecord(count, noise, seed);
    const truth = { rateOverRun: overRun, steadyRate: steady };
    return { readings, truths: { mean_of_readings: truth, end_to_end: truth, line_fit: truth } };
  };

/** A maker of readings by the whole chain of a demo scenario, with a perfect time base; what is not looked at costs nothing. */
export function fromDemo(name: string): RecordMaker {
  const file = `scenarios/${name}.yaml`;
  const perfect = "counter.timebase.fractional_offset=0";
  const { scenario } = parseScenario(readFileSync(file, "utf8"), file, [perfect]);
  return (readings, seed) => simulated(scenario, readings, seed);
}

/** So many readings of a scenario, with their truths. */
export function simulated(scenario: Scenario, readings: number, seed: string): MadeRecord {
  const record = RunRecord.of(scenario);
  const options: RunOptions = {
    seed,
    length: 1e9,
    endsAtLength: false,
    readings,
    recording: "lazy",
  };
  new Simulation(scenario, options, { reading: (reading) => record.add(reading) }).run();
  const columns = record.read();
  return { readings: runReadings(scenario, columns), truths: estimateTruths(scenario, columns) };
}

/** Runs an ensemble with seeds `name K 0`, `name K 1`, … and counts what the intervals hold. */
export function coverage(
  name: string,
  intervals: number,
  make: RecordMaker,
  seeds: number,
): Coverage[] {
  const methods: EstimatorMethod[] = ["mean_of_readings", "end_to_end", "line_fit"];
  const tally = methods.map(() => ({ run: new Tally(), steady: new Tally() }));
  for (let s = 0; s < seeds; s++) {
    const { readings, truths } = make(intervals, `${name} ${intervals} ${s}`);
    plainEstimates(readings).forEach((e, i) => {
      if (!e.applies) return;
      const { rateOverRun, steadyRate } = truths[e.method]!;
      tally[i]!.run.add(e.rate, rateOverRun, e.interval95);
      tally[i]!.steady.add(e.rate, steadyRate, e.steadyInterval95);
    });
  }
  return tally.map(({ run, steady }, i) => ({
    method: methods[i]!,
    run: run.read(),
    steady: steady.read(),
  }));
}

/** Intervals of an ensemble against their truths. */
class Tally {
  private held = 0;
  private records = 0;
  private squares = 0;
  private readonly widths: number[] = [];

  add(rate: number, truth: number, interval: readonly [number, number] | null): void {
    this.records++;
    this.squares += (rate - truth) ** 2;
    if (interval === null) return;
    const [low, high] = interval;
    if (low <= truth && truth <= high) this.held++;
    this.widths.push((high - low) / 2);
  }

  read(): IntervalCoverage {
    // Of all records: those whose interval was given are a choice. An error of rounding alone is none.
    const rms = Math.sqrt(this.squares / this.records);
    const informed = rms < 1e-14 ? Number.NaN : 1.96 * rms;
    const given = this.widths.length;
    const halfWidth = median(this.widths);
    return { given, covered: this.held / given, halfWidth, informed, ratio: halfWidth / informed };
  }
}

function median(values: number[]): number {
  const sorted = values.sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? Number.NaN;
}

/** Noise of readings with dead time. */
export interface DeadTimeNoise extends MadeNoise {
  /** Variance of the independent noise of one reading. */
  readonly reading: number;
}

/** Readings with as much dead time between them: independent white noise of one reading, and the source's. */
export function deadTimeRecord(count: number, noise: DeadTimeNoise, seed: string) {
  const normal = normalStream(`${seed} readings`);
  const x = makeEdges(2 * count, { ...noise, measurement: 0 }, seed).truth;
  const truth = Float64Array.from(
    { length: count },
    (_, i) => 2e-6 + scale * (x[2 * i + 1]! - x[2 * i]!),
  );
  const readings: Readings = {
    kind: "period",
    period: truth.map((y) => 1 / (1 + y + scale * Math.sqrt(noise.reading) * normal())),
    cycles: new Float64Array(count).fill(interval),
    start: null,
    nominalPeriod: 1,
    backToBack: false,
    deadTime: interval,
  };
  const time = truth.reduce((sum, y) => sum + 1 / (1 + y), 0);
  return { readings, overRun: count / time - 1, steady: 2e-6 };
}
