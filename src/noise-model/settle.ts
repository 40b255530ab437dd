import type { PossibleFault } from "./fault-scan.ts";
import { NoisePosterior } from "./noise-posterior.ts";
import type { Known } from "./prior.ts";
import type { ReadingRecord } from "./reading-record.ts";
import { type ScaledEvents, toEvents } from "./to-events.ts";

/** A fault that is told: its probability is above 0.95. */
export interface ToldFault {
  /** A step of the phase, or an edge (with dead time: a reading) that is off by itself. */
  readonly kind: "phase_step" | "outlier";
  /** Reading in which the step is, or whose last edge is off. */
  readonly reading: number;
  /** Its size; s of time error. */
  readonly size: number;
  /** Standard deviation of the size; s. */
  readonly deviation: number;
  readonly probability: number;
}

/** A record whose faults are modelled, and what it says. */
export interface Settled {
  /** Readings with a step in them have an unknown gain, edges that are off are unseen. */
  readonly record: ReadingRecord;
  readonly posterior: NoisePosterior;
  readonly faults: readonly ToldFault[];
}

/** Probability above which a fault is told. */
const sure = 0.99;
/** Rounds after which what is left stays averaged in. */
const mostRounds = 12;

/**
 * Posterior of a record with its faults modelled: those that are sure (probability above 0.95) are told, a step as a
 * free offset, an outlying edge as one that nobody saw; what may be there besides is averaged in.
 *
 * @param record - readings, not all of unknown gain
 * @param known - what is known of the source
 * @returns the posterior, and the faults in the order of the record
 */
export function settle(record: ReadingRecord, known: Known = {}): Settled {
  const gain = record.gain.slice();
  const unseen = record.unseen?.slice() ?? new Uint8Array(gain.length);
  const faults: ToldFault[] = [];
  for (let round = 0; ; round++) {
    const settled = { ...record, gain, unseen };
    const scaled = toEvents(settled);
    const posterior = new NoisePosterior(scaled, known);
    const scan = posterior.scan!;
    if (!(scan.probability > sure) || round === mostRounds) {
      faults.sort((a, b) => a.reading - b.reading);
      return { record: settled, posterior, faults };
    }
    let changed = false;
    for (const fault of scan.faults) {
      const reading = readingOf(settled, scaled, fault);
      const size = fault.size * scaled.phaseUnit;
      const deviation = fault.deviation * scaled.phaseUnit;
      if (fault.kind === "stamp" && unseen[reading] === 0) {
        unseen[reading] = 1;
        faults.push({ kind: "outlier", reading, size, deviation, probability: scan.probability });
        changed = true;
      } else if (fault.kind === "step" && !Number.isNaN(gain[reading]!)) {
        gain[reading] = Number.NaN;
        const kind = scaled.apart ? "outlier" : "phase_step";
        faults.push({ kind, reading, size, deviation, probability: scan.probability });
        changed = true;
      }
    }
    if (!changed || gain.every((g) => Number.isNaN(g))) {
      faults.sort((a, b) => a.reading - b.reading);
      return { record: settled, posterior, faults };
    }
  }
}

/** Reading of a fault: where a block holds many, the one at which two levels of the phase part best. */
function readingOf(record: ReadingRecord, scaled: ScaledEvents, fault: PossibleFault): number {
  const { reading, slope } = scaled;
  const last = reading[fault.event]!;
  const first = Math.max(0, (reading[fault.event - 1] ?? -1) + 1 - (scaled.block >> 1));
  if (scaled.block === 1 || fault.kind === "stamp" || scaled.apart) return last;
  const end = Math.min(record.gain.length - 1, last + (scaled.block >> 1));
  const size = end - first + 1;
  const phase = new Float64Array(size);
  let z = 0;
  for (let i = 0; i < size; i++) {
    const g = record.gain[first + i]!;
    z += Number.isNaN(g) ? 0 : g - slope * record.length[first + i]!;
    phase[i] = z;
  }
  const total = phase.reduce((a, b) => a + b, 0);
  let best = last;
  let most = -1;
  let before = 0;
  for (let i = 1; i < size; i++) {
    before += phase[i - 1]!;
    const apart = before / i - (total - before) / (size - i);
    const score = apart * apart * i * (1 - i / size);
    if (score > most) {
      most = score;
      best = first + i;
    }
  }
  return best;
}
