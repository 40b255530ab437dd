/** Part of a line that is shown. */
const most = 40;

/**
 * A line as it is, for a message: shortened, in quotes, with control characters escaped.
 *
 * @param text - the line
 *
 * Exact case: a line of escape and A is shown as "\x1bA".
 */
export function shown(text: string): string {
  const short = text.trim().slice(0, most);
  const plain = short.replace(/[\p{C}\u2028\u2029]/gu, (c) => {
    const code = c.codePointAt(0)!.toString(16);
    return code.length > 2 ? `\\u${code.padStart(4, "0")}` : `\\x${code.padStart(2, "0")}`;
  });
  return `"${plain}${text.trim().length > most ? "…" : ""}"`;
}
