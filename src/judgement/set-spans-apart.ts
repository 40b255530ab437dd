import { NoisePosterior, toEvents } from "../noise-model/index.ts";
import type { PeriodReadings } from "../readings/index.ts";
import type { Outlier } from "./outlier.ts";
import { toRecord } from "./to-record.ts";

/** Readings from one to before another. */
type Stretch = readonly [number, number];

/** Readings of the longest stretch below which its noise is not known. */
const fewest = 8;
/** A span is set apart where noise would carry its rate as far in one of ten thousand. */
const share = 0.9999;

/**
 * Spans between gaps or strays in which the clock ran at another rate (on its own oscillator, with a wrong drive):
 * their mean lies off the line between the stretches on either side by more than the noise of the longest stretch
 * allows. A drift or a random walk cancels in that; the first and last stretch have one side only and are left alone.
 * The model has no drift and takes one for slow noise, so that under a drift a span must lie further off to be found.
 *
 * @param readings - back-to-back readings with gaps where strays stood
 * @returns the spans, each as one outlier (its first reading; cycles lost in it, > 0, against the line), and
 *   the record with a gap in the place of each; the same record where there is none
 *
 * Source: own derivation. Exact case: a record with fewer than two gaps has no spans.
 */
export function setSpansApart(readings: PeriodReadings): {
  spans: Outlier[];
  without: PeriodReadings;
} {
  const stretches = stretchesOf(readings.period);
  const nothing = { spans: [], without: readings };
  if (!readings.backToBack || stretches.length < 3) return nothing;
  const longest = stretches.reduce((a, b) => (b[1] - b[0] > a[1] - a[0] ? b : a));
  if (longest[1] - longest[0] < fewest) return nothing;
  const { record } = toRecord(alone(readings, longest));
  if (!record.gain.some((g) => g !== record.gain[0])) return nothing;
  const posterior = new NoisePosterior(toEvents(record), {}, false);
  const spans: Outlier[] = [];
  const period = readings.period.slice();
  // The one furthest off goes first: next to it others seem to be off.
  for (let left = stretches; ; ) {
    const worst = furthestOff(readings, left, posterior);
    if (worst === null) break;
    const [[from, to], off] = worst;
    const cycles = readings.cycles.subarray(from, to).reduce((sum, c) => sum + c, 0);
    spans.push({ reading: from, kind: "span", cycles: off * cycles, repaired: false });
    period.fill(Number.NaN, from, to);
    left = left.filter(([start]) => start !== from);
  }
  spans.sort((a, b) => a.reading - b.reading);
  return spans.length === 0 ? nothing : { spans, without: { ...readings, period } };
}

/** The stretch that lies further off its neighbours, for the noise between them, than any other, and by how much. */
function furthestOff(
  readings: PeriodReadings,
  stretches: readonly Stretch[],
  noise: NoisePosterior,
): [Stretch, number] | null {
  let worst: [Stretch, number] | null = null;
  let most = 1;
  for (let k = 1; k < stretches.length - 1; k++) {
    const [before, stretch, after] = stretches.slice(k - 1, k + 2) as [Stretch, Stretch, Stretch];
    const along = (middle(stretch) - middle(before)) / (middle(after) - middle(before));
    const [one, other] = [meanPeriod(readings, before), meanPeriod(readings, after)];
    const off = meanPeriod(readings, stretch) / (one + along * (other - one)) - 1;
    const shortest = Math.min(...[before, stretch, after].map(([from, to]) => to - from));
    const ratio = Math.abs(off) / noise.differs(shortest, (after[1] - before[0]) / 4, share);
    if (ratio > most) {
      most = ratio;
      worst = [stretch, off];
    }
  }
  return worst;
}

const middle = ([from, to]: Stretch) => (from + to) / 2;

/** Record of a stretch by itself, for its noise. */
function alone(readings: PeriodReadings, [from, to]: Stretch): PeriodReadings {
  const { start: _, line: __, stamps: ___, joins: ____, temperature: _____, ...rest } = readings;
  const period = readings.period.slice(from, to);
  return { ...rest, start: null, period, cycles: readings.cycles.slice(from, to) };
}

function stretchesOf(period: Float64Array): Stretch[] {
  const found: Stretch[] = [];
  let from = 0;
  for (let i = 0; i <= period.length; i++) {
    if (i < period.length && !Number.isNaN(period[i]!)) continue;
    if (i > from) found.push([from, i]);
    from = i + 1;
  }
  return found;
}

function meanPeriod({ period, cycles }: PeriodReadings, [from, to]: Stretch) {
  let time = 0;
  let count = 0;
  for (let i = from; i < to; i++) {
    time += cycles[i]! * period[i]!;
    count += cycles[i]!;
  }
  return time / count;
}
