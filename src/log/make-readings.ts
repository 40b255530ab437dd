import { median } from "../numeric/index.ts";
import { InputError, type Note, type NoteCode, noteOf, type Readings } from "../readings/index.ts";
import type { Quantity } from "./column-name.ts";
import { stampedDeadTime, usualBreak } from "./dead-time.ts";
import type { Layout } from "./detect-layout.ts";
import { detectedInWords } from "./detected-in-words.ts";
import { evenPlaces, type Places } from "./even-places.ts";
import type { LogColumns } from "./log-columns.ts";
import type { LogOptions } from "./log-options.ts";
import { nearNominal } from "./nominal.ts";
import { stampSeconds } from "./stamp-seconds.ts";

/** Readings out of a log. */
export interface MadeReadings {
  readonly readings: Readings;
  readonly quantity: Quantity;
  /** Share of the readings that a column `flag` says were taken while the clock went by itself; 0 without one. */
  readonly fallback: number;
  /** What was skipped, found, or assumed because nothing said it. */
  readonly notes: readonly Note[];
  /** What was detected, in one line: "period in s, 409 readings, stamps day first, 3 lines skipped". */
  readonly detected: string;
}

/** What reading the lines has told. */
export interface FromLines {
  readonly notes: readonly Note[];
  readonly joins: readonly number[];
  readonly skipped: number;
}

/** Below it a double has no digits to tell it by. */
const leastRounding = 1e-15;
/** Gaps that are told one by one. */
const told = 5;

/**
 * Makes readings of the columns of a log: periods or time errors in SI units, gaps by the time stamps as NaN.
 *
 * @param columns - what was read
 * @param layout - what the columns are
 * @param options - what is said beside the log
 * @param lines - what reading the lines has told
 * @returns the readings
 * @throws InputError where they cannot be what they should be
 */
export function makeReadings(
  columns: LogColumns,
  layout: Layout,
  options: LogOptions,
  lines: FromLines,
): MadeReadings {
  const { file } = options;
  const value = columns.value.values();
  const line = Int32Array.from(columns.line.values());
  const present = value.reduce((n, v) => n + (Number.isNaN(v) ? 0 : 1), 0);
  if (present === 0) throw new InputError(file, null, "holds no readings: every value is missing");
  const notes: Note[] = [];
  const note = (code: NoteCode, message: string, at: number | null = null) => {
    notes.push(noteOf(code, message, at === null ? null : line[at]!, at));
  };
  const { quantity } = layout;
  const { time, order } = stampSeconds(columns, layout, options, line);
  const isStart = layout.stamp?.name.role === "start";
  const resolution = isStart || time === null ? 0 : columns.stampStep;
  const isLocal = columns.time !== null && !columns.hasZone;
  const record: Found = {
    columns,
    layout,
    options,
    value,
    line,
    time,
    isStart,
    note,
    places: null,
  };
  if (columns.sixtieth > 0) {
    notes.push(
      noteOf(
        "clock_change",
        `line ${columns.sixtieth} is stamped in a 60th second, which counts as the first of the next minute; if a second was inserted there, later stamps are 1 s early`,
        columns.sixtieth,
      ),
    );
  }
  record.places = placesOf(record, resolution, isLocal);
  const made = quantity === "time_error_s" ? timeErrors(record) : periods(record);
  const { places } = record;
  const onPlaces = <T extends Float64Array | Int32Array>(values: T, fill: number): T =>
    spread(values, places, fill);
  const at = (i: number) => (places === null ? i : places.place[i]!);
  const joins = [...new Set([...lines.joins, ...(places?.backward ?? [])])]
    .sort((a, b) => a - b)
    .filter((i) => i > 0 && i < value.length)
    .map(at);
  const warmth = columns.temperature?.values();
  const step = columns.digits.rmsStep(quantity === "period_s" || quantity === "frequency_hz");
  return {
    readings: {
      ...made,
      line: onPlaces(line, 0),
      ...(time === null
        ? {}
        : {
            stamps: {
              arrival: onPlaces(places?.time ?? time, Number.NaN),
              resolution: columns.stampStep,
            },
          }),
      ...(joins.length === 0 ? {} : { joins }),
      ...(warmth === undefined ? {} : { temperature: onPlaces(warmth, Number.NaN) }),
      ...(step > 0 ? { resolution: step } : {}),
    } as Readings,
    quantity,
    fallback: columns.fallback / present,
    notes: [...lines.notes, ...notes].map((n) =>
      n.reading === null ? n : { ...n, reading: at(n.reading) },
    ),
    detected: detectedInWords(layout, present, order, time !== null, lines.skipped),
  };
}

