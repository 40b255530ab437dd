import { join } from "node:path";
import type { Command } from "commander";
import { mergedLines, readShards } from "../ensemble/merge-shards.ts";
import { tellSweep } from "../ensemble/print-sweep.ts";
import { summaryName } from "../ensemble/sweep-folder.ts";
import { writeSweep } from "../ensemble/write-sweep.ts";
import { UsageError } from "../failures.ts";
import { examples, newCommand } from "../new-command.ts";
import type { CommonOptions } from "../options.ts";
import { inFolder, packageName } from "../output-folder.ts";

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
    .addHelpText("after", examples("tickwright merge part-1 part-2 --out whole"))
    .action((folders: string[], options: MergeOptions) => merge(folders, options));
}

function merge(folders: readonly string[], options: MergeOptions): void {
  const { out } = options;
  if (out === undefined) throw new UsageError("give the folder for the result with --out");
  const { shards, plan, text } = readShards(folders);
  const names = [summaryName, packageName];
  const written = inFolder(out, names, options.force === true, (folder) =>
    writeSweep(folder, plan, text, mergedLines(shards, plan)),
  );
  const files = names.map((name) => join(out, name));
  const { title } = text;
  tellSweep({ title, plan, ...written, summary: files[0]!, files, warnings: [] }, options.json);
}
