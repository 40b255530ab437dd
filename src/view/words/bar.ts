/** Eighths of a block, from one to seven. */
const eighths = "▏▎▍▌▋▊▉";

/**
 * A bar for a line of text, to an eighth of a cell.
 *
 * @param cells - its length; >= 0
 * @returns the bar; whatever is above zero shows at least the thinnest one
 *
 * Exact case: 2.5 gives `██▌`.
 */
export function bar(cells: number): string {
  if (!(cells > 0)) return "";
  const parts = Math.max(1, Math.round(cells * 8));
  const rest = parts % 8;
  return "█".repeat(Math.floor(parts / 8)) + (rest === 0 ? "" : eighths[rest - 1]!);
}
