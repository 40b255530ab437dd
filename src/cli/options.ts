import { type Argument, type Command, InvalidArgumentError, Option } from "commander";
import { parseAccuracy, parseDuration } from "../planning/index.ts";
import { nearestKey } from "../scenario/index.ts";

/** Gathers the values of an option that may be given more than once. */
export const gather = (value: string, previous: readonly string[] = []) => [...previous, value];

/** A number of things, from `least` on. */
export const integerFrom = (least: number) => (text: string) => {
  const value = Number(text);
  if (!/^\d+$/.test(text.trim()) || !Number.isSafeInteger(value) || value < least) {
    throw new InvalidArgumentError(`must be a whole number of at least ${least}`);
  }
  return value;
};

/** An option or argument that takes one of a few words; a near miss is told which. */
export function withChoices<Target extends Option | Argument>(
  target: Target,
  choices: readonly string[],
): Target {
  target.choices(choices);
  target.argParser((text: string) => {
    if (choices.includes(text)) return text;
    const near = nearestKey(text, choices);
    throw new InvalidArgumentError(
      `must be one of ${choices.join(", ")}${near === null ? "" : `; did you mean ${near}?`}`,
    );
  });
  return target;
}

/** An option that takes one of a few words. */
export const choice = (flags: string, about: string, choices: readonly string[]): Option =>
  withChoices(new Option(flags, about), choices);

/** Which edges a run computes. */
export const recordingOption = (): Option =>
  choice("--recording <mode>", "which edges are computed; lazy is fastest", [
    "bursts",
    "ticks",
    "lazy",
  ]);

/** Longest time that can be asked about: some hundred million years, as long as plans look ahead; s. */
const longest = 1e16;

/** A length of time above 0: seconds, or with a unit (`30d`, `6h`, `500 ms`). */
export const durationOption = (text: string): number => {
  let value: number;
  try {
    value = parseDuration(text);
  } catch {
    throw new InvalidArgumentError("must be a length of time above 0 such as 20000, 6h or 30d");
  }
  if (value > longest) throw new InvalidArgumentError(`must be at most ${longest} s`);
  return value;
};

/** Adds the options that every command with a scenario takes. */
export function withScenarioOptions(command: Command): Command {
  return command
    .argument("<scenario>", "scenario file (YAML or JSON), - for stdin, or the name of a demo")
    .option("--set <path=value>", "change one key of the scenario; repeatable", gather)
    .option("--seed <seed>", "seed of the run; the scenario's own by default, else a fresh one");
}

/** Options that every command has. */
export interface CommonOptions {
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/** Options of `withScenarioOptions`, as commander hands them over. */
export interface ScenarioOptions extends CommonOptions {
  readonly set?: readonly string[];
  readonly seed?: string;
}

/** An option that has another name now: it is refused, with the new one named. */
export const renamed = (flags: string, now: string): Option =>
  new Option(flags).hideHelp().argParser(() => {
    throw new InvalidArgumentError(`its name is ${now} now`);
  });

/** An accuracy such as 1e-9, 0.5ppm, "2 ms/day". */
export const accuracyOption = (text: string): number => {
  let value: number;
  try {
    value = parseAccuracy(text);
  } catch {
    throw new InvalidArgumentError('must be an accuracy such as 1e-9, 0.5ppm or "2 ms/day"');
  }
  // A clock that stands still is off by 1: whoever asks for less knows the rate without a measurement.
  if (!(value < 1)) throw new InvalidArgumentError("must be below 1, which is 86400 s/day");
  return value;
};

/** A number of seconds (or of anything) above `least`, or at it; no larger than the longest time. */
export const numberFrom = (least: number, isIncluded: boolean) => (text: string) => {
  const value = text.trim() === "" ? Number.NaN : Number(text);
  if (!(isIncluded ? value >= least : value > least) || !Number.isFinite(value)) {
    throw new InvalidArgumentError(
      `must be a number ${isIncluded ? "of at least" : "above"} ${least}`,
    );
  }
  if (value > longest) throw new InvalidArgumentError(`must be at most ${longest}`);
  return value;
};
