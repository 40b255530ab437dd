import { shortNumber } from "../numeric/index.ts";
import { type GateSetting, type GateTiming, gateTimes, isClear } from "../stages/counter/index.ts";

/** What a gate, or a dead time, of whole periods does to the mean of readings. */
export interface GateRace {
  /** By how much it shifts the rate; dimensionless, negative = reads slow. */
  readonly bias: number;
  /** The nearest setting half a period off, s; null where the edges' noise reaches over half a period. */
  readonly better: { readonly key: "gate_s" | "dead_time_s"; readonly value: number } | null;
}

/** A bias below this part of a single reading's scatter does not matter. */
const negligible = 0.01;

/**
 * The bias of readings that begin and end with edges caught in different ways.
 *
 * A gate of whole periods races with its own last edge: where that is late it ends the gate, where it is early the next one
 * does. With dead time nothing makes up for that; back to back the same edge begins the next reading.
 *
 * @param setting - technique, gate and dead time
 * @param timing - which edges are stamped
 * @param period - of the edges; s
 * @param jitter - rms error of an edge; s
 * @returns the race; null where there is none
 *
 * Source: `edgeSelection`. Exact case: back to back there is no bias.
 */
export function gateRaceOf(
  setting: GateSetting,
  { selection, gate }: GateTiming,
  period: number,
  jitter: number,
): GateRace | null {
  const bias = selection === null ? 0 : (selection.means.at(-1)! - selection.means[0]!) / gate;
  if (Math.abs(bias) <= (negligible * jitter * Math.SQRT2) / gate) return null;
  const times = gateTimes(setting, period);
  const halfOff = (wait: number) => (Math.max(1, Math.round(wait / period) - 1) + 0.5) * period;
  const better = (["gate", "deadTime"] as const)
    .map((key) => ({
      key: key === "gate" ? ("gate_s" as const) : ("dead_time_s" as const),
      value: halfOff(times[key]),
      races: !isClear(times[key], period, jitter),
    }))
    .find(({ races, value }) => races && isClear(value, period, jitter));
  return { bias, better: better ? { key: better.key, value: better.value } : null };
}

/** The warning that goes with it. */
export const raceWarning = (race: GateRace) => ({
  code: "gate_race",
  path: `counter.${race.better?.key ?? "gate_s"}`,
  message: `races with the edges: ${raceInWords(race)}`,
});

/** The same in words, for warnings and tables; the size where it is not told beside it. */
export function raceInWords({ bias, better }: GateRace, isSized = true): string {
  const size = `${shortNumber(Math.abs(bias) * 86400)} s/day ${bias < 0 ? "slow" : "fast"}`;
  const whole = `the ${better?.key === "dead_time_s" ? "dead time" : "gate"} of whole periods`;
  const way =
    better === null
      ? "the noise of the edges reaches over every other gate"
      : `one of ${shortNumber(better.value, 6)} s does not`;
  return `${whole} catches late edges more readily than early ones, which ${isSized ? `makes the mean of readings ${size}` : "shifts the mean of readings"}; ${way}`;
}
