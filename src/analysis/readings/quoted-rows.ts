import { parse } from "csv-parse/sync";
import { InputError } from "./input-error.ts";
import { readNumber } from "./read-number.ts";
import type { Fields, Rows } from "./rows.ts";

const comment = /^\s*(?:#|%|\/\/)/;

/**
 * Rows of a text with quotes: the rules of RFC 4180 hold, and a field may run over several lines.
 *
 * @param text - the text, without a byte-order mark
 * @param delimiter - one character; a blank stands for any run of blanks and tabs
 * @param decimalComma - whether a comma stands for the decimal point
 * @param file - its name, for messages
 * @returns the rows
 * @throws InputError if quotes are not closed
 *
 * Source: RFC 4180. Exact case: `"a, b",1` is two fields.
 */
export function quotedRows(
  text: string,
  delimiter: string,
  decimalComma: boolean,
  file: string,
): Rows {
  // Comments go, but their lines stay, so that the numbers of the others are right.
  const lines = text.split(/\r\n|\n|\r/);
  const clean = lines.map((line) => (comment.test(line) ? "" : line)).join("\n");
  try {
    const records = parse(clean, {
      delimiter: delimiter === " " ? [" ", "\t"] : delimiter,
      relax_column_count: true,
      skip_empty_lines: true,
      info: true,
      trim: true,
    }) as unknown as { record: string[]; info: { lines: number } }[];
    const kept = records.filter((r) => r.record.some((field) => field !== ""));
    const fields = kept.map((r) =>
      delimiter === " " ? r.record.filter((f) => f !== "") : r.record,
    );
    return {
      line: Int32Array.from(kept, (r) => r.info.lines),
      decimalComma,
      at: (row) => fieldsOf(fields[row]!, decimalComma),
    };
  } catch (error) {
    throw wrongQuotes(error as { code?: string; lines?: number }, clean, file);
  }
}

/** What is wrong with the quotes, and in which line: an open one shows only at the end of the text. */
function wrongQuotes(
  { code, lines }: { code?: string; lines?: number },
  text: string,
  file: string,
) {
  const isOpen = code === "CSV_QUOTE_NOT_CLOSED";
  const at = isOpen ? text.slice(0, text.lastIndexOf('"')).split("\n").length : (lines ?? null);
  const what = isOpen ? "one is not closed" : "one stands inside a field";
  return new InputError(
    file,
    at,
    `quotes are not as they must be: ${what}; close every quote, and double one inside a quoted field`,
  );
}

function fieldsOf(fields: readonly string[], decimalComma: boolean): Fields {
  return {
    count: fields.length,
    text: (i) => fields[i]!,
    number: (i) => readNumber(fields[i]!, decimalComma),
  };
}
