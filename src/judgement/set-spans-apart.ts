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
 * their mean differs from that of the longest stretch by more than noise found there allows.
 *
 * @param readings - back-to-back readings with gaps where strays stood
 * @returns the spans, each as one outlier (its first reading; cycles lost in it, > 0, against the other rate), and
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
  const usual = meanPeriod(readings, longest);
  if (longest[1] - longest[0] < fewest) return nothing;
  const { record } = toRecord(alone(readings, longest));
  if (!record.gain.some((g) => g !== record.gain[0])) return nothing;
  const posterior = new NoisePosterior(toEvents(record), {}, false);
  const spans: Outlier[] = [];
  const period = readings.period.slice();
  for (const stretch of stretches) {
    if (stretch === longest) continue;
    const [from, to] = stretch;
    const off = meanPeriod(readings, stretch) / usual - 1;
    const away = Math.abs(from + to - longest[0] - longest[1]) / 2;
    if (Math.abs(off) <= posterior.differs(to - from, away, share)) continue;
    const cycles = readings.cycles.subarray(from, to).reduce((sum, c) => sum + c, 0);
    spans.push({ reading: from, kind: "span", cycles: off * cycles, repaired: false });
    period.fill(Number.NaN, from, to);
  }
  return spans.length === 0 ? nothing : { spans, without: { ...readings, period } };
}

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
