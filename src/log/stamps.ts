const secondsPerDay = 86400;
const monthNames = [
  "jan",
  "feb",
  "mar",
  "apr",
  "may",
  "jun",
  "jul",
  "aug",
  "sep",
  "oct",
  "nov",
  "dec",
];
/** Months that other languages write otherwise in their first three letters. */
const foreign: Readonly<Record<string, string>> = {
  fev: "feb",
  mär: "mar",
  mrz: "mar",
  avr: "apr",
  mai: "may",
  maj: "may",
  mag: "may",
  juin: "jun",
  juil: "jul",
  aou: "aug",
  okt: "oct",
  dez: "dec",
  déc: "dec",
  fév: "feb",
  aoû: "aug",
};

/**
 * Reads a calendar date to a code: year·10⁴ + month·100 + day.
 *
 * @param text - as the scanner found it
 * @returns the code; negative, with the two numbers in the order written, where either may be the day; NaN if there
 *   is no such day
 *
 * Common practice, no published source: dots part days first, a year of two digits is of this century. Exact case:
 * "14.05.24" gives 20240514, "05/06/2024" gives -20240506.
 */
export function readDate(text: string): number {
  const parts = text.split(/[-/. ,]+/).filter((part) => part !== "");
  if (parts.length === 1)
    return dateCode(Number(text.slice(0, 4)), Number(text.slice(4, 6)), Number(text.slice(6, 8)));
  const named = parts.findIndex((part) => /^\p{L}/u.test(part));
  if (named >= 0) {
    const name = parts[named]!.toLowerCase();
    const month =
      monthNames.indexOf(
        foreign[name.slice(0, 4)] ?? foreign[name.slice(0, 3)] ?? name.slice(0, 3),
      ) + 1;
    const [dayText, yearText = "2000"] = parts.filter((_, i) => i !== named);
    return dateCode(Number(yearText), month, Number(dayText));
  }
  const [a, b, c] = parts.map(Number) as [number, number, number];
  if (parts[0]!.length === 4) return dateCode(a, b, c);
  const year = c < 100 ? 2000 + c : c;
  if (text.includes(".")) return dateCode(year, b, a);
  const isDay = !Number.isNaN(dateCode(year, b, a)) || !Number.isNaN(dateCode(year, a, b));
  return isDay ? -(year * 10000 + a * 100 + b) : Number.NaN;
}

function dateCode(year: number, month: number, day: number): number {
  const at = new Date(Date.UTC(year, month - 1, day));
  const isDay = at.getUTCMonth() + 1 === month && at.getUTCDate() === day;
  return isDay ? year * 10000 + month * 100 + day : Number.NaN;
}

const clock =
  /^(\d{1,2}):?(\d{2})(?::?(\d{2}(?:[.,]\d+)?))?\s*(?:([ap])\.?m\.?)?\s*(Z|UTC|GMT|[+-]\d{2}(?::?\d{2})?)?$/i;

/** Distances of these characters from 0. */
const colon = 10;
const dot = -2;
const comma = -4;

/** A time of day. */
export interface TimeOfDay {
  /** Seconds since midnight, UTC where a zone stands with it. */
  readonly seconds: number;
  /** Step of its last digit; s. */
  readonly step: number;
  readonly hasZone: boolean;
  /** Whether it is in a 60th second. */
  readonly isSixtieth: boolean;
}

/**
 * Reads a time of day.
 *
 * @param text - as the scanner found it, within a line
 * @param from - its first character
 * @param to - the character after its last
 * @returns the time, or null if there is none such
 *
 * Source: ISO 8601-1. Exact case: "1:00 PM" is 46800 s, with a step of 60 s.
 */
export function readTimeOfDay(text: string, from = 0, to = text.length): TimeOfDay | null {
  return usualTime(text, from, to) ?? anyTime(text.slice(from, to));
}

/** What most logs write, hh:mm:ss with or without a fraction and Z; null for any other form. */
function usualTime(text: string, from: number, to: number): TimeOfDay | null {
  const digit = (i: number) => text.charCodeAt(i) - 48;
  if (digit(from + 2) !== colon || digit(from + 5) !== colon) return null;
  const two = (i: number) => {
    const [a, b] = [digit(i), digit(i + 1)];
    return a >= 0 && a <= 9 && b >= 0 && b <= 9 ? 10 * a + b : Number.NaN;
  };
  const minutes = 60 * two(from) + two(from + 3);
  let [mantissa, scale, i] = [two(from + 6), 1, from + 8];
  if (i < to && (digit(i) === dot || digit(i) === comma)) {
    for (i++; i < to && digit(i) >= 0 && digit(i) <= 9; i++) {
      mantissa = 10 * mantissa + digit(i);
      scale *= 10;
    }
  }
  const hasZone = i === to - 1 && text[i] === "Z";
  const isUsual = two(from) < 24 && two(from + 3) < 60 && two(from + 6) < 60 && scale <= 1e9;
  if (!isUsual || i !== (hasZone ? to - 1 : to)) return null;
  return { seconds: 60 * minutes + mantissa / scale, step: 1 / scale, hasZone, isSixtieth: false };
}

