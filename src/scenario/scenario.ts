import type { ClockParameters } from "../stages/clock/index.ts";
import type { CounterParameters } from "../stages/counter/index.ts";
import type { DriveParameters } from "../stages/drive/index.ts";
import type { Environment, OscillatorParameters } from "../stages/oscillator/index.ts";
import type { ReceiverParameters } from "../stages/receiver/index.ts";
import type { SynthesizerParameters } from "../stages/synthesizer/index.ts";

/** Something that befalls the drive, the clock or the counter at a set moment of true time. */
export type Disturbance =
  | { readonly kind: "drive_off"; readonly at: number; readonly for: number }
  | {
      readonly kind: "drive_rate";
      readonly at: number;
      readonly for: number;
      readonly outputHz: number;
    }
  | {
      readonly kind: "amplitude";
      readonly at: number;
      readonly for: number;
      readonly factor: number;
    }
  | { readonly kind: "missed_step"; readonly at: number }
  | { readonly kind: "extra_step"; readonly at: number }
  | { readonly kind: "missed_edge"; readonly at: number }
  | { readonly kind: "extra_edge"; readonly at: number };

/** Which edges a run computes: every burst, the bursts that make ticks, or what the counter looks at. */
export type Recording = "bursts" | "ticks" | "lazy";

/**
 * A validated scenario: defaults filled in, SI units, frozen. What a run needs, and all it needs.
 *
 * Sections left out of the file are null: without synthesizer, drive and receiver the clock divides the
 * reference. Drive and receiver come together, and need the synthesizer.
 */
export interface Scenario {
  readonly title: string;
  /** Seed written in the file, or null where the file has none. */
  readonly seed: string | null;
  /** Simulated length of a run; s, > 0. */
  readonly length: number;
  /** Recording mode the file asks for, or null: chosen from the length. */
  readonly recording: Recording | null;
  readonly environment: Environment;
  readonly reference: OscillatorParameters;
  readonly synthesizer: SynthesizerParameters | null;
  readonly drive: DriveParameters | null;
  readonly receiver: ReceiverParameters | null;
  readonly clock: ClockParameters;
  readonly counter: CounterParameters;
  readonly disturbances: readonly Disturbance[];
}
