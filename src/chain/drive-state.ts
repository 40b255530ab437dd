import type { ChainDisturbance } from "./source.ts";

/** What the disturbances that are going on make of the drive: at most one of a kind at a time. */
export class DriveState {
  private readonly going = new Set<ChainDisturbance>();

  /** A disturbance begins; of one without a length nothing goes on. */
  begin(disturbance: ChainDisturbance): void {
    if ("for" in disturbance) this.going.add(disturbance);
  }

  end(disturbance: ChainDisturbance): void {
    this.going.delete(disturbance);
  }

  /** Whether bursts arrive at all. */
  get isOn(): boolean {
    return !this.has("drive_off");
  }

  get isAtSetRate(): boolean {
    return !this.has("drive_rate");
  }

  /** Period of the synthesizer's edges; s. */
  period(setPeriod: number): number {
    let period = setPeriod;
    for (const one of this.going) if (one.kind === "drive_rate") period = 1 / one.outputHz;
    return period;
  }

  /** Factor on the amplitude of the tone. */
  get amplitudeFactor(): number {
    let factor = 1;
    for (const one of this.going) if (one.kind === "amplitude") factor = one.factor;
    return factor;
  }

  private has(kind: ChainDisturbance["kind"]): boolean {
    for (const one of this.going) if (one.kind === kind) return true;
    return false;
  }
}
