import type { RunOptions, Simulation } from "../chain/index.ts";
import type { Reading } from "../stages/counter/index.ts";

/**
 * Keeps where a run ends: at its length, or at the last edge of the last reading asked for.
 *
 * The events of a chain run ahead of its edges, or behind them, by up to a stride, so that their time does not
 * tell when a reading ended.
 */
export class RunEnd {
  private lastReading = 0;
  private readonly simulation: Simulation;
  private readonly options: RunOptions;

  /** @param options - of that simulation */
  constructor(simulation: Simulation, options: RunOptions) {
    this.simulation = simulation;
    this.options = options;
  }

  /** Takes a reading. */
  add(reading: Reading): void {
    this.lastReading = reading.to.instant.toSeconds();
  }

  /** True time simulated so far; s. */
  get length(): number {
    const { simulation, options, lastReading } = this;
    if (simulation.readings === options.readings) return lastReading;
    return Math.max(simulation.now, lastReading);
  }
}
