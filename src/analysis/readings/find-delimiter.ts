import { InputError } from "./input-error.ts";

const delimiters = [";", "\t", ",", " "];

/** What stands between the fields of a line. */
export interface Delimiter {
  readonly delimiter: string;
  /** Whether a comma stands for the decimal point. */
  readonly decimalComma: boolean;
}

/**
 * Fields of a line without quotes.
 *
 * @param line - the line
 * @param delimiter - one character; a blank stands for any run of blanks and tabs
 * @returns the fields as written
 */
export function cut(line: string, delimiter: string): string[] {
  return delimiter === " " ? line.trim().split(/[ \t]+/) : line.split(delimiter);
}

/**
 * Finds the delimiter by looking at lines that hold numbers: those at the end of the text, where no titles are.
 *
 * @param first - the first line that is neither blank nor comment, and its number, null where the text has none
 * @param written - up to the last two hundred such lines
 * @param file - name of the file, for messages
 * @returns semicolon, tab, comma or blank, and what a comma in a number is
 * @throws InputError if commas may mean two things
 */
export function findDelimiter(
  first: { readonly text: string; readonly line: number } | null,
  written: readonly string[],
  file: string,
): Delimiter {
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
    first !== null &&
    numeric.length > 0 &&
    numeric.every((line) => /^\s*[-+]?\d+,\d+(e[-+]?\d+)?\s*$/i.test(line))
  ) {
    const isDecimal = numeric.some((line) => /,0\d/.test(line));
    const titled = cut(first.text, ",").length === 2 && /[a-z]/i.test(first.text);
    if (isDecimal && !titled) return { delimiter: ";", decimalComma: true };
    if (!titled) {
      throw new InputError(
        file,
        first.line,
        `"${first.text.trim()}" may be one number with a decimal comma or two columns; write a decimal point, or add a line with column names`,
      );
    }
  }
  return { delimiter, decimalComma: false };
}
