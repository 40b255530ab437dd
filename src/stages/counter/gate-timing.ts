import { averageSelection, type EdgeSelection, edgeSelection, isChoice } from "./edge-selection.ts";
import { type ErrorLaw, gaussianLaw } from "./error-law.ts";
import { type GateSetting, gateTimes } from "./gate-times.ts";

/** A drift of the edges in a wait by less than this part of their jitter makes no odds. */
const still = 0.05;

/** Which edges a counter stamps, on the average. */
export interface GateTiming {
  /** From start edge to stop edge of a reading; s. For stamps one by one the spacing. */
  readonly gate: number;
  /** From the start of one reading to that of the next; s. */
  readonly spacing: number;
  /** Longest wait for the first edge; s. */
  readonly wait: number;
  /** Readings from stop edge to stop edge, or single stamps: the first reading has no length. */
  readonly isStamped: boolean;
  /** Errors of the stamps, as which edges are caught makes them; null where it has no say. */
  readonly selection: EdgeSelection | null;
}

/**
 * Whether periods are so much alike that no wait of the counter ends elsewhere among the edges.
 *
 * @param setting - technique, gate and dead time
 * @param periods - periods of the edges; s
 * @param period - the period to compare them with; s
 * @param jitter - rms jitter of an edge; s
 */
export function isStill(
  setting: GateSetting,
  periods: readonly number[],
  period: number,
  jitter: number,
): boolean {
  const { gate, deadTime } = gateTimes(setting, period);
  const wait = Math.max(gate, deadTime);
  return periods.every((each) => wait * Math.abs(each - period) <= still * jitter * period);
}

/**
 * Which edges a counter stamps.
 *
 * A reciprocal counter takes the first edge after its gate; a direct counter times its gates by itself; a
 * time-interval counter stamps the first edge after each of its starts, every second with a single gate.
 *
 * @param setting - technique, gate and dead time
 * @param periods - periods of the edges in counter time, at moments through the run; s, > 0
 * @param jitter - rms jitter of an edge; s, >= 0
 * @param law - how that jitter is distributed; asked for only where it matters
 * @returns average spacings; s
 */
export function gateTiming(
  setting: GateSetting,
  periods: readonly number[],
  jitter: number,
  law: () => ErrorLaw = () => gaussianLaw,
): GateTiming {
  const period = periods.reduce((sum, each) => sum + each, 0) / periods.length;
  const { gate, deadTime } = gateTimes(setting, period);
  if (setting.technique === "time_interval") {
    const spacing = Math.max(gate, period);
    // Where few edges lie within the noise, the starts are taken to keep clear of them.
    const selection =
      period < jitter ? edgeSelection([spacing], period, jitter, law(), true) : null;
    return { gate: spacing, spacing, wait: period, isStamped: true, selection };
  }
  if (setting.technique === "direct") {
    return { gate, spacing: gate + deadTime, wait: period, isStamped: false, selection: null };
  }
  const waits = [gate];
  if (deadTime > 0) waits.push(deadTime);
  const moments = isStill(setting, periods, period, jitter) ? [period] : periods;
  const hasChoice = moments.some((each) => isChoice(waits, each, jitter));
  const selection = averageSelection(waits, moments, jitter, hasChoice ? law() : gaussianLaw);
  const [open = 1, closed = 0] = selection.edges;
  const spacing = (open + closed) * period;
  return { gate: open * period, spacing, wait: period, isStamped: false, selection };
}

/**
 * What the choice of edges adds to the mean square of a single reading in the settled state, its length changing with the
 * edges caught.
 *
 * @param timing - which edges are stamped
 * @param jitter - rms jitter of an edge; s
 * @returns mean square added to that of two independent edges over the mean length; dimensionless, may be negative
 */
export function readingExcess({ selection, gate }: GateTiming, jitter: number): number {
  return selection === null ? 0 : selection.meanSquare - (2 * jitter * jitter) / (gate * gate);
}
