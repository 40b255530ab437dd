import type { Edge } from "../kernel/index.ts";
import type { Instant } from "../numeric/index.ts";
import { DriveState } from "./drive-state.ts";
import type { EdgeLine } from "./edge-line.ts";
import type { LineProcess } from "./line-process.ts";
import type { SlipRecord } from "./slips.ts";
import type { ChainDisturbance, Source } from "./source.ts";
import type { TickOutput } from "./tick-output.ts";

/** A clock that divides the reference, or a stage of the chain that the counter watches directly. */
export class LineSource implements Source {
  private readonly state = new DriveState();
  private readonly line: EdgeLine;
  private readonly process: LineProcess;
  private readonly slips: SlipRecord;
  private readonly setPeriod: number;
  /** The contact of the clock, or null where no steps can be lost and gained. */
  private readonly output: TickOutput | null;
  private readonly now: Instant;

  /**
   * @param output - the contact of the clock, or null where the line is no clock
   * @param now - the present, which the simulator moves
   */
  constructor(
    line: EdgeLine,
    process: LineProcess,
    slips: SlipRecord,
    output: TickOutput | null,
    now: Instant,
  ) {
    this.line = line;
    this.process = process;
    this.slips = slips;
    this.output = output;
    this.now = now;
    this.setPeriod = line.grid.period;
  }

  get count(): number {
    return this.process.count;
  }

  approach(): void {}

  settle(): void {}

  begin(disturbance: ChainDisturbance, at: Instant): void {
    this.state.begin(disturbance);
    if (disturbance.kind === "drive_rate") this.setRate(at);
    else if (this.output !== null) {
      if (disturbance.kind === "missed_step") this.displace(at, -1);
      if (disturbance.kind === "extra_step") this.displace(at, 1);
    }
  }

  end(disturbance: ChainDisturbance, at: Instant): void {
    this.state.end(disturbance);
    if (disturbance.kind === "drive_rate") this.setRate(at);
  }

  finish(edge: Edge): void {
    this.line.writeTruth(edge);
    edge.lapse = Math.max(0, edge.nominal - this.line.nominal);
    edge.count = this.output?.countAt(this.process.count) ?? this.process.count;
    edge.marks = 0;
  }

  stop(): void {
    this.process.stop();
  }

  private setRate(at: Instant): void {
    this.process.passTo(this.line.firstExpected(this.now) - 1);
    this.line.switchPeriod(at, this.process.nextEdge, this.state.period(this.setPeriod));
    this.process.settleNext();
  }

  private displace(at: Instant, steps: 1 | -1): void {
    if (steps > 0) this.process.addExtra(at);
    else this.process.missNext();
    this.slips.add(at.toSeconds(), steps, steps > 0 ? "extra_step" : "missed_step");
  }
}
