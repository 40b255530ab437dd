/** Why the dial was displaced. */
export type SlipCause =
  | "missed"
  | "blocked"
  | "dropped"
  | "missed_step"
  | "extra_step"
  | "drive_off"
  | "drive_rate"
  | "fallback";

/** A displacement of the dial, in steps: positive where it went ahead. */
export interface Slip {
  /** True time; s. */
  readonly at: number;
  readonly steps: number;
  readonly cause: SlipCause;
}

/** Slips kept one by one; of more only their sum is known. */
const mostKept = 10_000;

/** What the observer who knows the truth writes down about steps lost and gained. */
export class SlipRecord {
  readonly slips: Slip[] = [];
  /** Sum of all slips; steps. */
  total = 0;
  /** Slips that came after the list was full. */
  notListed = 0;

  /** Spans on the clock's own oscillator: from, to; s. The last one may still be going on. */
  readonly fallback: [number, number][] = [];
  /** All such spans together, those after the list was full too; s. */
  fallbackTime = 0;
  private span: [number, number] = [0, 0];

  /** The clock ticks by its own oscillator at this moment; s. */
  inFallback(at: number, isNew: boolean): void {
    if (isNew) {
      this.span = [at, at];
      if (this.fallback.length < mostKept) this.fallback.push(this.span);
    } else {
      this.fallbackTime += at - this.span[1];
      this.span[1] = at;
    }
  }

  /** Writes a slip down; none where `steps` is 0. */
  add(at: number, steps: number, cause: SlipCause): void {
    if (steps === 0) return;
    this.total += steps;
    if (this.slips.length < mostKept) this.slips.push({ at, steps, cause });
    else this.notListed++;
  }
}