interface Found {
  readonly columns: LogColumns;
  readonly layout: Layout;
  readonly options: LogOptions;
  readonly value: Float64Array;
  readonly line: Int32Array;
  readonly time: Float64Array | null;
  readonly isStart: boolean;
  readonly note: (code: NoteCode, message: string, at?: number | null) => void;
  places: Places | null;
}

/** Places by the stamps; null without any that tell a spacing. */
function placesOf(record: Found, resolution: number, isLocal: boolean): Places | null {
  const { time, layout, options, line, note } = record;
  if (time === null || time.length < 2) return null;
  const places = evenPlaces(time, resolution, isLocal);
  const most = layout.quantity === "time_error_s" ? 0 : 0.1 * line.length;
  const fall =
    (places?.backward ?? []).length > most
      ? places!.backward[0]!
      : time.findIndex((t, i) => t < time[i - 1]!);
  if (fall > 0 && (places === null || places.backward.length > most)) {
    throw new InputError(
      options.file,
      line[fall]!,
      "the time stamp is earlier than the one before; readings must stand in the order they were taken",
    );
  }
  if (places === null) return null;
  // Lines that came in bundles, or a log replayed: their stamps are of another time than the readings.
  if (
    !record.isStart &&
    places.backward.length === 0 &&
    layout.quantity !== "time_error_s" &&
    places.spacing < 0.5 * (options.gate ?? 0)
  ) {
    note(
      "stamps",
      `the time stamps are ${Number(places.spacing.toPrecision(3))} s apart and a reading lasts ${options.gate} s, so that gaps cannot be told from them`,
    );
    return null;
  }
  const { gaps, changes, backward, uneven } = places;
  if (uneven > 0.1 || (layout.quantity === "time_error_s" && uneven > 0)) {
    if (layout.quantity === "time_error_s") {
      throw new InputError(
        options.file,
        line[0]!,
        "time errors are not evenly spaced by their time stamps; expected one spacing, with gaps of whole spacings",
      );
    }
    note("stamps", "the time stamps are not evenly spaced, so that gaps cannot be told from them");
    return null;
  }
  for (const { at, hours } of changes) {
    note(
      "clock_change",
      `line ${line[at]}: the clock of the time stamps was set ${hours > 0 ? "forward" : "back"} by an hour`,
      at,
    );
  }
  for (const at of backward) {
    note("repeated_header", `line ${line[at]}: the time stamps begin again, as of another run`, at);
  }
  for (const { at, missing } of gaps.slice(0, told)) {
    note(
      "gap",
      `line ${line[at]}: by the time stamps ${missing} reading${missing === 1 ? " is" : "s are"} missing before it`,
      at,
    );
  }
  if (gaps.length > told) {
    note("gap", `by the time stamps readings are missing at ${gaps.length - told} more places`);
  }
  return places;
}

function timeErrors({ places, options, value, note }: Found): Readings {
  const spacing = places?.spacing ?? options.gate;
  if (spacing === undefined) {
    throw new InputError(
      options.file,
      null,
      "does not say how far apart its time errors are; give --gate, or a column with time stamps",
    );
  }
  if (options.gate !== undefined && Math.abs(options.gate / spacing - 1) > 0.01) {
    note("stamps", `the time stamps are ${spacing} s apart, not the ${options.gate} s said`);
  }
  return {
    kind: "time_error",
    timeError: spread(value, places, Number.NaN),
    spacing,
    ...(options.nominalPeriod === undefined ? {} : { nominalPeriod: options.nominalPeriod }),
  };
}

