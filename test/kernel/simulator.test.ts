import { describe, expect, it } from "vitest";
import { type Process, Simulator } from "../../src/kernel/index.ts";
import { Instant } from "../../src/numeric/index.ts";

/** Acts every `period` s, as often as its horizon allows. */
class Metronome implements Process {
  readonly next: Instant;
  private readonly period: number;
  private readonly log: (at: number) => void;

  constructor(first: number, period: number, log: (at: number) => void) {
    this.next = new Instant().set(first, 0);
    this.period = period;
    this.log = log;
  }

  act(horizon: Instant): void {
    do {
      this.log(this.next.toSeconds());
      this.next.add(this.period);
    } while (this.next.isBefore(horizon));
  }
}

const at = (seconds: number) => new Instant().set(seconds, 0);

describe("Simulator", () => {
  it("interleaves events and processes as if every act were an event", () => {
    const simulator = new Simulator();
    const log: string[] = [];
    simulator.add(new Metronome(1, 1, (t) => log.push(`a${t}`)));
    simulator.add(new Metronome(1.5, 2, (t) => log.push(`b${t}`)));
    simulator.schedule(at(3), 0, () => log.push("event3"));
    simulator.schedule(at(5.2), 0, () => simulator.stop());
    simulator.run();
    expect(log).toEqual(["a1", "b1.5", "a2", "event3", "a3", "b3.5", "a4", "a5"]);
  });

  it("lets a process act many times in one turn where nothing else comes between", () => {
    const simulator = new Simulator();
    let turns = 0;
    const metronome = new Metronome(0.5, 1, () => {});
    const act = metronome.act.bind(metronome);
    metronome.act = (horizon) => {
      turns++;
      act(horizon);
    };
    simulator.add(metronome);
    simulator.schedule(at(1000), 0, () => simulator.stop());
    simulator.run();
    expect(turns).toBe(1);
  });

  it("shows an event the present moment, and refuses one in the past", () => {
    const simulator = new Simulator();
    let now = Number.NaN;
    simulator.schedule(at(7.25), 0, () => {
      now = simulator.now.toSeconds();
    });
    expect(simulator.run()).toBe(true);
    expect(now).toBe(7.25);
    expect(() => simulator.schedule(at(7), 0, () => {})).toThrow(/must not lie before now = 7.25/);
  });

  it("goes on where a slice ended", () => {
    const simulator = new Simulator();
    const log: number[] = [];
    for (const t of [1, 2, 3]) simulator.schedule(at(t), 0, () => log.push(t));
    expect(simulator.run(2)).toBe(false);
    expect(log).toEqual([1, 2]);
    expect(simulator.run()).toBe(true);
    expect(log).toEqual([1, 2, 3]);
  });
});
