import type { PeriodReadings } from "../../readings/index.ts";
import { type EstimatorResponse, measurementVariance } from "./estimator-response.ts";
import { flickerPmAtEnds } from "./flicker-pm.ts";
import type { NoiseHypothesis } from "./noise-posterior.ts";
import type { Outlier } from "./outlier.ts";
import { rateCandidates } from "./rate-candidates.ts";
import { type Stretch, sourceDifferenceVariance } from "./source-noise.ts";
import { mixtureHalfWidth } from "./student-t.ts";

/** A span is set apart where noise would carry its rate as far in one of ten thousand. */
const share = 0.9999;

/**
 * Spans between gaps or strays in which the clock ran at another rate (on its own oscillator, with a wrong drive):
 * their mean differs from that of the longest stretch by more than noise and drift found there allow.
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
  const longest = stretches.reduce((a, b) => (b[1] - b[0] > a[1] - a[0] ? b : a));
  const usual = meanPeriod(readings, longest);
  const spans: Outlier[] = [];
  const period = readings.period.slice();
  for (const stretch of stretches) {
    if (stretch === longest) continue;
    const [from, to] = stretch;
    const { course, half } = expected(noise.hypotheses, longest, stretch);
    const off = meanPeriod(readings, stretch) / usual - 1 + course;
    if (Math.abs(off) <= half) continue;
    const cycles = readings.cycles.subarray(from, to).reduce((sum, c) => sum + c, 0);
    spans.push({ reading: from, kind: "span", cycles: off * cycles, repaired: false });
    period.fill(Number.NaN, from, to);
  }
  return spans.length === 0 ? nothing : { spans, without: { ...readings, period } };
}

/**
 * By how much the rate should have changed from one stretch to another, by the drift found in the first, and how far
 * from that noise may carry it, the drift's own uncertainty included.
 */
function expected(hypotheses: readonly NoiseHypothesis[], from: Stretch, to: Stretch) {
  const away = (to[0] + to[1] - from[0] - from[1]) / 2;
  let weight = 0;
  let course = 0;
  for (const h of hypotheses) {
    weight += h.probability;
    course += h.probability * h.driftEstimate * away;
  }
  course /= weight;
  const [one, other] = [endsOf(from[1] - from[0]), endsOf(to[1] - to[0])];
  const scale = hypotheses.map((h) =>
    Math.hypot(
      Math.sqrt(
        measurementVariance(h, one) +
          measurementVariance(h, other) +
          sourceDifferenceVariance(h, from, to),
      ),
      h.driftUncertainty * away,
      h.driftEstimate * away - course,
    ),
  );
  const half = mixtureHalfWidth(
    scale,
    hypotheses.map((h) => h.probability),
    hypotheses.map((h) => h.degreesOfFreedom),
    share,
  );
  return { course, half };
}

/** Response of a stretch's mean rate, which stands on its two end edges. */
function endsOf(n: number): EstimatorResponse {
  const square = n * n;
  return {
    measurement: 2 / square,
    flickerPm: flickerPmAtEnds(n) / square,
    whiteFm: 1 / n,
    beat: () => 4 / square,
  };
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
