import type { HeldRate } from "../../judgement/index.ts";
import type { Quantity } from "../../log/index.ts";
import type { Readings } from "../../readings/index.ts";
import { csvNumber, headlineToJson } from "../../view/table/index.ts";
import { rateText } from "../../view/words/index.ts";

/** What is known of a record at some reading. */
export interface SoFar {
  readonly rates: { readonly overRun: HeldRate; readonly steady: HeldRate } | null;
  readonly systematicBound: number;
  /** Time until the goal is met, if all goes on as found; s, Infinity for never; null where it is not known. */
  readonly remaining: number | null;
}

/** A reading that came in. */
export interface WatchRow {
  /** From 0, gaps counted. */
  readonly reading: number;
  readonly line: number;
  /** When its line came; null where it was there before. */
  readonly at: Date | null;
  /** As it was read: s, Hz or dimensionless. */
  readonly value: number;
  readonly quantity: Quantity;
  /** By itself; dimensionless, NaN for a time error without one before it. */
  readonly rate: number;
  /** Null where it was not looked at after this reading. */
  readonly soFar: SoFar | null;
  readonly notes: readonly string[];
}

/** The reading at a place of a record, as its log shows it. */
export function valueAt(readings: Readings, i: number, quantity: Quantity) {
  if (readings.kind === "time_error") {
    const { timeError, spacing } = readings;
    const rate = (timeError[i]! - (timeError[i - 1] ?? Number.NaN)) / spacing;
    return { value: timeError[i]!, rate };
  }
  const period = readings.period[i]!;
  const rate = readings.nominalPeriod / period - 1;
  const value = quantity === "period_s" ? period : quantity === "rate" ? rate : 1 / period;
  // 1/(1/x) is x but for the last digit of a double.
  return { value: Number(value.toPrecision(15)), rate };
}

const finite = (value: number | null): number | null =>
  value !== null && Number.isFinite(value) ? value : null;

const columns = [
  "reading",
  "line",
  "at",
  "value",
  "rate_over_run",
  "over_run_low",
  "over_run_high",
  "steady_rate",
  "steady_low",
  "steady_high",
  "systematic_bound",
  "remaining_s",
  "notes",
];

/** The names of the columns (RFC 4180). */
export const csvHead = `${columns.join(",")}\r\n`;

/** A reading as a line of CSV. */
export function csvRow({ reading, line, at, value, soFar, notes }: WatchRow): string {
  const rates = soFar?.rates ?? null;
  const held = (rate: HeldRate | undefined) =>
    rate === undefined ? ["", "", ""] : [rate.rate, ...rate.interval95].map(csvNumber);
  const remaining = finite(soFar?.remaining ?? null);
  const said = notes.join("; ").replaceAll('"', '""');
  return `${[
    reading,
    line,
    at?.toISOString() ?? "",
    Number.isNaN(value) ? "" : csvNumber(value),
    ...held(rates?.overRun),
    ...held(rates?.steady),
    soFar === null ? "" : csvNumber(soFar.systematicBound),
    remaining === null ? "" : csvNumber(Math.round(remaining)),
    said === "" ? "" : `"${said}"`,
  ].join(",")}\r\n`;
}

/** The same as a line of JSON. */
export function jsonRow({ reading, line, at, value, quantity, soFar, notes }: WatchRow): string {
  const rates = soFar?.rates ?? null;
  const found = rates && { ...rates, systematicBound: soFar!.systematicBound };
  const headline =
    found === null ? null : headlineToJson({ ...found, systematicCauses: [], duration: 0 });
  return `${JSON.stringify({
    schema_version: 1,
    reading,
    line,
    at: at?.toISOString() ?? null,
    value: finite(value),
    quantity,
    headline: headline && { ...headline, systematic_causes: undefined },
    remaining_s: finite(soFar?.remaining ?? null),
    notes,
  })}\n`;
}

const units: Readonly<Record<Quantity, string>> = {
  period_s: " s",
  frequency_hz: " Hz",
  time_error_s: " s",
  rate: "",
};

/** The same for people: `13:18:55  Reading 250: 0.99726707 s, +0.22 s/day`. */
export function textRow({ reading, at, value, quantity, rate }: WatchRow): string {
  const time = at === null ? "        " : clockTime(at);
  const own = Number.isFinite(rate) ? `, ${rateText(rate)}` : "";
  return `${time}  Reading ${reading}: ${Number(value.toPrecision(12))}${units[quantity]}${own}`;
}

/** The time of day where the program runs. */
export const clockTime = (at: Date): string => at.toTimeString().slice(0, 8);