function periods(record: Found): Readings {
  const { layout, options, value, line, time, isStart, places, columns } = record;
  const { quantity } = layout;
  const nominalPeriod = nominalOf(record);
  const period = value.map((v, i) => {
    if (Number.isNaN(v)) return Number.NaN;
    if (quantity === "rate" ? v > -1 : v > 0) {
      if (quantity === "period_s") return v;
      return quantity === "rate" ? nominalPeriod / (1 + v) : 1 / v;
    }
    const right = quantity === "rate" ? "above -1" : "above 0";
    throw new InputError(options.file, line[i]!, `${v} is no ${quantity}; expected one ${right}`);
  });
  const usual = median(period);
  if (quantity !== "rate" && nearNominal(usual, nominalPeriod) === null)
    throw farOff(record, usual, nominalPeriod);
  const cycles = cyclesOf(record, period, nominalPeriod);
  // Rates of any size are means over times that they do not change.
  const length = period.map((p, i) => (quantity === "rate" ? nominalPeriod : p) * cycles[i]!);
  const backToBack = backToBackOf(record, length, usual);
  const deadTime = deadTimeOf(record, length, backToBack);
  const rounding = backToBack ? roundingOf(record, length) : 0;
  const start = isStart && columns.stamp !== null ? time : null;
  const grid = (values: Float64Array) => spread(values, places, Number.NaN);
  return {
    kind: "period",
    period: grid(period),
    cycles: grid(cycles),
    start: start && grid(start),
    nominalPeriod,
    backToBack,
    ...(deadTime === undefined ? {} : { deadTime }),
    ...(options.gate === undefined || columns.cycles !== null ? {} : { gate: options.gate }),
    ...(rounding > leastRounding ? { rounding } : {}),
    ...(quantity === "rate" ? { isRate: true } : {}),
  };
}

function farOff({ layout, options, line }: Found, usual: number, nominal: number): InputError {
  const isTurned = nearNominal(1 / usual, nominal) !== null;
  const as = layout.isAssumed ? `as ${layout.quantity}` : `in ${layout.quantity}`;
  const help = isTurned
    ? "are they the other way round: --nominal-frequency instead of --nominal-period?"
    : "is it the wrong column (--column), unit (write it in the column's name), or --nominal-period?";
  return new InputError(
    options.file,
    line[0]!,
    `readings ${as} give a period of ${Number(usual.toPrecision(9))} s, far from the nominal ${nominal} s; expected one within a tenth of it (${help})`,
  );
}

/** Said beside the log, or by two columns of it, or the usual one that they are near; a record of rates needs none. */
function nominalOf(record: Found): number {
  const { columns, value, layout, options, note } = record;
  const { quantity } = layout;
  if (options.nominalPeriod !== undefined) return options.nominalPeriod;
  if (quantity === "rate") return options.gate ?? leftBetween(record) ?? 1;
  const rate = columns.rate?.values();
  if (rate !== undefined) {
    const nominal = median(
      value.map((v, i) => (quantity === "period_s" ? v * (1 + rate[i]!) : (1 + rate[i]!) / v)),
    );
    // The digits of both columns end somewhere: give back the round number they came from.
    const round = Number(nominal.toPrecision(12));
    if (nominal > 0) return Math.abs(round / nominal - 1) < 1e-12 ? round : nominal;
  }
  const usual = quantity === "period_s" ? median(value) : 1 / median(value);
  const near = nearNominal(usual, undefined);
  if (near !== null) {
    const taken = layout.isAssumed ? "the numbers are taken as periods in s, and " : "";
    note(
      "assumed_period",
      `${taken}the nominal period is taken as ${near} s, which they are near; give --nominal-period or --nominal-frequency if it is another`,
    );
    return near;
  }
  throw new InputError(
    options.file,
    null,
    `does not say what the nominal period is; give --nominal-period in s, or --nominal-frequency in Hz (the readings are about ${Number(usual.toPrecision(8))} s)`,
  );
}

