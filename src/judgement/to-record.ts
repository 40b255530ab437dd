import type { ReadingRecord } from "../noise-model/index.ts";
import { median } from "../numeric/index.ts";
import type { PeriodReadings, Readings, TimeErrorReadings } from "../readings/index.ts";
import { edgeRecord } from "./edge-record.ts";

/** A record for the model, and which of the readings each of its own is. */
export interface ModelRecord {
  readonly record: ReadingRecord;
  /** Place in the readings of each of the record's; for time errors the later of the two that it lies between. */
  readonly place: Int32Array;
}

/**
 * A record of readings as the noise model takes it.
 *
 * A missing reading has an unknown gain. Gaps are joined where the counter's own first edges tell how many cycles lie
 * in them for certain; time stamps of another clock never replace edges. Where another record begins nothing is joined.
 *
 * @param readings - the record, at least one reading (two time errors) not missing
 * @param without - places left out altogether, ascending: lines written twice
 * @returns the record for the model
 */
export function toRecord(readings: Readings, without: readonly number[] = []): ModelRecord {
  return readings.kind === "period"
    ? ofPeriods(readings, new Set(without))
    : ofTimeErrors(readings, new Set(without));
}

function ofPeriods(readings: PeriodReadings, without: ReadonlySet<number>): ModelRecord {
  const { period, cycles, nominalPeriod, backToBack, start, deadTime, joins = [] } = readings;
  const kept: number[] = [];
  for (let i = 0; i < period.length; i++) if (!without.has(i)) kept.push(i);
  const size = kept.length;
  const usualCycles = median(cycles);
  const usual = usualCycles * nominalPeriod;
  const made = {
    length: new Float64Array(size),
    gain: new Float64Array(size),
    gap: new Float64Array(size),
    gapGain: new Float64Array(size).fill(Number.NaN),
  };
  const join = new Set(joins);
  for (let k = 0; k < size; k++) {
    const i = kept[k]!;
    const c = cycles[i]!;
    const known = !Number.isNaN(period[i]!);
    made.length[k] = known ? c * nominalPeriod : usual;
    made.gain[k] = known ? c * (nominalPeriod - period[i]!) : Number.NaN;
    if (k === 0) continue;
    if (join.has(i)) made.gap[k] = usual;
    else if (!backToBack) made.gap[k] = Math.max(deadTime ?? usual, 1e-6 * usual);
  }
  const place = Int32Array.from(kept);
  const mayLackReadings = backToBack && start === null && readings.stamps === undefined;
  const record = withWarmth({ ...made, mayLackReadings }, place, readings.temperature);
  if (start === null || without.size > 0 || joins.length > 0) return { record, place };
  return { record: joinedByStart(record, readings), place };
}

/** Gaps and missing readings bridged where the counter's first edges tell their cycles. */
function joinedByStart(record: ReadingRecord, readings: PeriodReadings): ReadingRecord {
  const { period, cycles, nominalPeriod, start, backToBack } = readings;
  const edges = edgeRecord(readings);
  const [gain, gap, gapGain] = [record.gain.slice(), record.gap.slice(), record.gapGain.slice()];
  const length = record.length.slice();
  const unseen = new Uint8Array(gain.length);
  let previous = -1;
  let at = 0;
  for (let i = 0; i < period.length; i++) {
    if (Number.isNaN(period[i]!)) continue;
    if (previous >= 0 && !(backToBack && previous === i - 1)) {
      const between = start![i]! - start![previous]! - cycles[previous]! * period[previous]!;
      const known = edges.joined && Number.isFinite(between) && between > 0;
      // Of the edges: the last of the reading before stands at `at`, the first of this one next.
      const gained = known ? edges.x[at + 1]! - edges.x[at]! : Number.NaN;
      // Between an edge and its bounce no cycle passes, but some time.
      const cyclesBetween = known ? edges.edge[at + 1]! - edges.edge[at]! : Number.NaN;
      const counted = known ? Math.max(cyclesBetween, 1e-6) * nominalPeriod : between;
      at++;
      const missing = i - previous - 1;
      for (let m = previous + 1; m < i; m++) {
        // Missing readings share what passed; of their edges only the last is one that was seen.
        if (!known) continue;
        length[m] = counted / missing;
        gain[m] = gained / missing;
        gap[m] = 0;
        unseen[m] = m < i - 1 ? 1 : 0;
      }
      if (missing === 0) {
        gap[i] = known ? counted : Math.max(between > 0 ? between : gap[i]!, 1e-9);
        gapGain[i] = gained;
      } else if (known) gap[i] = 0;
    }
    if (previous < 0) at = 0;
    at++;
    previous = i;
  }
  return { ...record, length, gain, gap, gapGain, unseen };
}

function ofTimeErrors(readings: TimeErrorReadings, without: ReadonlySet<number>): ModelRecord {
  const { timeError, spacing, joins = [] } = readings;
  const kept: number[] = [];
  for (let i = 0; i < timeError.length; i++) {
    if (!without.has(i) && (kept.length > 0 || !Number.isNaN(timeError[i]!))) kept.push(i);
  }
  while (kept.length > 0 && Number.isNaN(timeError[kept.at(-1)!]!)) kept.pop();
  const size = Math.max(0, kept.length - 1);
  const length = new Float64Array(size).fill(spacing);
  const gain = new Float64Array(size);
  const unseen = new Uint8Array(size);
  let from = 0;
  for (let k = 1; k <= size; k++) {
    if (Number.isNaN(timeError[kept[k]!]!)) {
      unseen[k - 1] = 1;
      continue;
    }
    const rise = timeError[kept[k]!]! - timeError[kept[from]!]!;
    for (let j = from; j < k; j++) gain[j] = rise / (k - from);
    from = k;
  }
  const join = new Set(joins);
  const place = Int32Array.from(kept.slice(1));
  place.forEach((i, k) => {
    if (join.has(i)) gain[k] = Number.NaN;
  });
  const record: ReadingRecord = {
    length,
    gain,
    gap: new Float64Array(size),
    gapGain: new Float64Array(size).fill(Number.NaN),
    unseen,
  };
  return { record: withWarmth(record, place, readings.temperature), place };
}

/** Temperatures off their mean; a reading without one is taken at the mean. */
function withWarmth(
  record: ReadingRecord,
  place: Int32Array,
  temperature?: Float64Array,
): ReadingRecord {
  if (temperature === undefined) return record;
  let sum = 0;
  let count = 0;
  for (const i of place) {
    if (Number.isNaN(temperature[i]!)) continue;
    sum += temperature[i]!;
    count++;
  }
  const mean = count === 0 ? 0 : sum / count;
  const warmth = Float64Array.from(place, (i) =>
    Number.isNaN(temperature[i]!) ? 0 : temperature[i]! - mean,
  );
  return { ...record, temperature: warmth };
}
