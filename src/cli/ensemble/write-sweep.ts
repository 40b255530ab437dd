import type { SweepRequest } from "../../view/table/index.ts";
import { csvHeader, dataPackage, jsonText, summaryColumns } from "../../view/table/index.ts";
import { type OutputFolder, packageName } from "../output-folder.ts";
import { created } from "../provenance.ts";
import { summaryName } from "./sweep-folder.ts";
import { runOfRow, type SweepPlan } from "./sweep-plan.ts";
import { SweepTally } from "./sweep-tally.ts";

/** What stands beside the rows of a sweep in its descriptor. */
export interface SweepText {
  readonly title: string;
  /** Short name of the scenario. */
  readonly name: string;
  readonly scenarioText: string;
  readonly request: SweepRequest;
}

/**
 * Writes the table of a sweep and its descriptor, row by row, and adds the rows up on the way.
 *
 * @param folder - opened for `summaryName` and `packageName`
 * @param lines - the rows in order, without line ends
 * @returns rows written and their sums
 */
export function writeSweep(
  folder: OutputFolder,
  plan: SweepPlan,
  text: SweepText,
  lines: Iterable<string>,
): { readonly rows: number; readonly tally: SweepTally } {
  const columns = summaryColumns(plan.varied);
  const sink = folder.open(summaryName);
  const tally = new SweepTally(plan);
  let rows = 0;
  sink.write(csvHeader(columns));
  for (const line of lines) {
    sink.write(`${line}\r\n`);
    tally.add(runOfRow(plan.shard, rows), line);
    rows++;
  }
  const written = sink.close();
  const descriptor = dataPackage({
    name: `${text.name.toLowerCase().replace(/[^a-z0-9._-]+/g, "-")}-sweep`,
    title: text.title,
    description: "Ensemble of simulated runs of a clock-drive chain: estimates beside their truth",
    created: created(),
    files: [
      {
        name: "summary",
        path: summaryName,
        title: "Runs",
        description: "A row a run: varied values, seed, estimates by four methods and their truth",
        columns,
        primaryKey: [...plan.varied.map(({ path }) => path), "seed"],
        ...written,
      },
    ],
    provenance: {
      schema_version: 1,
      tool: "tickwright",
      request: text.request,
      shard: { index: plan.shard.index, count: plan.shard.count },
      rows,
      scenario_text: text.scenarioText,
      command: process.argv.slice(2),
      generator: "tychei, seeded by the ARC4 of seedrandom from the seed and the path of the stage",
      node: process.versions.node,
      v8: process.versions.v8,
      platform: `${process.platform} ${process.arch}`,
      digests: { [summaryName]: written.sha256 },
    },
  });
  folder.write(packageName, jsonText(descriptor));
  return { rows, tally };
}
