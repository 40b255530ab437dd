import { type Command, InvalidArgumentError } from "commander";
import type { ChartOptions } from "../view/chart/index.ts";
import { UsageError } from "./failures.ts";
import { choice } from "./options.ts";

/** What a user may say of pictures. */
export type ChartLook = Pick<ChartOptions, "width" | "height" | "paper" | "rateUnit">;

/** Options of `withPictureOptions`, as commander hands them over. */
export interface PictureOptions {
  readonly plot?: boolean;
  readonly size?: ChartLook;
  readonly title?: string;
  readonly unit?: string;
  readonly out?: string;
  readonly force?: boolean;
}

/** Sheets of paper less margins of 15 mm (a5: 10 mm), the long side across; mm. */
const sheets: Readonly<Record<string, readonly [number, number]>> = {
  a4: [267, 180],
  a5: [190, 128],
  letter: [249, 186],
};

function sizeOption(text: string): ChartLook {
  const sheet = sheets[text.toLowerCase()];
  if (sheet) {
    // CSS has 96 pixels an inch.
    const [width, height] = sheet.map((mm) => Math.round((mm * 96) / 25.4)) as [number, number];
    return { width, height, paper: { width: `${sheet[0]}mm`, height: `${sheet[1]}mm` } };
  }
  const [, width, height] = /^(\d{3,4})x(\d{3,4})$/.exec(text) ?? [];
  if (!(Number(width) >= 280 && Number(height) >= 240)) {
    throw new InvalidArgumentError(
      "must be a4, a5, letter, or WIDTHxHEIGHT in px, at least 280x240 and at most 9999x9999",
    );
  }
  return { width: Number(width), height: Number(height) };
}

/**
 * Adds the options of a command that draws pictures.
 *
 * @param plot - what `--plot` does
 * @param out - what `--out` says
 */
export function withPictureOptions(command: Command, plot: string, out: string): Command {
  return command
    .option("--plot", plot)
    .option(
      "--size <size>",
      "of pictures: a4, a5, letter, or WIDTHxHEIGHT in px (default: 760x440)",
      sizeOption,
    )
    .option("--title <text>", "title of pictures")
    .addOption(
      choice("--unit <unit>", "of rates in pictures", ["s/day", "ms/day", "µs/day", "fraction"]),
    )
    .option("--out <folder>", out)
    .option("--force", "replace files that are in the folder given with --out");
}

/**
 * How pictures are to look.
 *
 * @throws UsageError where it is said though none is drawn
 */
export function lookOf({ plot, size, title, unit }: PictureOptions): ChartLook {
  if (!plot && (size ?? title ?? unit) !== undefined) {
    throw new UsageError("--size, --title and --unit are for pictures: give --plot too");
  }
  return { ...size, ...(unit === undefined ? {} : { rateUnit: unit }) };
}
