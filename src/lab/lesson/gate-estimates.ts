import {
  type EstimatorMethod,
  edgeSlopes,
  meanOfReadingsSlope,
  rateOfSlope,
} from "../../judgement/index.ts";
import type { Gate } from "./gates-text.ts";

/**
 * The rate by the three estimators from gates on a row of ticks: the functions of `judge` on the same edges.
 *
 * @param gates - in their order
 * @param late - how late each tick is; s
 * @param period - nominal period; s
 */
export function gateEstimates(
  gates: readonly Gate[],
  late: Float64Array,
  period: number,
): Readonly<Record<EstimatorMethod, number>> {
  const column = (value: (gate: Gate) => number) => Float64Array.from(gates, value);
  const ticks = [...new Set(gates.flat())];
  const edge = Float64Array.from(ticks, (tick) => tick - ticks[0]!);
  const x = Float64Array.from(ticks, (tick) => late[ticks[0]!]! - late[tick]!);
  const gained = column(([from, to]) => late[from]! - late[to]!);
  return {
    mean_of_readings: rateOfSlope(
      meanOfReadingsSlope(
        gained,
        column(([from, to]) => to - from),
        period,
      ),
    ),
    end_to_end: rateOfSlope(edgeSlopes.end_to_end(edge, x, period)),
    line_fit: rateOfSlope(edgeSlopes.line_fit(edge, x, period)),
  };
}

/** Names of gates. */
export const gateNames = "ABCDEF";

/**
 * How neighbours stand to one another, in words.
 *
 * Exact case: gates 0-4 and 4-8 give `A and B share tick 4; its error cancels.`
 */
export function touchWords(gates: readonly Gate[]): string {
  const pairs = gates.slice(1).map(([from], i) => {
    const names = `${gateNames[i]} and ${gateNames[i + 1]}`;
    const end = gates[i]![1];
    return end === from
      ? `${names} share tick ${end}; its error cancels.`
      : `${names} are apart: ticks ${end} and ${from} both count.`;
  });
  return pairs.length === 0 ? "One gate: its two ticks count." : pairs.join(" ");
}
