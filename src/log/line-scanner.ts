import { readUnit, type Unit } from "./units.ts";

/** What stands in a line, in its order. */
export interface Item {
  readonly kind: "number" | "missing" | "date" | "time";
  /** First character and the one after the last, in the line. */
  readonly from: number;
  readonly to: number;
  /** Which cell of a table it stands in; 0 where blanks part them. */
  readonly cell: number;
  /** Words before it, since the item before. */
  readonly label: string;
  /** Unit written after it. */
  unit: Unit | null;
}

/** What is no item in a cell. */
export interface Rest {
  /** Words after the last item. */
  readonly trailing: string;
  /** Whether there are digits that are no number. */
  readonly isGarbled: boolean;
}

/** How the numbers of a log are written. */
export interface NumberStyle {
  readonly decimal: "." | ",";
  /** Whether digits stand in groups of three with a blank between. */
  readonly blankGroups: boolean;
}

const months =
  "jan|feb|m[aäå]r|apr|ma[iyj]|jun|jul|aug|sep|o[ck]t|nov|de[cz]|janv|fév|avr|juin|juil|août|déc";
const date = new RegExp(
  String.raw`(?:\d{4}([-/.])\d{1,2}\1\d{1,2}|\d{1,2}([-/.])\d{1,2}\2(?:\d{4}|\d{2})|\d{8}(?=T\d{4})|` +
    String.raw`\d{1,2}(?:\. ?|[- ])(?:${months})\p{L}{0,6}\.?[- ,]{1,2}\d{4}|(?:${months})\p{L}{0,6}\.? {1,2}\d{1,2}(?:, ?\d{4}|(?= \d{1,2}:)))(?!\d|\.\d)`,
  "iuy",
);
const time =
  /(?:\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d{1,9})?)?(?:\s?[ap]\.?m\b\.?)?|(?<=T)\d{4}(?:\d{2}(?:[.,]\d{1,9})?)?)(?:\s?(?:Z|UTC|GMT)\b|\s?[+-]\d{2}:?\d{2}(?![\d.,])|[+-]\d{2}(?![\d.,]))?(?![\d:.]|,\d)/iy;
