import { type Command, CommanderError } from "commander";
import { InputError } from "../analysis/readings/input-error.ts";
import { plainText } from "../chart/plain-text.ts";
import { complaintText, ScenarioError } from "../scenario/scenario-error.ts";
import { exitCode } from "./exit-code.ts";
import { DataError, FileError, UsageError } from "./failures.ts";
import { wantsJson } from "./new-command.ts";
import { version } from "./version.ts";

/** One thing that went wrong, for `--json`. */
interface Failure {
  readonly status: number;
  readonly messages: readonly string[];
  readonly details?: unknown;
}

/**
 * Runs the program and maps whatever goes wrong to a message on stderr and an exit status.
 *
 * @param program - the commands
 * @param argv - command line, as in `process.argv`
 * @returns the exit status; a command sets it by `process.exitCode`, 0 otherwise
 */
export async function runProgram(program: Command, argv: readonly string[]): Promise<number> {
  // A reader that went away (`| head`) is told of at the write that failed, or not at all.
  for (const stream of [process.stdout, process.stderr]) {
    stream.on("error", (error: NodeJS.ErrnoException) => {
      if (error.code !== "EPIPE") throw error;
      process.exitCode = exitCode.file;
    });
  }
  if (wantsJson() && argv.length === 4 && argv.includes("--version")) {
    const { node, v8 } = process.versions;
    const platform = `${process.platform} ${process.arch}`;
    const versions = { schema_version: 1, package: version, node, v8, platform };
    process.stdout.write(`${JSON.stringify(versions)}\n`);
    return exitCode.done;
  }
  try {
    await program.parseAsync([...argv]);
    return Number(process.exitCode ?? exitCode.done);
  } catch (error) {
    if (error instanceof CommanderError) {
      // Commander has said it already; help and version are no failures.
      if (error.exitCode === 0) return exitCode.done;
      if (!wantsJson()) return exitCode.invalid;
    }
    const failure = explain(error);
    if (wantsJson()) {
      const { status, messages, details } = failure;
      const report = {
        schema_version: 1,
        error: { status, messages, ...(details ? { details } : {}) },
      };
      process.stderr.write(`${JSON.stringify(report)}\n`);
    } else {
      for (const message of failure.messages) {
        process.stderr.write(`tickwright: ${plainText(message)}\n`);
      }
    }
    return failure.status;
  }
}

function explain(error: unknown): Failure {
  if (error instanceof ScenarioError) {
    const { complaints } = error;
    return {
      status: exitCode.invalid,
      messages: complaints.map(complaintText),
      details: complaints,
    };
  }
  if (error instanceof CommanderError) {
    const message = error.message
      .replace(/^error: /, "")
      .replace("(outputHelp)", "a command is missing");
    return { status: exitCode.invalid, messages: [message] };
  }
  if (error instanceof UsageError || error instanceof DataError || error instanceof InputError) {
    return { status: exitCode.invalid, messages: [error.message] };
  }
  if (error instanceof FileError) return { status: exitCode.file, messages: [error.message] };
  const text = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return { status: exitCode.defect, messages: [`this is a bug; please report it\n${text}`] };
}
