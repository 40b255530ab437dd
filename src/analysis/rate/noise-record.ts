import type { Readings } from "../../readings/index.ts";
import { type BeatFit, findBeats } from "./find-beats.ts";
import { boundaryModes, type NoiseModes, readingModes } from "./noise-modes.ts";
import { type NoiseHypothesis, noisePosterior } from "./noise-posterior.ts";

/** The noise found in a record, in the units of one interval. */
export interface NoiseRecord {
  /** Interval τ₀ of the record the noise was found in; s. */
  readonly interval: number;
  /** Length of that record in intervals. */
  readonly intervals: number;
  /** True where the levels are those of independent readings, false where they are those of edges. */
  readonly independent: boolean;
  /** The modes it was found in; null where the record is too short. */
  readonly modes: NoiseModes | null;
  /** Empty where the record is too short or does not scatter. */
  readonly hypotheses: readonly NoiseHypothesis[];
  /** Why a straight line does not fit the record; empty where it does. */
  readonly curved: string;
}

/** Probability of a drift or a slow beat above which the line is said to curve or cycle. */
const curvedAbove = 0.8;
/** Readings from which on beats are looked for, and cycles in a record below which a beat is slow. */
const enoughForBeats = 30;
const slowBelow = 5;
/**
 * A single slow beat is a cycle (a daily wave of temperature), whatever else the noise may look like, where it
 * has at least so many cycles in the record and leaves no more than this of the squares about the line: a
 * random walk spreads its power over more than one.
 */
const fewestCycles = 1.5;
const mostLeft = 0.15;

/**
 * Noise of a record as edges (for estimators that stand on edges) and as readings (for the mean).
 *
 * Back to back, and for time errors, both are the same; with dead time the edges are the first ones of the
 * readings, and readings are taken as independent. Of a record with gaps the longest stretch is used.
 *
 * @param readings - the record
 * @param record - its edges and time errors, joined where that is certain (see edgeRecord)
 * @returns the noise of the edges and of the readings
 *
 * Source: own derivation.
 */
export function noiseRecord(
  readings: Readings,
  record: { readonly edge: Float64Array; readonly x: Float64Array },
): { edges: NoiseRecord; readings: NoiseRecord } {
  if (readings.kind === "time_error") {
    const [first, last] = longestStretch(readings.timeError);
    const noise = ofEdges(readings.timeError.subarray(first, last), readings.spacing);
    return { edges: noise, readings: noise };
  }
  const { period, cycles, nominalPeriod, backToBack } = readings;
  const [first, last] = longestStretch(period);
  const count = last - first;
  if (backToBack) {
    const x = new Float64Array(count + 1);
    let total = 0;
    for (let i = 0; i < count; i++) {
      total += cycles[first + i]!;
      x[i + 1] = x[i]! + cycles[first + i]! * (nominalPeriod - period[first + i]!);
    }
    const noise = rounded(ofEdges(x, (total * nominalPeriod) / count), readings.rounding);
    return { edges: noise, readings: noise };
  }
  // Two edges a reading: its first one and its last one.
  const before = period.subarray(0, first).reduce((n, p) => n + (Number.isNaN(p) ? 0 : 1), 0);
  const starts = new Float64Array(count);
  for (let i = 0; i < count; i++) starts[i] = record.x[2 * (before + i)]!;
  const edgeSpan = record.edge[2 * (before + count - 1)]! - record.edge[2 * before]!;
  const gate = (cycles.subarray(first, last).reduce((s, c) => s + c, 0) * nominalPeriod) / count;
  const known = readings.deadTime === undefined ? 0 : gate + readings.deadTime;
  const spacing = Math.max(known, (edgeSpan * nominalPeriod) / Math.max(1, count - 1));
  const rates = new Float64Array(count);
  for (let i = 0; i < count; i++) rates[i] = 1 - period[first + i]! / nominalPeriod;
  return {
    edges: ofEdges(starts, spacing),
    readings: ofRates(rates, gate, Math.max(spacing, gate)),
  };
}

/** With what rounding adds to each reading: too little to show in one, but it adds up as white FM does. */
function rounded(noise: NoiseRecord, error: number | undefined): NoiseRecord {
  if (error === undefined) return noise;
  const rounding = error * error;
  return { ...noise, hypotheses: noise.hypotheses.map((h) => ({ ...h, rounding })) };
}

function ofEdges(x: Float64Array, interval: number): NoiseRecord {
  const modes = x.length >= 4 ? boundaryModes(x.map((v) => v / interval)) : null;
  const beats = x.length >= enoughForBeats ? findBeats(x.map((v) => v / interval)) : [];
  return finish(modes, beats, interval, x.length - 1, false);
}

function ofRates(rates: Float64Array, gate: number, interval: number): NoiseRecord {
  const modes = rates.length >= 4 ? readingModes(rates, Math.min(1, gate / interval)) : null;
  return finish(modes, [], interval, rates.length, true);
}

function finish(
  modes: NoiseModes | null,
  beats: readonly BeatFit[],
  interval: number,
  intervals: number,
  independent: boolean,
): NoiseRecord {
  const hypotheses = modes === null ? [] : noisePosterior(modes, beats);
  const of = (test: (h: NoiseHypothesis) => boolean) =>
    hypotheses.reduce((sum, h) => sum + (test(h) ? h.probability : 0), 0);
  const drift = of((h) => h.drift);
  const cycle = isOneCycle(beats[0], intervals)
    ? 1
    : of((h) => h.beats.some((b) => b.frequency * intervals < slowBelow));
  return {
    interval,
    intervals,
    independent,
    modes,
    hypotheses,
    curved:
      Math.max(drift, cycle) > curvedAbove
        ? `the residuals of the line ${drift > cycle ? "curve (the rate drifts)" : "cycle"}, so that it answers another question than the mean`
        : "",
  };
}

function isOneCycle(fit: BeatFit | undefined, intervals: number): boolean {
  if (fit === undefined || fit.remainder > mostLeft) return false;
  const cycles = fit.beats[0]!.frequency * intervals;
  return cycles >= fewestCycles && cycles < slowBelow;
}

/** First and last (exclusive) index of the longest stretch without a gap. */
function longestStretch(v: Float64Array): [number, number] {
  let best: [number, number] = [0, 0];
  let start = 0;
  for (let i = 0; i <= v.length; i++) {
    if (i === v.length || Number.isNaN(v[i]!)) {
      if (i - start > best[1] - best[0]) best = [start, i];
      start = i + 1;
    }
  }
  return best;
}
