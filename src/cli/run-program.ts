import { CommanderError } from "commander";
import { InputError } from "../readings/index.ts";
import { complaintText, ScenarioError } from "../scenario/index.ts";
import { plainText } from "../view/chart/index.ts";
import { exitCode } from "./exit-code.ts";
import { DataError, FileError, UsageError } from "./failures.ts";
import { wantsJson } from "./new-command.ts";
import { print } from "./print.ts";
import { createProgram } from "./program.ts";
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
 * @param argv - command line, as in `process.argv`
 * @returns the exit status; a command sets it by `process.exitCode`, 0 otherwise
 */
export async function runProgram(argv: readonly string[]): Promise<number> {
  // What stderr refuses can be said nowhere.
  process.stderr.on("error", () => {});
  try {
    if (wantsJson() && argv.length === 4 && argv.includes("--version")) {
      const { node, v8 } = process.versions;
      const platform = `${process.platform} ${process.arch}`;
      const versions = { schema_version: 1, package: version, node, v8, platform };
      print(`${JSON.stringify(versions)}\n`);
      return exitCode.done;
    }
    const program = await createProgram(argv);
    await program.parseAsync([...argv]);
    return Number(process.exitCode ?? exitCode.done);
  } catch (error) {
    if (error instanceof CommanderError) {
      // Commander has said it already; help and version are no failures.
      if (error.exitCode === 0) return exitCode.done;
      if (!wantsJson()) return exitCode.invalid;
    }
    const failure = explain(error);
    tell(failure);
    return failure.status;
  }
}

function tell({ status, messages, details }: Failure): void {
  if (wantsJson()) {
    const error = { status, messages, ...(details ? { details } : {}) };
    process.stderr.write(`${JSON.stringify({ schema_version: 1, error })}\n`);
  } else {
    for (const message of messages) process.stderr.write(`tickwright: ${plainText(message)}\n`);
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
