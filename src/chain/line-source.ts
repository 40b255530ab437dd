import type { Edge } from "../kernel/edge.ts";
import type { Instant } from "../numeric/instant.ts";
import type { EdgeLine } from "./edge-line.ts";
import type { LineProcess } from "./line-process.ts";
import type { SlipRecord } from "./slips.ts";
import type { ChainDisturbance, Source } from "./source.ts";

/** A clock that divides the reference, or a stage of the chain that the counter watches directly. */
export class LineSource implements Source {
  private readonly rates: { readonly disturbance: ChainDisturbance; readonly hz: number }[] = [];
  private readonly line: EdgeLine;
  private readonly process: LineProcess;
  private readonly slips: SlipRecord;
  private readonly setPeriod: number;
  private readonly isClock: boolean;

  /**
   * @param isClock - whether steps can be lost and gained here
   */
  constructor(line: EdgeLine, process: LineProcess, slips: SlipRecord, isClock: boolean) {
    this.line = line;
    this.process = process;
    this.slips = slips;
    this.isClock = isClock;
    this.setPeriod = line.grid.period;
  }

  get count(): number {
    return this.process.count;
  }

  get displacedSteps(): number {
    return this.slips.total;
  }

  approach(): void {}

  begin(disturbance: ChainDisturbance, now: Instant): void {
    if (disturbance.kind === "drive_rate") {
      this.rates.push({ disturbance, hz: disturbance.outputHz });
      this.setRate(now);
    } else if (this.isClock) {
      if (disturbance.kind === "missed_step") this.displace(now, -1);
      if (disturbance.kind === "extra_step") this.displace(now, 1);
    }
  }

  end(disturbance: ChainDisturbance, now: Instant): void {
    if (disturbance.kind !== "drive_rate") return;
    const index = this.rates.findIndex((rate) => rate.disturbance === disturbance);
    this.rates.splice(index, 1);
    this.setRate(now);
  }

  finish(edge: Edge): void {
    const nominal = edge.instant.toSeconds();
    this.line.writeTruth(nominal, edge);
    this.line.writeTruth(nominal + edge.referenceError, edge);
    edge.lapse = Math.max(0, edge.nominal - this.line.nominal);
    edge.count = this.process.count;
    edge.marks = 0;
  }

  stop(): void {
    this.process.isStopped = true;
  }

  private setRate(now: Instant): void {
    const last = this.rates[this.rates.length - 1];
    const { grid } = this.line;
    this.process.passTo(grid.firstFrom(now) - 1);
    grid.switchPeriod(now, last === undefined ? this.setPeriod : 1 / last.hz);
    this.process.settleNext();
  }

  private displace(now: Instant, steps: 1 | -1): void {
    this.process.displace(steps);
    this.slips.add(now.toSeconds(), steps, steps > 0 ? "extra_step" : "missed_step");
  }
}
