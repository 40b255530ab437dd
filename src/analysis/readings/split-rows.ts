import { findDelimiter } from "./find-delimiter.ts";
import { findLines } from "./find-lines.ts";
import { InputError } from "./input-error.ts";
import { PlainRows } from "./plain-rows.ts";
import { quotedRows } from "./quoted-rows.ts";
import type { Rows } from "./rows.ts";

/** Lines at the end of a text by which its delimiter is found. */
const sampled = 200;

/**
 * Cuts a text into rows and fields. Blank lines, comment lines (#, %, //) and a byte-order mark are passed over;
 * the delimiter is found: semicolon, tab, comma, or blanks. Where it is no comma, commas in numbers are decimal.
 *
 * @param text - the text
 * @param file - its name, for messages
 * @returns the rows
 * @throws InputError if quotes are not closed, or commas may mean two things
 *
 * Exact case: "1;2,5" is two fields, with a decimal comma.
 */
export function splitRows(text: string, file: string): Rows {
  if (text.includes("\u0000")) {
    throw new InputError(
      file,
      null,
      "is not a text file: it holds zero bytes; expected CSV in UTF-8",
    );
  }
  const lines = findLines(text);
  const { start, end, line } = lines;
  const kept = line.length;
  const lineAt = (i: number) => text.slice(start[i]!, end[i]!);
  const written = Array.from({ length: Math.min(sampled, kept) }, (_, i) =>
    lineAt(kept - Math.min(sampled, kept) + i),
  );
  const first = kept === 0 ? null : { text: lineAt(0), line: line[0]! };
  const { delimiter, decimalComma } = findDelimiter(first, written, file);
  return text.includes('"')
    ? quotedRows(text.replace(/^\uFEFF/, ""), delimiter, decimalComma, file)
    : new PlainRows(text, lines, delimiter, decimalComma);
}
