import type { Headline } from "../judgement/index.ts";
import {
  halfWidthText,
  humanDuration,
  plusMinus,
  rateSize,
  rateWithin,
} from "../view/words/index.ts";
import { styled, wrap } from "./style.ts";

/** Steady interval so many times as wide as that over the run from which on it is said what would narrow it. */
const muchWider = 2;

/**
 * The answer in two lines, each with its own question, centre and interval, then what limits it.
 *
 * @param nextRun - standard deviation of the next run's best fit about this one's; dimensionless
 */
export function headlineInWords(headline: Headline, nextRun: number): string[] {
  const { overRun, steady, systematicCauses, duration } = headline;
  const half = ([low, high]: readonly [number, number]) => (high - low) / 2;
  const [run, long] = [half(overRun.interval95), half(steady.interval95)];
  const lines = [
    `Rate over this run of ${humanDuration(duration)}: ${styled("bold", rateWithin(overRun.rate, run))} (95 %), by best fit;`,
    `as a fraction ${plusMinus(overRun.rate, run, true)}.`,
    `Steady rate: ${rateWithin(steady.rate, long)} (95 %).`,
  ];
  if (long > muchWider * run) {
    lines.push(
      wrap(
        "The steady rate is less sure, since slow noise cannot be ruled out; a longer run would narrow it, or what is known of the source (--source, or --source-floor with --source-white-fm).",
      ),
    );
  }
  for (const { cause, bound } of systematicCauses) {
    lines.push(
      wrap(`Not included: up to ${halfWidthText(bound, 3)} (${cause.replaceAll("_", " ")}).`),
    );
  }
  if (nextRun > 0 && Number.isFinite(nextRun)) {
    lines.push(
      wrap(
        `The best fit of another run as long as this one would differ by ${rateSize(nextRun, 3)} rms.`,
      ),
    );
  }
  return lines;
}
