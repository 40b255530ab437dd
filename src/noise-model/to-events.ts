import type { EdgeEvents } from "./edge-events.ts";
import { middle } from "./middle.ts";
import type { ReadingRecord } from "./reading-record.ts";

/** Events up to which every edge is one; longer records go by block means. */
export const mostEdges = 2048;
const blocksWanted = 512;
/** Events above which a record of many short stretches goes by groups of readings that stand for themselves. */
const mostEvents = 4096;

/** A record in the filter's units, and the way back. */
export interface ScaledEvents {
  readonly events: EdgeEvents;
  /** One unit of time; s. */
  readonly timeUnit: number;
  /** One unit of phase; s. */
  readonly phaseUnit: number;
  /** Slope taken out beforehand; dimensionless. */
  readonly slope: number;
  /** Edges in a full block: 1 where every edge is an event. */
  readonly block: number;
  /** Whether no two readings share an edge or a known gap, so that white PM and white FM cannot be told apart. */
  readonly apart: boolean;
  /** Reading that ends at each event (its last); −1 for the first edge. */
  readonly reading: Int32Array;
  /** Whether a reading may be missing without a trace. */
  readonly mayLackReadings: boolean;
  /** pm of the events over that of an edge: 1, or what grouping readings made of it. */
  readonly edgeScale: number;
}

/**
 * Turns readings into events for the filter.
 *
 * @param record - readings, at least one of known gain
 * @param blocks - edges above which block means are taken; integer, 1024 by default
 * @returns events with a median step of 1 and a robust deviation of the readings of 1
 * @throws RangeError if no reading's gain is known
 */
export function toEvents(record: ReadingRecord, blocks: number = mostEdges): ScaledEvents {
  const { length, gain, gap, gapGain } = record;
  if (gain.every((g) => Number.isNaN(g))) {
    throw new RangeError("toEvents: readings must not all be missing");
  }
  const timeUnit = middle(length);
  const slopes = gain.map((g, i) => g / length[i]!);
  const slope = middle(slopes.filter((s) => !Number.isNaN(s)));
  const off = gain.map((g, i) => Math.abs(g - slope * length[i]!)).filter((d) => !Number.isNaN(d));
  let phaseUnit = 1.4826 * middle(off);
  if (!(phaseUnit > 0)) phaseUnit = off.reduce((a, b) => Math.max(a, b), 0);
  if (!(phaseUnit > 0)) phaseUnit = 1e-12 * timeUnit;
  const size = length.length;
  let shared = 0;
  for (let i = 1; i < size; i++) {
    if (gap[i] === 0 || !Number.isNaN(gapGain[i]!)) shared++;
  }
  const apart = shared < 0.5 * (size - 1);
  const { mayLackReadings = false } = record;
  const scale = { timeUnit, phaseUnit, slope, mayLackReadings };
  if (size + 1 <= blocks) return { ...scale, ...edges(record, scale, 1), apart, edgeScale: 1 };
  if (!apart) {
    let block = 1;
    while (block * blocksWanted < size) block *= 2;
    const made = edges(evened(record), scale, block);
    if (made.events.step.length <= mostEvents) {
      return { ...scale, ...made, apart: false, edgeScale: 1 };
    }
  }
  const { grouped, edgeScale, members } = groups(record, Math.ceil(size / blocksWanted));
  const made = edges(grouped, scale, 1);
  const reading = made.reading.map((r) => (r < 0 ? r : Math.min(size, (r + 1) * members) - 1));
  return { ...scale, ...made, reading, block: members, apart: true, edgeScale };
}

/** The record with edges that are passed over put halfway between their neighbours, for block means. */
function evened(record: ReadingRecord): ReadingRecord {
  const { unseen } = record;
  if (unseen === undefined) return record;
  const gain = record.gain.slice();
  unseen.forEach((flag, i) => {
    if (flag === 0 || i + 1 >= gain.length) return;
    const rate = (gain[i]! + gain[i + 1]!) / (record.length[i]! + record.length[i + 1]!);
    gain[i] = rate * record.length[i]!;
    gain[i + 1] = rate * record.length[i + 1]!;
  });
  return { ...record, gain };
}

interface Scale {
  readonly timeUnit: number;
  readonly phaseUnit: number;
  readonly slope: number;
}

