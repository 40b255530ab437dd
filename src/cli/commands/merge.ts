import { join } from "node:path";
import type { Command } from "commander";
import { jsonText } from "../../view/table/index.ts";
import { mergedLines, readShards } from "../ensemble/merge-shards.ts";
import { printSweep, sweepGroups } from "../ensemble/print-sweep.ts";
import { summaryName } from "../ensemble/sweep-folder.ts";
import { writeSweep } from "../ensemble/write-sweep.ts";
import { UsageError } from "../failures.ts";
import { newCommand } from "../new-command.ts";
import type { CommonOptions } from "../options.ts";
import { OutputFolder, packageName } from "../output-folder.ts";
import { print } from "../print.ts";

interface MergeOptions extends CommonOptions {
  readonly out?: string;
  readonly force?: boolean;
}

/** `tickwright merge`: join the parts of a sweep. */
export function mergeCommand(): Command {
  return newCommand("merge")
    .summary("join the parts of a sweep")
    .description(
      "Joins the parts that sweep --shard made, in any order, into the summary.csv that one sweep " +
        "would have written, byte for byte. Parts that do not belong together, or do not make up the " +
        "whole, are refused.",
    )
    .argument("<folders...>", "folders of all the parts")
    .option("--out <folder>", "folder for the result")
    .option("--force", "replace results that are in the folder given with --out")
    .addHelpText(
      "after",
      `
Examples:
  $ tickwright merge part-1 part-2 --out whole`,
    )
    .action((folders: string[], options: MergeOptions) => merge(folders, options));
}

function merge(folders: readonly string[], options: MergeOptions): void {
  const { out } = options;
  if (out === undefined) throw new UsageError("give the folder for the result with --out");
  const { shards, plan, text } = readShards(folders);
  const folder = new OutputFolder(out, [summaryName, packageName], options.force === true);
  try {
    const { rows, tally } = writeSweep(folder, plan, text, mergedLines(shards, plan));
    const files = [summaryName, packageName].map((name) => join(out, name));
    print(
      options.json
        ? jsonText({
            schema_version: 1,
            runs: rows,
            summary: files[0],
            seed: plan.seed,
            shard: { index: 1, count: 1 },
            groups: sweepGroups(plan, tally),
            warnings: [],
          })
        : printSweep(text.title, plan, rows, tally, files),
    );
  } catch (error) {
    folder.abandon();
    throw error;
  }
}
