import { parse } from "csv-parse/sync";
import { InputError } from "./input-error.ts";

/** Rows of a text, cut into fields, each with the line it came from. */
export interface Rows {
  readonly fields: readonly (readonly string[])[];
  /** Line of each row, from 1. */
  readonly line: Int32Array;
  readonly delimiter: string;
  /** Whether a comma stands for the decimal point. */
  readonly decimalComma: boolean;
}

const comment = /^\s*(?:#|%|\/\/)/;
const delimiters = [";", "\t", ",", " "];

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
  const clean = text.startsWith("\uFEFF") ? text.slice(1) : text;
  if (clean.includes("\u0000")) {
    throw new InputError(
      file,
      null,
      "is not a text file: it holds zero bytes; expected CSV in UTF-8",
    );
  }
  const lines = clean.split(/\r\n|\n|\r/);
  const kept: number[] = [];
  for (let i = 0; i < lines.length; i++) {
    const line = lines[i]!;
    if (line.trim() !== "" && !comment.test(line)) kept.push(i);
  }
  const { delimiter, decimalComma } = findDelimiter(lines, kept, file);
  if (clean.includes('"')) return quotedRows(lines, delimiter, decimalComma, file);
  const fields = kept.map((i) => cut(lines[i]!, delimiter));
  return { fields, line: Int32Array.from(kept, (i) => i + 1), delimiter, decimalComma };
}

function cut(line: string, delimiter: string): string[] {
  return delimiter === " " ? line.trim().split(/[ \t]+/) : line.split(delimiter);
}

/** Looks at lines that hold numbers, from the end of the file, where no titles are. */
function findDelimiter(lines: readonly string[], kept: readonly number[], file: string) {
  const written = kept.slice(-200).map((i) => lines[i]!);
  const sample = written.map((line) => line.replace(/"[^"]*"/g, "q"));
  const counts = delimiters.map(
    (d) => sample.filter((line) => cut(line.trim(), d).length > 1).length,
  );
  const enough = sample.length / 2;
  const found = delimiters.findIndex((_, i) => counts[i]! > enough);
  const delimiter = found < 0 ? "," : delimiters[found]!;
  if (delimiter !== ",") {
    const commas = written.some((line) => /\d,\d/.test(line));
    return { delimiter, decimalComma: commas };
  }
  // Digits, one comma, digits on every line: one number a line with a decimal comma, or two columns?
  const numeric = sample.filter((line) => /\d/.test(line) && !/[a-z_]{2}/i.test(line));
  if (
    numeric.length > 0 &&
    numeric.every((line) => /^\s*[-+]?\d+,\d+(e[-+]?\d+)?\s*$/i.test(line))
  ) {
    const isDecimal = numeric.some((line) => /,0\d/.test(line));
    const titled =
      kept.length > 0 && cut(lines[kept[0]!]!, ",").length === 2 && /[a-z]/i.test(lines[kept[0]!]!);
    if (isDecimal && !titled) return { delimiter: ";", decimalComma: true };
    if (!titled) {
      throw new InputError(
        file,
        kept[0]! + 1,
        `"${lines[kept[0]!]!.trim()}" may be one number with a decimal comma or two columns; write a decimal point, or add a line with column names`,
      );
    }
  }
  return { delimiter, decimalComma: false };
}

/** With quotes the rules of RFC 4180 hold, and a field may run over several lines. */
function quotedRows(
  lines: readonly string[],
  delimiter: string,
  decimalComma: boolean,
  file: string,
): Rows {
  // Comments go, but their lines stay, so that the numbers of the others are right.
  const text = lines.map((line) => (comment.test(line) ? "" : line)).join("\n");
  try {
    const records = parse(text, {
      delimiter: delimiter === " " ? [" ", "\t"] : delimiter,
      relax_column_count: true,
      skip_empty_lines: true,
      info: true,
      trim: true,
    }) as unknown as { record: string[]; info: { lines: number } }[];
    const kept = records.filter((r) => r.record.some((field) => field !== ""));
    return {
      fields: kept.map((r) => (delimiter === " " ? r.record.filter((f) => f !== "") : r.record)),
      line: Int32Array.from(kept, (r) => r.info.lines),
      delimiter,
      decimalComma,
    };
  } catch (error) {
    const { lines: at, message } = error as { lines?: number; message?: string };
    throw new InputError(
      file,
      at ?? null,
      `quotes are not as they must be (${message ?? "not readable"}); close every quote, and double one inside a quoted field`,
    );
  }
}
