import type { Scenario, Warning } from "../../scenario/index.ts";
import { parseScenario } from "../../scenario/index.ts";
import type { LoadedScenario } from "../load-scenario.ts";
import { combinationsOf, memberOf, type SweepPlan } from "./sweep-plan.ts";
import { asVary } from "./vary.ts";

/** So many combinations are checked before the first run starts; the others when their turn comes. */
const mostChecked = 1000;

/** Gives the scenarios of a sweep by combination; keeps the latest one only. */
export class SweepScenarios {
  private readonly loaded: LoadedScenario;
  private readonly file: string;
  private readonly sets: readonly string[];
  private readonly plan: SweepPlan;
  private latest = -1;
  private scenario: Scenario | null = null;

  /**
   * @param loaded - the scenario as it is in the file
   * @param file - its name in complaints
   * @param sets - overrides for all runs
   */
  constructor(loaded: LoadedScenario, file: string, sets: readonly string[], plan: SweepPlan) {
    this.loaded = loaded;
    this.file = file;
    this.sets = sets;
    this.plan = plan;
  }

  /**
   * Checks the combinations.
   *
   * @returns what their author should know, each thing once
   * @throws ScenarioError if one is not valid
   */
  check(): Warning[] {
    const warnings = new Map<string, Warning>();
    const count = Math.min(mostChecked, combinationsOf(this.plan));
    for (let i = 0; i < count; i++) {
      for (const warning of this.parse(i).warnings) {
        const key = `${warning.path} ${warning.code}`;
        if (!warnings.has(key)) warnings.set(key, warning);
      }
    }
    return [...warnings.values()];
  }

  /**
   * The scenario of a combination.
   *
   * @throws ScenarioError if it is not valid
   */
  of(combination: number): Scenario {
    if (this.scenario === null || this.latest !== combination) {
      this.scenario = this.parse(combination).scenario;
      this.latest = combination;
    }
    return this.scenario;
  }

  private parse(combination: number) {
    const { varied, seeds } = this.plan;
    const { choice } = memberOf(this.plan, combination * seeds);
    const sets = varied.map(({ path, texts }, i) => `${path}=${texts[choice[i]!]!}`);
    return asVary(sets, () => parseScenario(this.loaded.text, this.file, [...this.sets, ...sets]));
  }
}