/** Events of every edge, or in blocks that grow from 1 at the start of a stretch and shrink to 1 at its end. */
function edges(record: ReadingRecord, scale: Scale, block: number) {
  const { length, gain, gap, gapGain, temperature, unseen } = record;
  const { timeUnit, phaseUnit, slope } = scale;
  const size = length.length;
  const step: number[] = [];
  const count: number[] = [];
  const starts: number[] = [];
  const phase: number[] = [];
  const time: number[] = [];
  const warm: number[] = [];
  const reading: number[] = [];
  const add = (...[d, m, s, z, t, w, r]: number[]) => {
    step.push(d!);
    count.push(m!);
    starts.push(s!);
    phase.push(z!);
    time.push(t!);
    warm.push(w!);
    reading.push(r!);
  };
  // In blocks steps of about a unit count as one: the regressors keep the exact times.
  const even = (d: number) => (block > 1 && d > 0.7 && d < 1.4 ? 1 : d);
  let skipped = 0;
  let duration = 0;
  for (let i = 0; i < size; ) {
    // A stretch: from i as long as edges are shared or gaps known.
    const before = gap[i]! / timeUnit;
    duration += i === 0 ? 0 : before;
    if (Number.isNaN(gain[i]!)) {
      skipped += (i === 0 ? 0 : before) + length[i]! / timeUnit;
      duration += length[i]! / timeUnit;
      i++;
      continue;
    }
    if (step.length === 0) {
      // The run begins with the first edge of the first reading that is known.
      duration = 0;
      add(0, 1, 1, 0, 0, 0, i - 1);
    } else add(skipped + before, 1, 1, 0, 0, 0, i - 1);
    skipped = 0;
    let z = 0;
    let t = 0;
    let w = 0;
    let end = i;
    while (
      end + 1 < size &&
      !Number.isNaN(gain[end + 1]!) &&
      joins(gap[end + 1]!, gapGain[end + 1]!)
    ) {
      end++;
    }
    for (let size1 = 1, k = i; k <= end; ) {
      // As many as fit: no more than remain to go down again by halves.
      while (size1 > 1 && size1 > (end + 2 - k) / 2) size1 /= 2;
      let m = 0;
      let zs = 0;
      let ts = 0;
      let ws = 0;
      let span = 0;
      while (m < size1 && k <= end) {
        if (k > i && gap[k]! > 0) {
          if (m > 0) break;
          // A known gap: a step of its own, to an edge that is seen.
          const d = gap[k]! / timeUnit;
          z += (gapGain[k]! - slope * gap[k]!) / phaseUnit;
          t += d;
          duration += d;
          add(d, 1, 0, z, t, w, k - 1);
        }
        const d = length[k]! / timeUnit;
        z += (gain[k]! - slope * length[k]!) / phaseUnit;
        t += d;
        w += (temperature?.[k] ?? 0) * d;
        zs += z;
        ts += t;
        ws += w;
        span += d;
        m++;
        k++;
      }
      duration += span;
      // A block cut short by a gap is not a power of two: its last edge alone stands for it.
      if ((m & (m - 1)) === 0) add(even(span / m), m, 0, zs / m, ts / m, ws / m, k - 1);
      else add(span, 1, 0, z, t, w, k - 1);
      size1 = Math.min(block, size1 * (step.length > 2 && count.at(-2) === count.at(-1) ? 2 : 1));
    }
    i = end + 1;
  }
  const regressors = [{ values: Float64Array.from(time), overRun: duration - skipped }];
  if (temperature !== undefined) regressors.push({ values: Float64Array.from(warm), overRun: 0 });
  const events: EdgeEvents = {
    step: Float64Array.from(step),
    count: Int32Array.from(count),
    starts: Uint8Array.from(starts),
    unseen: Uint8Array.from(reading, (r, k) =>
      starts[k] === 0 && block === 1 ? (unseen?.[r] ?? 0) : 0,
    ),
    phase: Float64Array.from(phase),
    regressors,
    duration: duration - skipped,
  };
  return { events, block, reading: Int32Array.from(reading) };
}

function joins(gap: number, gapGain: number): boolean {
  return gap === 0 || !Number.isNaN(gapGain);
}

/** Groups of readings that stand for themselves: each the mean rate of its readings, over the span of all. */
function groups(record: ReadingRecord, members: number) {
  const { length, gain, gap, temperature } = record;
  const size = Math.floor(length.length / members);
  const made = {
    length: new Float64Array(size),
    gain: new Float64Array(size),
    gap: new Float64Array(size),
    gapGain: new Float64Array(size).fill(Number.NaN),
    ...(temperature === undefined ? {} : { temperature: new Float64Array(size) }),
  };
  let stretched = 0;
  for (let g = 0; g < size; g++) {
    let span = 0;
    let seen = 0;
    let sum = 0;
    let warm = 0;
    let found = 0;
    for (let i = g * members; i < (g + 1) * members; i++) {
      span += length[i]! + (i > g * members ? gap[i]! : 0);
      if (Number.isNaN(gain[i]!)) continue;
      seen += length[i]!;
      sum += gain[i]!;
      warm += (temperature?.[i] ?? 0) * length[i]!;
      found++;
    }
    made.length[g] = span;
    made.gain[g] = found === 0 ? Number.NaN : (sum / seen) * span;
    made.gap[g] = gap[g * members]!;
    if (made.temperature !== undefined) made.temperature[g] = found === 0 ? 0 : warm / seen;
    stretched += found === 0 ? 0 : (found * span * span) / (seen * seen) / size;
  }
  return { grouped: made, edgeScale: stretched, members };
}
