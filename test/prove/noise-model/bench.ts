import type { PeriodReadings } from "../../../src/readings/index.ts";
import type { Deviates } from "./generators.ts";

/** A bench: a clock with jittery edges and a reciprocal counter. Knows nothing of how records are judged. */
export interface Bench {
  readonly readings: number;
  /** Fractional rate of the clock; positive = fast. */
  readonly rate: number;
  /** rms time error of an edge, s. */
  readonly edge: number;
  /** Allan deviation at 1 s of white FM. */
  readonly whiteFm: number;
  readonly gate: number;
  /** Dead time after each reading; s; 0 = back to back. */
  readonly dead: number;
  /** Decimals of a period as written. */
  readonly decimals: number;
  /** Rate per kelvin, and a daily wave of so many kelvin. */
  readonly perKelvin?: number;
  readonly waveKelvin?: number;
}

export const usual: Bench = {
  readings: 1080,
  rate: -2.3e-8,
  edge: 3.5e-4,
  whiteFm: 0,
  gate: 9.5,
  dead: 0,
  decimals: 9,
};

/** What a bench records, as it would be read from its log, and the clock's mean rate over it. */
export interface BenchRecord {
  readonly periods: number[];
  readonly temperature: number[];
  readonly rateOverRun: number;
}

/** Runs the clock edge by edge and the counter by its own rule: the first edge after the gate has lasted. */
export function runBench(bench: Bench, deviates: Deviates): BenchRecord {
  const { rate, edge, whiteFm, gate, dead, decimals, perKelvin = 0, waveKelvin = 0 } = bench;
  const day = 86400;
  let phase = 0;
  let n = 0;
  let stamp = 0;
  const warmth = (t: number) => waveKelvin * Math.sin((2 * Math.PI * t) / day);
  // The time of edge n without jitter is n − phase.
  const next = () => {
    n++;
    phase += rate + perKelvin * warmth(n) + whiteFm * deviates.normal();
    stamp = n - phase + edge * deviates.normal();
  };
  next();
  const first = { n, phase };
  const periods: number[] = [];
  const temperature: number[] = [];
  for (let i = 0; i < bench.readings; i++) {
    const from = { n, stamp };
    do next();
    while (stamp - from.stamp < gate);
    const period = (stamp - from.stamp) / (n - from.n);
    periods.push(Number(period.toFixed(decimals)));
    temperature.push(20 + warmth(n - gate / 2));
    if (dead > 0) {
      const end = stamp;
      do next();
      while (stamp - end < dead);
    }
  }
  return { periods, temperature, rateOverRun: (phase - first.phase) / (n - first.n) };
}

/** The readings as a log without columns beside the period would give them. */
export function asReadings(
  bench: Bench,
  periods: readonly number[],
  more: Partial<PeriodReadings> = {},
): PeriodReadings {
  const { gate, dead, decimals } = bench;
  return {
    kind: "period",
    period: Float64Array.from(periods),
    cycles: Float64Array.from(periods, (p) => (Number.isNaN(p) ? p : Math.round(gate))),
    gate,
    start: null,
    nominalPeriod: 1,
    backToBack: dead === 0,
    ...(dead === 0 ? {} : { deadTime: dead }),
    resolution: 10 ** -decimals,
    ...more,
  };
}

/** A record with a fault, ready to be judged. */
export interface FaultyRecord {
  readonly readings: PeriodReadings;
  readonly truth: number;
}

const middle = (deviates: Deviates, size: number) =>
  Math.floor(size * (0.15 + 0.7 * deviates.uniform()));

/** What spoils a record, row by row; none tells the judge anything that a bench would not. */
export const faults: Record<string, (deviates: Deviates) => FaultyRecord> = {
  clean: (d) => {
    const { periods, rateOverRun } = runBench(usual, d);
    return { readings: asReadings(usual, periods), truth: rateOverRun };
  },
  "one line lost": (d) => {
    const { periods, rateOverRun } = runBench(usual, d);
    periods.splice(middle(d, periods.length), 1);
    return { readings: asReadings(usual, periods), truth: rateOverRun };
  },
  "one line doubled": (d) => {
    const { periods, rateOverRun } = runBench(usual, d);
    const at = middle(d, periods.length);
    periods.splice(at, 0, periods[at]!);
    return { readings: asReadings(usual, periods), truth: rateOverRun };
  },
  "two runs joined": (d) => {
    const half = { ...usual, readings: 540 };
    const one = runBench(half, d);
    const two = runBench(half, d);
    const periods = [...one.periods, ...two.periods];
    return { readings: asReadings(usual, periods), truth: (one.rateOverRun + two.rateOverRun) / 2 };
  },
  "gate of whole ticks, dead time": (d) => {
    const bench = { ...usual, gate: 10, readings: 540, dead: 9.5 };
    const { periods, rateOverRun } = runBench(bench, d);
    return { readings: asReadings(bench, periods), truth: rateOverRun };
  },
  "gate of whole ticks, back to back": (d) => {
    const bench = { ...usual, gate: 10, rate: -1.6e-8 };
    const { periods, rateOverRun } = runBench(bench, d);
    return { readings: asReadings(bench, periods), truth: rateOverRun };
  },
  "gate half a tick off, dead time": (d) => {
    const bench = { ...usual, readings: 540, dead: 9.7 };
    const { periods, rateOverRun } = runBench(bench, d);
    return { readings: asReadings(bench, periods), truth: rateOverRun };
  },
  "tick missed inside the gate": (d) => {
    const bench = usual;
    const { periods, rateOverRun } = runBench(bench, d);
    const at = middle(d, periods.length);
    periods[at] = (periods[at]! * 10) / 9;
    return { readings: asReadings(bench, periods), truth: rateOverRun };
  },
  "bounce inside the gate": (d) => {
    const bench = usual;
    const { periods, rateOverRun } = runBench(bench, d);
    const at = middle(d, periods.length);
    periods[at] = (periods[at]! * 10) / 11;
    return { readings: asReadings(bench, periods), truth: rateOverRun };
  },
  "readings all alike": (d) => {
    const bench = {
      ...usual,
      readings: 100,
      edge: 1e-9,
      decimals: 7,
      rate: 4e-7 * (d.uniform() - 0.5),
    };
    const { periods, rateOverRun } = runBench(bench, d);
    return { readings: asReadings(bench, periods), truth: rateOverRun };
  },
  "24 h, temperature wave": (d) => {
    const bench = { ...usual, readings: 864, gate: 99.5, perKelvin: 3e-9, waveKelvin: 4 };
    const { periods, temperature, rateOverRun } = runBench(bench, d);
    const readings = asReadings(bench, periods, { temperature: Float64Array.from(temperature) });
    return { readings, truth: rateOverRun };
  },
  "lines missing, told by coarse stamps": (d) => {
    const { periods, rateOverRun } = runBench(usual, d);
    for (let i = 0; i < 12; i++) periods[middle(d, periods.length)] = Number.NaN;
    return { readings: asReadings(usual, periods), truth: rateOverRun };
  },
  "one line lost, white FM too": (d) => {
    const bench = { ...usual, whiteFm: 1e-5 };
    const { periods, rateOverRun } = runBench(bench, d);
    periods.splice(middle(d, periods.length), 1);
    return { readings: asReadings(bench, periods), truth: rateOverRun };
  },
};