function anyTime(text: string): TimeOfDay | null {
  const match = clock.exec(text);
  if (match === null) return null;
  const [, hourText, minuteText, secondText = "0", half, zone] = match;
  const minute = Number(minuteText);
  const second = Number(secondText.replace(",", "."));
  let hour = Number(hourText);
  if (half !== undefined) {
    if (hour < 1 || hour > 12) return null;
    hour = (hour % 12) + (half.toLowerCase() === "p" ? 12 : 0);
  }
  // 24:00 is the end of a day, and nothing comes after it.
  if (hour + (minute + second > 0 ? 1 : 0) > 24 || minute > 59 || second >= 61) return null;
  const step =
    match[3] === undefined ? 60 : secondText.length > 2 ? Number(`1e${3 - secondText.length}`) : 1;
  return {
    seconds: hour * 3600 + minute * 60 + second - zoneSeconds(zone),
    step,
    hasZone: zone !== undefined,
    isSixtieth: second >= 60,
  };
}

function zoneSeconds(zone: string | undefined): number {
  if (zone === undefined || /^[zug]/i.test(zone)) return 0;
  const digits = zone.slice(1).replace(":", "");
  const minutes = Number(digits.slice(0, 2)) * 60 + Number(digits.slice(2) || 0);
  return (zone.startsWith("-") ? -1 : 1) * minutes * 60;
}

/** Whether the first of two numbers is the day; null where the dates do not tell, "neither" where no order fits all. */
export function dayOrder(codes: Float64Array): "day first" | "month first" | "neither" | null {
  const found: number[] = [];
  let last = 0;
  for (const code of codes) {
    if (!(code < 0) || code === last) continue;
    last = code;
    found.push(code);
  }
  const fits = (isDayFirst: boolean) =>
    !found.some((code) => Number.isNaN(dayNumber(code, isDayFirst)));
  const [day, month] = [fits(true), fits(false)];
  if (day !== month) return day ? "day first" : "month first";
  if (!day) return "neither";
  // In a record that runs on over midnight the one order has days that follow each other.
  const follows = (isDayFirst: boolean) =>
    found.every(
      (code, i) =>
        i === 0 || dayNumber(code, isDayFirst) - dayNumber(found[i - 1]!, isDayFirst) === 1,
    );
  if (found.length < 2 || follows(true) === follows(false)) return null;
  return follows(true) ? "day first" : "month first";
}

/** Days from 1970 to the date of a code; NaN if there is none. */
function dayNumber(code: number, isDayFirst: boolean): number {
  const size = Math.abs(code);
  const year = Math.floor(size / 10000);
  const [a, b] = [Math.floor(size / 100) % 100, size % 100];
  const isSwapped = code < 0 && isDayFirst;
  if (code < 0 && Number.isNaN(dateCode(year, isSwapped ? b : a, isSwapped ? a : b)))
    return Number.NaN;
  return Date.UTC(year, (isSwapped ? b : a) - 1, isSwapped ? a : b) / 86_400_000;
}

/**
 * Seconds from the first stamp on, from dates and times of day; a time without a date that falls by half a day has
 * passed midnight. A 60th second counts as the first of the next minute.
 *
 * @param date - code of each, or null without dates; NaN where missing
 * @param time - seconds of the day of each, or null without; NaN where missing
 * @param isDayFirst - order of the dates that may be read in two
 * @returns seconds of each; NaN where missing
 */
export function calendarSeconds(
  date: Float64Array | null,
  time: Float64Array | null,
  isDayFirst: boolean,
): Float64Array {
  const count = (date ?? time!).length;
  const out = new Float64Array(count);
  let [code, day, origin, last, days] = [Number.NaN, Number.NaN, Number.NaN, Number.NaN, 0];
  for (let i = 0; i < count; i++) {
    const ofDay = time === null ? 0 : time[i]!;
    if (date !== null && date[i] !== code) {
      code = date[i]!;
      day = Number.isNaN(code) ? code : dayNumber(code, isDayFirst);
    }
    if (date === null) {
      if (ofDay - last < -secondsPerDay / 2) days++;
      if (!Number.isNaN(ofDay)) last = ofDay;
      day = days;
    }
    if (Number.isNaN(origin)) origin = day;
    out[i] = (day - origin) * secondsPerDay + ofDay;
  }
  return out;
}
