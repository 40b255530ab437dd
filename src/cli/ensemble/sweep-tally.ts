import { type RateMethod, rateMethods } from "../../judgement/index.ts";
import { summaryCellCount } from "../../view/table/index.ts";
import { combinationsOf, memberOf, type SweepPlan } from "./sweep-plan.ts";

/** What the runs of one combination of values came to, for one method. */
export interface MethodTally {
  readonly method: RateMethod;
  /** Runs in which the method gave a rate, and in which it gave none. */
  runs: number;
  without: number;
  /** Runs in which it applies. */
  applies: number;
  /** Runs whose interval was known, and in how many of them it held the rate over the run. */
  judged: number;
  covered: number;
  /** The same of the interval about the steady rate. */
  steadyJudged: number;
  steadyCovered: number;
  /** Sum of the squares of rate less truth over the run, time base included. */
  squares: number;
  /** Sum of the squares of the standard uncertainties of runs whose uncertainty was known. */
  uncertainties: number;
}

/** Adds up the rows of a sweep in their order. */
export class SweepTally {
  private readonly plan: SweepPlan;
  private readonly tallies: (MethodTally[] | undefined)[];

  constructor(plan: SweepPlan) {
    this.plan = plan;
    this.tallies = new Array(combinationsOf(plan));
  }

  /**
   * Adds a row.
   *
   * @param run - which run of the sweep it is
   * @param line - the row as it stands in summary.csv
   */
  add(run: number, line: string): void {
    const { combination } = memberOf(this.plan, run);
    const tally = this.tallies[combination] ?? rateMethods.map(emptyTally);
    this.tallies[combination] = tally;
    const cells = line.split(",").slice(-summaryCellCount);
    const perMethod = summaryCellCount / rateMethods.length;
    tally.forEach((method, i) => {
      addCells(method, cells.slice(i * perMethod, (i + 1) * perMethod));
    });
  }

  /** The combinations of which there were runs, in order. */
  *groups(): Generator<{ readonly values: string[]; readonly methods: readonly MethodTally[] }> {
    const { plan } = this;
    for (let i = 0; i < this.tallies.length; i++) {
      const methods = this.tallies[i];
      if (methods === undefined) continue;
      const { choice } = memberOf(plan, i * plan.seeds);
      yield { values: plan.varied.map(({ texts }, k) => texts[choice[k]!]!), methods };
    }
  }
}

const emptyTally = (method: RateMethod): MethodTally => ({
  method,
  runs: 0,
  without: 0,
  applies: 0,
  judged: 0,
  covered: 0,
  steadyJudged: 0,
  steadyCovered: 0,
  squares: 0,
  uncertainties: 0,
});

function addCells(tally: MethodTally, cells: readonly string[]): void {
  const [rate, uncertainty, truth, covered, , steadyCovered, applies] = cells;
  if (rate === "" || truth === "") {
    tally.without++;
    return;
  }
  tally.runs++;
  tally.squares += (Number(rate) - Number(truth)) ** 2;
  if (applies === "true") tally.applies++;
  if (covered !== "") {
    tally.judged++;
    tally.uncertainties += Number(uncertainty) ** 2;
    if (covered === "true") tally.covered++;
  }
  if (steadyCovered !== "") {
    tally.steadyJudged++;
    if (steadyCovered === "true") tally.steadyCovered++;
  }
}