/** What the dead time said leaves of the spacing of the time stamps; s; undefined where they tell none. */
function leftBetween({ places, options }: Found): number | undefined {
  if (places === null) return undefined;
  const left = places.spacing - (options.deadTime ?? 0);
  return left > 0 ? left : places.spacing;
}

function cyclesOf(record: Found, period: Float64Array, nominalPeriod: number): Float64Array {
  const { columns, options, line, note, layout } = record;
  const cycles = columns.cycles?.values();
  if (cycles !== undefined) {
    return cycles.map((c, i) => {
      if (Number.isNaN(period[i]!)) return Number.NaN;
      if (c > 0) return c;
      throw new InputError(
        options.file,
        line[i]!,
        `${c} cycles make no reading; expected one or more`,
      );
    });
  }
  const isNext = options.backToBack === true || options.deadTime !== undefined;
  const isAlone = layout.quantity === "rate" && options.nominalPeriod === undefined;
  const gate = options.gate ?? (isNext || isAlone ? leftBetween(record) : undefined);
  if (gate === undefined) {
    note("assumed_gate", "each reading is taken as one period long; give --gate if it is longer");
  }
  const count = Math.max(1, Math.round((gate ?? 0) / nominalPeriod));
  return period.map((p) => (Number.isNaN(p) ? Number.NaN : count));
}

/** Said beside the log, or shown by its first edges; else the more careful assumption is dead time. */
function backToBackOf(record: Found, length: Float64Array, usualPeriod: number): boolean {
  const { options, isStart, time, places, note } = record;
  if (options.deadTime !== undefined) return options.deadTime === 0;
  if (options.backToBack !== undefined) return options.backToBack;
  if (isStart && time !== null && length.length > 1) {
    return Math.abs(usualBreak(time, length)) < 1e-6 * usualPeriod;
  }
  // Time stamps have notes of their own to make.
  if (places === null && length.length > 1) {
    note(
      "assumed_dead_time",
      "nothing says that the readings are back to back, so dead time is assumed; give --back-to-back if there is none",
    );
  }
  return false;
}

/** By the first edges, else by time stamps of another clock, else what is said beside the log. */
function deadTimeOf(
  { time, isStart, places, options, note }: Found,
  length: Float64Array,
  backToBack: boolean,
): number | undefined {
  const said = backToBack ? 0 : options.deadTime;
  if (time === null || length.length < 2) return said;
  if (isStart) {
    if (backToBack) return 0;
    const left = usualBreak(time, length);
    // The counter waits for an edge when its dead time is over: what it says is the least.
    return left >= 0 ? Math.max(left, said ?? 0) : said;
  }
  if (places === null) return said;
  const found = stampedDeadTime(places, median(length), said);
  if (found.note !== "") note("assumed_dead_time", found.note);
  return found.deadTime;
}

/**
 * Relative rms error that the digits written leave in each reading (uniform distribution, JCGM 100:2008, 4.3.7); none
 * where the first edges show that the readings add up to the time between them.
 */
function roundingOf({ columns, layout, time, isStart }: Found, length: Float64Array): number {
  const error = columns.digits.rmsStep(layout.quantity !== "rate") / Math.sqrt(12);
  const last = length.length - 1;
  if (time === null || !isStart || last < 1) return error;
  let off = 0;
  for (let i = 0; i < last; i++) off += length[i]! - (time[i + 1]! - time[i]!);
  return Math.abs(off) < error * length[0]! ? 0 : error;
}

function spread<T extends Float64Array | Int32Array>(
  values: T,
  places: Places | null,
  fill: number,
): T {
  if (places === null || places.length === values.length) return values;
  const make = values.slice(0, 0).constructor as new (length: number) => T;
  const out = new make(places.length);
  out.fill(fill);
  for (let i = 0; i < values.length; i++) out[places.place[i]!] = values[i]!;
  return out;
}
