import type { Running } from "../../judgement/index.ts";
import {
  halfWidthText,
  humanDuration,
  rateSize,
  rateText,
  rateWithin,
} from "../../view/words/index.ts";
import { wrap } from "../style.ts";
import { clockTime } from "./watch-rows.ts";

/** What the status on a terminal is made of. */
export interface WatchState {
  /** The log, or where the readings come from. */
  readonly name: string;
  readonly goal: number | null;
  readonly of: "run" | "day" | "long";
  readonly now: Date;
  readonly running: Running | null;
  /** Why the lines so far are no readings; empty where they are. */
  readonly unclear: string;
  /** Time that a reading takes, with what passes before the next; s, NaN where it is not known. */
  readonly spacing: number;
  /** When the last line came; null before. */
  readonly lastAt: Date | null;
  /** Rates of the last readings; dimensionless. */
  readonly recent: readonly number[];
  /** At which reading the goal was met; null before. */
  readonly metAt: number | null;
  /** Whether rates are sealed until the goal is met. */
  readonly isSealed: boolean;
  readonly isLogged: boolean;
}

/** Readings drawn in the strip. */
export const stripLength = 48;
const label = 12;
const blocks = [..."▁▂▃▄▅▆▇█"];
/** Readings before which nothing is said of when. */
const early = 30;
/** Ratio of the times left between which the goal will be met beyond which it is too early to say. */
const vague = 4;

/** Which rate a goal is about. */
export const rateAsked = (of: WatchState["of"]) =>
  of === "run" ? "rate over this run" : "steady rate";

/**
 * The status of a watch on a terminal: how well the rate is known and when it will do, the best fit so far, what the mean
 * would say, a strip of the last readings. Nowhere wider than 80 columns.
 */
export function watchStatus(state: WatchState): string[] {
  const { name, goal, of, now, running, unclear, isLogged } = state;
  const asked = rateAsked(of);
  const head = goal === null ? asked : `goal ${halfWidthText(goal)}, ${asked}`;
  const room = 80 - head.length - 12;
  const short = name.length > room ? `…${name.slice(1 - room)}` : name;
  const lines = ["-".repeat(80), `${`${short}  ${head}`.padEnd(72)}${clockTime(now)}`];
  if (running === null || running.rates === null) {
    const count = running?.readings ?? 0;
    const why =
      unclear !== ""
        ? unclear
        : `${count} readings so far; a best fit takes four that belong together`;
    lines.push(
      ...wrap(why, 80 - label)
        .split("\n")
        .slice(0, 3)
        .map((line, i) => row(i === 0 ? "WAITING" : "", line)),
    );
  } else lines.push(...known(state, running, running.rates));
  lines.push(...strip(state));
  const silent = silence(state);
  if (silent !== "") lines.push(silent);
  lines.push(`Ctrl-C stops and judges.${isLogged ? " Every line shown is on the disk." : ""}`);
  return lines.map((line) => line.slice(0, 80));
}

const row = (name: string, text: string) => `${name.padEnd(label)}${text}`;
const halfOf = ({ interval95: [low, high] }: { interval95: readonly [number, number] }) =>
  (high - low) / 2;

function known(state: WatchState, running: Running, rates: NonNullable<Running["rates"]>) {
  const { goal, isSealed, metAt } = state;
  const { systematicBound: bound, half, whole, readings } = running;
  const chance = half - bound;
  const lines = [
    row(
      "KNOWN TO",
      `${halfWidthText(half)}${goal === null ? "" : ` of ${halfWidthText(goal)} wanted`}`,
    ),
    row(
      "",
      `${halfWidthText(chance)} chance (95 %), shrinks; ${bound > 0 ? `${halfWidthText(bound)} time base, does not` : "time base not counted"}`,
    ),
  ];
  if (metAt !== null) {
    const still = goal !== null && half <= goal ? "Going on narrows it." : "It has widened since.";
    lines.push(row("READY", `Goal met at reading ${metAt}. ${still}`));
  } else if (goal !== null) lines.push(row("READY", readyText(state, running)));
  const say = (held: { rate: number; interval95: readonly [number, number] }) =>
    isSealed && metAt === null
      ? `${halfWidthText(halfOf(held))} (95 %), sealed until the goal is met`
      : `${rateWithin(held.rate, halfOf(held))} (95 %)`;
  lines.push(row("Over run", `${say(rates.overRun)}, best fit of ${readings}; chance only`));
  lines.push(row("Steady", say(rates.steady)));
  const mean = whole?.estimates[0];
  if (mean?.applies) {
    const value = isSealed && metAt === null ? "" : `${rateText(mean.rate)} `;
    lines.push(
      row(
        "Mean",
        `${value}${halfWidthText(halfOf(mean))}; s/√K would claim ${halfWidthText(1.96 * mean.naiveStandardUncertainty)} (at ${running.wholeReadings})`,
      ),
    );
  }
  return lines;
}

/** When it will do: a forecast, never a promise. */
function readyText({ now, spacing }: WatchState, running: Running): string {
  const { needed, readings } = running;
  if (needed === null) return "never on this time base, or not to be told yet";
  const [likely, low, high] = needed.map((total) => Math.max(1, total - readings) * spacing);
  if (Number.isNaN(likely!)) return `at reading ${needed[0]}, if all goes on as found`;
  if (readings < early || !(high! <= vague * low!)) {
    const [from, to] = [low!, high!].map(humanDuration);
    return low === Infinity
      ? "never, as it looks"
      : `too early to say: between ${from} and ${to} more`;
  }
  const at = (left: number) => hourOf(new Date(now.getTime() + 1000 * left), now);
  return `about ${at(likely!)}, likely ${at(low!)} to ${at(high!)}, if all goes on as found`;
}

function hourOf(at: Date, now: Date): string {
  const time = at.toTimeString().slice(0, 5);
  if (at.toDateString() === now.toDateString()) return time;
  const day = `${at.getFullYear()}-${`${at.getMonth() + 1}`.padStart(2, "0")}-${`${at.getDate()}`.padStart(2, "0")}`;
  return at.getTime() - now.getTime() < 2e8 ? `${day} ${time}` : day;
}

function strip({ recent, running, isSealed, metAt }: WatchState): string[] {
  const shown = recent.filter(Number.isFinite).slice(-stripLength);
  if (shown.length < 2) return [];
  const [low, high] = [Math.min(...shown), Math.max(...shown)];
  const step = (high - low) / (blocks.length - 1);
  const cells = shown.map((y) => blocks[step > 0 ? Math.round((y - low) / step) : 3]!).join("");
  const scatter = running?.whole?.singleReading.standardDeviation ?? Number.NaN;
  const rms = scatter > 0 ? `   a reading scatters by ${rateSize(scatter, 2)} rms` : "";
  const scale =
    isSealed && metAt === null
      ? `▁ to █: ${rateSize(high - low, 2)}`
      : `▁ ${rateText(low, 2)}   █ ${rateText(high, 2)}`;
  return [row(`Last ${shown.length}`, cells), row("", `${scale}${rms}`)];
}

function silence({ now, lastAt, spacing }: WatchState): string {
  const quiet = lastAt === null ? 0 : (now.getTime() - lastAt.getTime()) / 1000;
  const usual = spacing > 0 ? spacing : 10;
  if (lastAt === null) return "No line has come yet.";
  return quiet > Math.max(5, 2.5 * usual)
    ? `No readings for ${humanDuration(Math.round(quiet))}.`
    : "";
}
