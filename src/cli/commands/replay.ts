import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Command } from "commander";
import { parseScenario } from "../../scenario/index.ts";
import { plainText } from "../../view/chart/index.ts";
import { jsonText } from "../../view/table/index.ts";
import { exitCode } from "../exit-code.ts";
import { DataError, FileError } from "../failures.ts";
import { watchSignals } from "../interrupt.ts";
import { examples, newCommand } from "../new-command.ts";
import type { CommonOptions } from "../options.ts";
import { packageName } from "../output-folder.ts";
import { print } from "../print.ts";
import { progress } from "../progress.ts";
import { readProvenance } from "../read-provenance.ts";
import { truthOf } from "../run-summary.ts";
import { simulate } from "../simulate.ts";
import { styled } from "../style.ts";
import { textSink } from "../text-sink.ts";
import { version } from "../version.ts";

/** `tickwright replay`: run again from the recorded provenance and compare digests. */
export function replayCommand(): Command {
  return newCommand("replay")
    .summary("run again from the recorded provenance and compare digests")
    .description(
      "Runs again what datapackage.json in a folder of results says was run, and compares the " +
        "truth and the digests of the tables with those recorded, and with the files themselves.",
    )
    .argument("<folder>", "a folder written by run")
    .addHelpText(
      "after",
      examples("tickwright run school-laboratory --out out/lesson", "tickwright replay out/lesson"),
    )
    .action(replay);
}

async function replay(folder: string, options: CommonOptions): Promise<void> {
  const provenance = readProvenance(join(folder, packageName));
  if (provenance.was_interrupted) {
    throw new DataError(
      `${folder}: the run was interrupted, so it cannot be repeated to its last row; run it again to its end`,
    );
  }
  const { scenario } = parseScenario(
    JSON.stringify(provenance.scenario),
    join(folder, packageName),
  );
  const names = Object.keys(provenance.digests);
  watchSignals();
  const outcome = await simulate(
    scenario,
    {
      seed: provenance.seed,
      length: provenance.length_s,
      endsAtLength: provenance.ends_at_length,
      readings: provenance.readings_wanted,
      recording: provenance.recording,
    },
    {
      readings: textSink(null),
      ticks: names.includes("ticks.csv") ? textSink(null) : null,
      log: names.includes("log.txt") ? textSink(null) : null,
      bursts: names.includes("bursts.csv") ? textSink(null) : null,
    },
    progress("replaying", options.quiet === true),
  );
  if (outcome.wasInterrupted) {
    process.exitCode = exitCode.interrupted;
    return;
  }
  const files = names.map((path) => {
    const recorded = provenance.digests[path]!;
    const again = outcome.written[path.replace(/\.(?:csv|txt)$/, "")]?.sha256 ?? null;
    const onDisk = digestOf(join(folder, path));
    return {
      path,
      recorded,
      again,
      on_disk: onDisk,
      same: again === recorded && onDisk === recorded,
    };
  });
  const truth = JSON.stringify(truthOf(scenario, outcome));
  const isTrue = JSON.stringify(provenance.truth) === truth;
  const isSame = files.every((file) => file.same) && provenance.isSealed && isTrue;
  if (options.json) {
    print(
      jsonText({
        schema_version: 1,
        same: isSame,
        version,
        recorded_version: provenance.version,
        files,
        descriptor_same: provenance.isSealed,
        truth_same: isTrue,
      }),
    );
  } else {
    const same = styled("green", "the same");
    for (const file of files) {
      const verdict = file.same
        ? same
        : file.again !== file.recorded
          ? styled("red", "DIFFERS: run again it comes out otherwise")
          : styled("red", "DIFFERS: the file on disk is not the one that was written");
      print(`${file.path}: ${verdict}\n`);
    }
    print(`truth: ${isTrue ? same : styled("red", "DIFFERS: run again another comes out")}\n`);
    const changed = styled("red", "DIFFERS: it was changed since it was written");
    print(`${packageName}: ${provenance.isSealed ? same : changed}\n`);
    if (!isSame && provenance.version !== version) {
      print(plainText(`It was written by version ${provenance.version}; this is ${version}.\n`));
    }
  }
  if (!isSame) process.exitCode = exitCode.differs;
}

function digestOf(path: string): string {
  const sink = textSink(null);
  try {
    sink.write(readFileSync(path, "utf8"));
  } catch (cause) {
    throw new FileError("read", path, cause);
  }
  return sink.close().sha256;
}
