import { shortNumber } from "../../numeric/index.ts";
import type { Warning } from "../../scenario/index.ts";
import { jsonText } from "../../view/table/index.ts";
import {
  commonRateUnit,
  counted,
  estimatorNames,
  type RateUnit,
  rateNumber,
  unitAsFraction,
} from "../../view/words/index.ts";
import { print } from "../print.ts";
import { styled, textTable, wrap, wroteLine } from "../style.ts";
import type { SweepPlan } from "./sweep-plan.ts";
import type { MethodTally, SweepTally } from "./sweep-tally.ts";

/** So many combinations are printed. */
const mostPrinted = 12;

/** What a sweep, or the joining of its parts, came to. */
export interface SweepReport {
  /** Of the scenario. */
  readonly title: string;
  readonly plan: SweepPlan;
  readonly rows: number;
  readonly tally: SweepTally;
  /** The table of the runs. */
  readonly summary: string;
  /** What was written. */
  readonly files: readonly string[];
  readonly warnings: readonly Warning[];
}

/** Prints it, for people or for programs. */
export function tellSweep(report: SweepReport, isJson: boolean | undefined): void {
  const { plan, rows, tally, summary, warnings } = report;
  const { seed, shard } = plan;
  const groups = () => sweepGroups(plan, tally);
  print(
    isJson
      ? jsonText({
          schema_version: 1,
          runs: rows,
          summary,
          seed,
          shard,
          groups: groups(),
          warnings,
        })
      : printSweep(report),
  );
}

function printSweep({ title, plan, rows, tally, files }: SweepReport): string {
  const { index, count } = plan.shard;
  const part = count === 1 ? "" : ` (part ${index} of ${count})`;
  const paths = plan.varied.map(({ path }) => path).join(", ");
  const varied = paths === "" ? "" : `${paths} varied, `;
  const lines = [styled("bold", title)];
  lines.push(
    wrap(`${counted(rows, "run")}${part}, ${varied}seeds ${plan.seed}-1 to -${plan.seeds}`),
    "",
  );
  const groups = [...tally.groups()];
  const unit = commonRateUnit(
    groups.flatMap(({ methods }) => methods.map(({ squares, runs }) => Math.sqrt(squares / runs))),
  );
  for (const { values, methods } of groups.slice(0, mostPrinted)) {
    const head = plan.varied.map(({ path }, i) => `${path}=${values[i]}`).join(", ");
    if (head !== "") lines.push(wrap(head, 80, "  "));
    const table = methods.map((method) => [
      `  ${estimatorNames[method.method]}`,
      rms(method.squares, method.runs, unit),
      rms(method.uncertainties, method.judged, unit),
      share(method.covered, method.judged),
      share(method.steadyCovered, method.steadyJudged),
    ]);
    lines.push(
      textTable([
        [`  ${unit.name}`, "rms error", "stated u", "coverage, 95 %", "steady"],
        ...table,
      ]),
    );
    lines.push(...withoutRates(methods), "");
  }
  if (groups.length > mostPrinted) {
    lines.push(`and ${groups.length - mostPrinted} more combinations`, "");
  }
  lines.push(`${unitAsFraction(unit)}.`, "", ...files.map(wroteLine));
  return `${lines.join("\n")}\n`;
}

/** The mean of readings has a rate wherever there are readings of a driven clock. */
function withoutRates(methods: readonly MethodTally[]): string[] {
  const { runs, without } = methods.find(({ method }) => method === "mean_of_readings")!;
  if (without === 0) return [];
  const some = without === runs + without ? "no run" : `${without} of ${runs + without} runs`;
  const gave = without === runs + without ? "gave a rate" : "gave none";
  return [
    wrap(
      `  ${some} ${gave}: too few readings, or more than a tenth of the run on the clock's own oscillator.`,
      80,
      "  ",
    ),
  ];
}

const rms = (squares: number, count: number, unit: RateUnit): string =>
  count === 0 ? "–" : rateNumber(Math.sqrt(squares / count), unit, 2);

const share = (part: number, whole: number): string =>
  whole === 0 ? "–" : `${shortNumber((100 * part) / whole, 3)} % of ${whole}`;

/** The same for programs: an object a combination. */
function sweepGroups(plan: SweepPlan, tally: SweepTally) {
  return [...tally.groups()].map(({ values, methods }) => ({
    vary: Object.fromEntries(plan.varied.map(({ path }, i) => [path, values[i]!])),
    methods: methods.map((method: MethodTally) => ({
      method: method.method,
      runs: method.runs,
      without_rate: method.without,
      applies: method.applies,
      rms_error: method.runs === 0 ? null : Math.sqrt(method.squares / method.runs),
      rms_standard_uncertainty:
        method.judged === 0 ? null : Math.sqrt(method.uncertainties / method.judged),
      judged: method.judged,
      covered: method.covered,
      steady_judged: method.steadyJudged,
      steady_covered: method.steadyCovered,
    })),
  }));
}
