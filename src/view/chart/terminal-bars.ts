import { cellWidth, padCells } from "./terminal-text.ts";

/** A row of a bar table. */
export interface TerminalBar {
  /** What it is; any text. */
  readonly label: string;
  /** Length of the bar; any unit, finite and >= 0. */
  readonly value: number;
  /** The value as it is to be read. */
  readonly text: string;
}

/** How the table is set. */
export interface TerminalBarOptions {
  /** Width of the table; cells, >= 40. Default 80. */
  readonly width?: number;
  /** `linear`: from zero. `log`: the given number of decades up to the longest bar. Default linear. */
  readonly scale?: "linear" | { readonly decades: number };
  /** Without Unicode a bar is made of `#`. Default `unicode`. */
  readonly characters?: "unicode" | "ascii";
}

/** Eighths of a block, from one to seven. */
const eighths = "▏▎▍▌▋▊▉";

/**
 * A table of horizontal bars for a terminal: label, bar, value, in lines that never exceed the width.
 *
 * @param bars - rows, in the order in which they are printed
 * @param options - width and characters
 * @returns lines without trailing spaces; none for no rows
 * @throws RangeError if a value is negative or not finite, or the width too small
 *
 * Exact case: a bar half as long as the longest fills half of the cells, to an eighth of a cell. Whatever is
 * above zero shows at least the thinnest bar.
 */
export function terminalBars(
  bars: readonly TerminalBar[],
  options: TerminalBarOptions = {},
): string[] {
  const { width = 80, scale = "linear", characters = "unicode" } = options;
  if (!(Number.isInteger(width) && width >= 40)) {
    throw new RangeError(`terminalBars: width must be an integer >= 40, got ${width}`);
  }
  if (scale !== "linear" && !(scale.decades > 0 && scale.decades < Infinity)) {
    throw new RangeError(`terminalBars: decades must be > 0, got ${scale.decades}`);
  }
  const wrong = bars.find(({ value }) => !(value >= 0 && value < Infinity));
  if (wrong !== undefined) {
    throw new RangeError(`terminalBars: value must be finite and >= 0, got ${wrong.value}`);
  }
  const widest = (texts: readonly string[]) => Math.max(1, ...texts.map(cellWidth));
  const textCells = Math.min(24, widest(bars.map(({ text }) => text)));
  const labelCells = Math.min(
    Math.floor((width - textCells) / 2),
    widest(bars.map(({ label }) => label)),
  );
  const barCells = width - labelCells - textCells - 2;
  const longest = Math.max(...bars.map(({ value }) => value));
  return bars.map(({ label, value, text }) => {
    const bar = drawBar(share(value, longest, scale) * barCells, characters);
    const row = `${padCells(label, labelCells, "left")} ${padCells(text, textCells, "right")} ${bar}`;
    return row.trimEnd();
  });
}

/** Part of the full length, 0 to 1. */
function share(
  value: number,
  longest: number,
  scale: "linear" | { readonly decades: number },
): number {
  if (value === 0) {
    return 0;
  }
  const ratio = value / longest;
  // The hair that is left of a value below the scale becomes the thinnest bar.
  return scale === "linear" ? ratio : Math.max(1e-9, 1 + Math.log10(ratio) / scale.decades);
}

function drawBar(cells: number, characters: "unicode" | "ascii"): string {
  if (cells === 0) {
    return "";
  }
  if (characters === "ascii") {
    return "#".repeat(Math.max(1, Math.round(cells)));
  }
  const parts = Math.max(1, Math.round(cells * 8));
  const rest = parts % 8;
  return "█".repeat(Math.floor(parts / 8)) + (rest === 0 ? "" : eighths[rest - 1]!);
}
