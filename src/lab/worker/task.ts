import { delayByPhase } from "../../planning/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import type { DelayByPhase } from "../../stages/receiver/index.ts";
import { lessonScenario } from "../lesson/lesson-scenario.ts";
import type { TaskName, Tasks } from "../protocol.ts";
import type { Pace } from "./pace.ts";

/** What all tasks share: the scenario, and what follows from it and costs time. */
export class Bench {
  /** As written. */
  readonly scenario: Scenario;
  /** As the lesson looks at it. */
  readonly lesson: Scenario;
  private readonly delays = new Map<string, DelayByPhase | null>();

  /** @param scenario - the scenario of the page */
  constructor(scenario: Scenario) {
    this.scenario = scenario;
    this.lesson = lessonScenario(scenario);
  }

  /** Detection delay by phase of the tone, by theory; worked out once for each receiver and drive. */
  delay(scenario: Scenario): DelayByPhase | null {
    const key = JSON.stringify([scenario.receiver, scenario.drive]);
    const known = this.delays.get(key);
    if (known !== undefined) return known;
    const delay = delayByPhase(scenario);
    this.delays.set(key, delay);
    return delay;
  }
}

/** Answers one kind of question. */
export type Task<T extends TaskName> = (
  bench: Bench,
  ask: Tasks[T]["ask"],
  pace: Pace,
) => Promise<Tasks[T]["answer"]>;
