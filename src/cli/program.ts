import type { Command } from "commander";
import { budgetCommand } from "./commands/budget.ts";
import { checkCommand } from "./commands/check.ts";
import { completionCommand } from "./commands/completion.ts";
import { fitCommand } from "./commands/fit.ts";
import { judgeCommand } from "./commands/judge.ts";
import { lessonCommand } from "./commands/lesson.ts";
import { mergeCommand } from "./commands/merge.ts";
import { planCommand } from "./commands/plan.ts";
import { replayCommand } from "./commands/replay.ts";
import { runCommand } from "./commands/run.ts";
import { sweepCommand } from "./commands/sweep.ts";
import { newCommand } from "./new-command.ts";
import { version } from "./version.ts";

/** The program with all its commands. */
export function createProgram(): Command {
  const program = newCommand("")
    .name("tickwright")
    .description(
      "Seeded simulator of clock-drive chains with jitter, and the analysis around it: predict how " +
        "long a measurement must last, teach why single periods mislead, make synthetic readings.",
    )
    .version(version, "--version", "print the version");
  const commands = [
    runCommand(),
    checkCommand(),
    planCommand(),
    budgetCommand(),
    judgeCommand(),
    fitCommand(),
    lessonCommand(),
    sweepCommand(),
    mergeCommand(),
    replayCommand(),
    completionCommand(),
  ];
  for (const command of commands) {
    program.addCommand(
      command
        .option("--json", "print the result as JSON")
        .option("--quiet", "show no progress and no warnings"),
    );
  }
  return program;
}
