import { endToEndSlope } from "../../../src/analysis/rate/end-to-end-slope.ts";
import { estimateRates } from "../../../src/analysis/rate/estimate-rates.ts";
import { lineFitSlope } from "../../../src/analysis/rate/line-fit-slope.ts";
import { rateOfSlope } from "../../../src/analysis/rate/rate-of-slope.ts";
import type { Readings } from "../../../src/analysis/readings/readings.ts";
import { type MadeNoise, makeEdges, normalStream } from "./power-law-noise.ts";

/** Coverage of one estimator's two intervals over an ensemble of records. */
export interface Coverage {
  readonly method: string;
  /** Records of which the estimator says that it applies. */
  readonly applies: number;
  readonly covered: number;
  /** Median half-width over that of someone who knows the noise (1.96 σ). */
  readonly width: number;
  readonly steadyGiven: number;
  readonly steadyCovered: number;
  readonly steadyWidth: number;
}

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

/** Runs an ensemble with seeds `name 0`, `name 1`, … and counts what the intervals hold. */
export function coverage(
  name: string,
  intervals: number,
  noise: MadeNoise,
  seeds: number,
): Coverage[] {
  const methods = ["mean_of_readings", "end_to_end", "line_fit"];
  const tally = methods.map(() => ({
    widths: [] as number[],
    covered: 0,
    steady: [] as number[],
    steadyCovered: 0,
  }));
  for (let s = 0; s < seeds; s++) {
    const record = backToBackRecord(intervals, noise, `${name} ${intervals} ${s}`);
    estimateRates(record.readings).forEach((e, i) => {
      if (!e.applies) return;
      const t = tally[i]!;
      const slope = e.method === "line_fit" ? lineFitSlope : endToEndSlope;
      const truth = rateOfSlope(slope(record.edge, record.truth, 1));
      t.widths.push((e.interval95[1] - e.interval95[0]) / 2 / scale);
      if (e.interval95[0] <= truth && truth <= e.interval95[1]) t.covered++;
      const steady = e.steadyInterval95;
      if (steady === null) return;
      // A drift is part of the steady rate: half its growth, by either estimator.
      const mean = record.steady + (scale * (noise.drift ?? 0) * intervals) / 2;
      t.steady.push((steady[1] - steady[0]) / 2 / scale);
      if (steady[0] <= mean && mean <= steady[1]) t.steadyCovered++;
    });
  }
  return tally.map((t, i) => {
    const known = knownHalfWidths(methods[i]!, intervals, noise);
    return {
      method: methods[i]!,
      applies: t.widths.length,
      covered: t.covered / t.widths.length,
      width: median(t.widths) / known.run,
      steadyGiven: t.steady.length,
      steadyCovered: t.steadyCovered / t.steady.length,
      steadyWidth: median(t.steady) / known.steady,
    };
  });
}

/** 1.96 σ of who knows the levels: NOTE the formulas are Rubiola's Π and Ω for white PM and white FM. */
function knownHalfWidths(method: string, intervals: number, noise: MadeNoise) {
  const n = intervals + 1;
  const [pm, fm] =
    method === "line_fit"
      ? [12 / (n * (n * n - 1)), (6 * (n * n + 1)) / (5 * n * (n * n - 1))]
      : [2 / intervals ** 2, 1 / intervals];
  const run = pm * (noise.measurement ?? 0);
  return { run: 1.96 * Math.sqrt(run), steady: 1.96 * Math.sqrt(run + fm * (noise.whiteFm ?? 0)) };
}

function median(values: number[]): number {
  const sorted = values.sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? Number.NaN;
}

/** Readings with dead time: independent white noise of one reading, and what the source adds to it. */
export function deadTimeRecord(
  count: number,
  noise: { readonly reading: number; readonly randomWalkFm?: number },
  seed: string,
) {
  const normal = normalStream(seed);
  const truth = new Float64Array(count);
  let rate = 2e-6;
  for (let i = 0; i < count; i++) {
    truth[i] = rate;
    rate += scale * Math.sqrt(noise.randomWalkFm ?? 0) * normal();
  }
  const period = truth.map((y) => 1 / (1 + y + scale * Math.sqrt(noise.reading) * normal()));
  const readings: Readings = {
    kind: "period",
    period,
    cycles: new Float64Array(count).fill(interval),
    start: null,
    nominalPeriod: 1,
    backToBack: false,
  };
  const time = truth.reduce((sum, y) => sum + 1 / (1 + y), 0);
  return { readings, overRun: count / time - 1, steady: 2e-6 };
}