const missing =
  /(?:[-*?_.]+|#?n\/?[ad]n?|nan|[-+]?inf(?:inity)?|null|none|nil|over(?:flow|range|load)?|under(?:flow|range)?|ovf?l?d?|timeout|time-out|err(?:or)?|fail(?:ed)?|invalid|#(?:value|num|div\/0|ref)[!?]?)(?=$|[\s;,|)\]"])/iy;
const unit = /\s{0,3}[([]?((?:[°º˚]\s?|1\/|[\p{L}µμ%℃])[\p{L}µμΩ/^_\d-]*)[)\]]?(?=$|[\s;,|:])/uy;
const word = /[^\s=:,;|()[\]"<>]+|./uy;
const garbled = /\S+/y;
/** What may stand right after a number; a dot only at the end of a sentence. */
const numberEnd = String.raw`(?=$|[\s)\]}"']|[.:;,|](?:["\s]|$))`;

const numberPatterns = new Map<string, RegExp>();

/** A number by the style of its log: sign, digits in groups or not, exponent in any form. */
function numberPattern({ decimal, blankGroups }: NumberStyle): RegExp {
  const key = decimal + blankGroups;
  const known = numberPatterns.get(key);
  if (known !== undefined) return known;
  const thin = String.raw`'’\u00a0\u2009\u202f${blankGroups ? " " : ""}`;
  const point = decimal === "." ? String.raw`\.` : ",";
  const thousands = decimal === "." ? "," : String.raw`\.`;
  const whole = String.raw`(?:[1-9]\d{0,2}(?:${thousands}\d{3})+(?![\d${thin}])|[1-9]\d{0,2}(?:[${thin}]\d{3})+(?!\d)|\d+)`;
  const fraction = String.raw`(?:\d{3}(?:[${thin}]\d{3})*[${thin}]\d{1,3}(?!\d)|\d${decimal === "." ? "*" : "+"})`;
  const exponent = String.raw`(?:[eEdD][-+\u2212]?\d{1,3}|\s?[x×*]\s?10(?:\^|\*\*)?[-+\u2212]?\d{1,3})`;
  const pattern = new RegExp(
    String.raw`[-+\u2212]?(?:${whole}(?:${point}${fraction})?|${point}\d+)${exponent}?`,
    "y",
  );
  numberPatterns.set(key, pattern);
  return pattern;
}
const ends = new RegExp(numberEnd, "y");

/** Where a pattern ends that begins at a place; -1 where it does not. */
function endOf(pattern: RegExp, text: string, at: number): number {
  pattern.lastIndex = at;
  return pattern.test(text) ? pattern.lastIndex : -1;
}

/**
 * Finds dates, times of day, numbers with their units, and marks of a missing value, with the words before each.
 * A number that something is stuck to is none: garbled digits are not half a reading.
 *
 * @param text - the line
 * @param from - where to begin
 * @param to - where to end
 * @param cell - number of the cell
 * @param style - how its numbers are written
 * @param items - what is found is put at its end
 * @returns what is left over
 *
 * Exact case: "F= 1.000 028 971 Hz" with groups is one number, labelled f, in Hz.
 */
export function scanCell(
  text: string,
  from: number,
  to: number,
  cell: number,
  style: NumberStyle,
  items: Item[],
): Rest {
  const number = numberPattern(style);
  const line = to === text.length ? text : text.slice(0, to);
  let label = "";
  let isGarbled = false;
  let at = from;
  const put = (kind: Item["kind"], end: number, of: Unit | null) => {
    items.push({ kind, from: at, to: end, cell, label, unit: of });
    label = "";
  };
  while (at < to) {
    const code = line.charCodeAt(at);
    if (code <= 32 || code === 0xa0) {
      at++;
      continue;
    }
    const isStart =
      at === from || !/[\p{L}\p{N}_.,;<≤]/u.test(line[at - 1]!) || isDateTime(line, at);
    let end = -1;
    if (isStart) {
      end = endOf(date, line, at);
      if (end > 0) put("date", end, null);
      else {
        end = endOf(time, line, at);
        if (end > 0) put("time", end, null);
      }
      if (end > 0) {
        at = end + (line[end] === "T" && isDateTime(line, end + 1) ? 1 : 0);
        continue;
      }
      end = endOf(number, line, at);
      if (end > 0) {
        const found = unitAt(line, end);
        if (found.unit !== null || endOf(ends, line, end) >= 0) {
          put("number", end, found.unit);
          at = found.end;
          continue;
        }
      }
      end = endOf(missing, line, at);
      if (end > 0) {
        put("missing", end, null);
        at = end;
        continue;
      }
    }
    // Digits that are no number are garbled as far as they go.
    const isDigits = code >= 48 && code <= 57;
    if (isDigits) isGarbled = true;
    end = endOf(isDigits ? garbled : word, line, at);
    label += line
      .slice(at, end)
      .replace(/[^\p{L}]+/gu, "")
      .toLowerCase();
    at = end;
  }
  return { trailing: label, isGarbled };
}

/** Whether a place stands behind the T between a date and a time (ISO 8601). */
function isDateTime(line: string, at: number): boolean {
  return line[at - 1] === "T" && /\d/.test(line[at - 2] ?? "") && /\d/.test(line[at] ?? "");
}

function unitAt(line: string, at: number): { unit: Unit | null; end: number } {
  unit.lastIndex = at;
  const match = unit.exec(line);
  const found = match === null ? null : readUnit(match[1]!);
  return { unit: found, end: found === null ? at : unit.lastIndex };
}

/**
 * Whether a text is a unit and nothing else, as in a column of its own.
 *
 * @param text - of a cell
 * @returns the unit, or null
 */
export function unitAlone(text: string): Unit | null {
  return readUnit(text.trim().replace(/^[([](.*)[)\]]$/, "$1"));
}
