import type { PeriodReadings } from "../readings/readings.ts";
import { measurementVariance } from "./estimator-response.ts";
import type { Outlier } from "./outlier.ts";
import { rateCandidates } from "./rate-candidates.ts";
import { sourceAllanVariance } from "./source-noise.ts";
import { mixtureHalfWidth } from "./student-t.ts";

/** A span is set apart where noise would carry its rate as far in one of ten thousand. */
const share = 0.9999;

/**
 * Spans between gaps or strays in which the clock ran at another rate (on its own oscillator, with a wrong drive):
 * their mean differs from that of the longest stretch by more than the noise found there allows.
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
  const { noise } = rateCandidates(readings).candidates[0]!;
  if (noise.hypotheses.length === 0) return nothing;
  const half = (n: number) =>
    mixtureHalfWidth(
      noise.hypotheses.map((h) => {
        const ends = {
          measurement: 2 / (n * n),
          flickerPm: 0,
          whiteFm: 1 / n,
          beat: () => 4 / (n * n),
        };
        return Math.sqrt(measurementVariance(h, ends) + sourceAllanVariance(h, n));
      }),
      noise.hypotheses.map((h) => h.probability),
      noise.hypotheses.map((h) => h.degreesOfFreedom),
      share,
    );
  const longest = stretches.reduce((a, b) => (b[1] - b[0] > a[1] - a[0] ? b : a));
  const usual = meanPeriod(readings, longest);
  const spans: Outlier[] = [];
  const period = readings.period.slice();
  for (const [from, to] of stretches) {
    const off = meanPeriod(readings, [from, to]) / usual - 1;
    if (Math.abs(off) <= Math.hypot(half(to - from), half(longest[1] - longest[0]))) continue;
    const cycles = readings.cycles.subarray(from, to).reduce((sum, c) => sum + c, 0);
    spans.push({ reading: from, kind: "span", cycles: off * cycles, repaired: false });
    period.fill(Number.NaN, from, to);
  }
  return spans.length === 0 ? nothing : { spans, without: { ...readings, period } };
}

function stretchesOf(period: Float64Array): [number, number][] {
  const found: [number, number][] = [];
  let from = 0;
  for (let i = 0; i <= period.length; i++) {
    if (i < period.length && !Number.isNaN(period[i]!)) continue;
    if (i > from) found.push([from, i]);
    from = i + 1;
  }
  return found;
}

function meanPeriod({ period, cycles }: PeriodReadings, [from, to]: readonly [number, number]) {
  let time = 0;
  let count = 0;
  for (let i = from; i < to; i++) {
    time += cycles[i]! * period[i]!;
    count += cycles[i]!;
  }
  return time / count;
}
