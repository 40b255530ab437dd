import { cosTurns, sinTurns } from "../../numeric/index.ts";
import type { RectifiedTone } from "./rectified-tone.ts";

/** Where a stretch of one level begins and ends among the periods of the rectified tone, with E, R and w there. */
export class BurstFrame {
  /** Where in its period the stretch begins; periods, 0 ≤ start < 1. */
  start = 0;
  startGrowth = 1;
  startResponse = 0;
  /** Boundaries of periods within the stretch; it ends `end` after the last of them. */
  whole = 0;
  /** Where in its period the stretch ends; periods, 0 ≤ end < 1. */
  end = 0;
  endGrowth = 1;
  endResponse = 0;
  endClock = 0;
  private readonly tone: RectifiedTone;
  /** Its length: whole periods and a part, with growth and phase of the part. */
  private readonly wholePeriods: number;
  private readonly part: number;
  private readonly partGrowth: number;
  private readonly partSine: number;
  private readonly partCosine: number;

  /**
   * @param tone - the rectified tone
   * @param length - length of the stretch; s
   */
  constructor(tone: RectifiedTone, length: number) {
    this.tone = tone;
    const periods = length / tone.period;
    this.wholePeriods = Math.floor(periods);
    this.part = periods - this.wholePeriods;
    this.partGrowth = tone.growth(this.part);
    this.partSine = sinTurns(this.part * tone.turnsPerPeriod);
    this.partCosine = cosTurns(this.part * tone.turnsPerPeriod);
  }

  /**
   * Place it; its end follows from its start by turning sine and cosine on.
   *
   * @param phaseTurns - phase of the tone at the start; turns, ≥ 0
   */
  place(phaseTurns: number): void {
    const tone = this.tone;
    const turns = phaseTurns * tone.periodsPerCycle;
    const x = turns - Math.floor(turns);
    const growth = tone.growth(x);
    const sine = sinTurns(x * tone.turnsPerPeriod);
    const cosine = cosTurns(x * tone.turnsPerPeriod);
    this.start = x;
    this.startGrowth = growth;
    this.startResponse = tone.responseAt(x, growth, sine, cosine);
    const beyond = x + this.part;
    const carry = beyond >= 1;
    // A period more is half a turn more with a full-wave rectifier, which turns both signs about.
    const sign = carry && tone.turnsPerPeriod === 0.5 ? -1 : 1;
    const endSine = sign * (sine * this.partCosine + cosine * this.partSine);
    const endCosine = sign * (cosine * this.partCosine - sine * this.partSine);
    const through = growth * this.partGrowth;
    this.whole = carry ? this.wholePeriods + 1 : this.wholePeriods;
    this.end = carry ? beyond - 1 : beyond;
    this.endGrowth = carry ? through / tone.growthPerPeriod : through;
    this.endResponse = tone.responseAt(this.end, this.endGrowth, endSine, endCosine);
    this.endClock = this.endGrowth * this.endGrowth - 1;
  }
}
