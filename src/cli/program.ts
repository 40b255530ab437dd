import type { Command } from "commander";
import { UsageError } from "./failures.ts";
import { leaveSignalsAlone } from "./interrupt.ts";
import { newCommand } from "./new-command.ts";
import { version } from "./version.ts";

/** The commands in the order of the help, each loaded when it is asked for. */
const commands: readonly (readonly [name: string, load: () => Promise<Command>])[] = [
  ["new", async () => (await import("./commands/new.ts")).newScenarioCommand()],
  ["run", async () => (await import("./commands/run.ts")).runCommand()],
  ["check", async () => (await import("./commands/check.ts")).checkCommand()],
  ["plan", async () => (await import("./commands/plan.ts")).planCommand()],
  ["budget", async () => (await import("./commands/budget.ts")).budgetCommand()],
  ["judge", async () => (await import("./commands/judge.ts")).judgeCommand()],
  ["watch", async () => (await import("./commands/watch.ts")).watchCommand()],
  ["compare", async () => (await import("./commands/compare.ts")).compareCommand()],
  ["fit", async () => (await import("./commands/fit.ts")).fitCommand()],
  ["lesson", async () => (await import("./commands/lesson.ts")).lessonCommand()],
  ["sweep", async () => (await import("./commands/sweep.ts")).sweepCommand()],
  ["merge", async () => (await import("./commands/merge.ts")).mergeCommand()],
  ["replay", async () => (await import("./commands/replay.ts")).replayCommand()],
  ["completion", async () => (await import("./commands/completion.ts")).completionCommand()],
];

/** Which of the commands a command line needs: what its first word names, or all, which help and completion list. */
function needed(first: string | undefined): typeof commands {
  if (first === "--version") return [];
  const named = commands.filter(([name]) => name === first && name !== "completion");
  return named.length > 0 ? named : commands;
}

/**
 * The program with the commands that a command line needs.
 *
 * @param argv - command line, as in `process.argv`
 */
export async function createProgram(argv: readonly string[]): Promise<Command> {
  const program = newCommand("")
    .name("tickwright")
    .description(
      "Seeded simulator of clock-drive chains and their timing noise, and the analysis around it: predict how " +
        "long a measurement must last, teach why single periods mislead, make synthetic readings.",
    )
    .version(version, "--version", "print the version");
  const loaded = await Promise.all(needed(argv[2]).map(([, load]) => load()));
  for (const command of loaded) {
    program.addCommand(
      command
        .option("--json", "print the result as JSON")
        .hook("preAction", () => {
          leaveSignalsAlone();
          if (command.opts().out === "") {
            throw new UsageError("--out: must not be empty; give a name, or leave it out");
          }
        })
        .option("--quiet", "no progress and no warnings on stderr; the result is still printed"),
    );
  }
  return program;
}
