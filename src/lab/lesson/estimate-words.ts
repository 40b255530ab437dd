import type { EstimatorMethod, RateEstimate } from "../../analysis/index.ts";
import { numberText } from "../../view/chart/index.ts";
import { rateWithin } from "../../view/words/index.ts";

/** The estimators in words. */
export const estimatorNames: Readonly<Record<EstimatorMethod, string>> = {
  mean_of_readings: "mean of the readings",
  end_to_end: "first and last edge",
  line_fit: "fitted line",
};

/**
 * An estimate with its expanded uncertainty at 95 %.
 *
 * @param estimate - a rate
 * @returns such as `+0.123 ± 0.045 ms/day (95 %)`, with a true minus sign; without uncertainty where none is known
 */
export function estimateWords({ rate, interval95 }: RateEstimate): string {
  if (!Number.isFinite(rate)) return "none";
  const half = (interval95[1] - interval95[0]) / 2;
  const text = Number.isFinite(half)
    ? `${rateWithin(rate, half)} (95 %)`
    : `${numberText(rate * 86400, 3)} s/day`;
  return text.replaceAll("-", "−");
}
