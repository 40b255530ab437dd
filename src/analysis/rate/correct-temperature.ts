import type { Readings } from "../../readings/index.ts";

/** Missing temperatures in a row that are taken from the line between their neighbours. */
const mostInterpolated = 5;

/**
 * Readings as they would be at one temperature.
 *
 * A few missing temperatures in a row are interpolated; readings in a longer gap are left out. The scale of time
 * errors goes on across it, by the line between its ends.
 *
 * @param readings - the record; NaN = missing
 * @param warmth - temperature of each reading from the one wanted; K values, K; NaN = missing
 * @param coefficient - of the rate; 1/K
 * @returns the readings, and what was done where temperatures are missing, in words; empty where none is
 *
 * Source: linear temperature coefficient, y = a·(T − T₀). Exact case: readings that follow the temperature and
 * nothing else come out equal.
 */
export function correctTemperature(
  readings: Readings,
  warmth: Float64Array,
  coefficient: number,
): { readings: Readings; note: string } {
  const values = readings.kind === "period" ? readings.period : readings.timeError;
  const { whole, note } = closeShortGaps(values, warmth);
  if (readings.kind === "period") {
    const { nominalPeriod } = readings;
    const period = readings.period.map((p, i) => p + nominalPeriod * coefficient * whole[i]!);
    return { readings: { ...readings, period }, note };
  }
  const { timeError, spacing } = readings;
  let gained = 0;
  let last = -1;
  const right = timeError.map((x, i) => {
    if (Number.isNaN(whole[i]!)) return Number.NaN;
    if (last >= 0) gained += ((whole[last]! + whole[i]!) / 2) * spacing * (i - last);
    last = i;
    return x - coefficient * gained;
  });
  return { readings: { ...readings, timeError: right }, note };
}

function closeShortGaps(values: Float64Array, warmth: Float64Array) {
  const whole = warmth.slice();
  let closed = 0;
  let open = 0;
  for (let from = 0; from < warmth.length; from++) {
    if (!Number.isNaN(warmth[from]!)) continue;
    let to = from;
    while (to < warmth.length && Number.isNaN(warmth[to]!)) to++;
    const before = warmth[from - 1] ?? warmth[to] ?? Number.NaN;
    const after = warmth[to] ?? before;
    const isShort = to - from <= mostInterpolated;
    for (let k = from; k < to; k++) {
      if (isShort) whole[k] = before + ((after - before) * (k - from + 1)) / (to - from + 1);
      if (!Number.isNaN(values[k]!)) isShort ? closed++ : open++;
    }
    from = to;
  }
  const parts = [
    closed > 0 ? `${were(closed)} corrected by an interpolated one` : "",
    open > 0 ? `${were(open)} left out` : "",
  ].filter((part) => part !== "");
  const note = parts.length > 0 ? `of readings without a temperature, ${parts.join(" and ")}` : "";
  return { whole, note };
}

const were = (count: number): string => `${count} ${count === 1 ? "was" : "were"}`;
