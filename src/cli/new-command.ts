import { Command } from "commander";
import { plainText } from "../view/chart/index.ts";
import { print } from "./print.ts";

/** Whether failures are told as JSON, and commander is to leave the telling of them to the program. */
export const wantsJson = (): boolean => process.argv.includes("--json");

/**
 * A command with the manners of all: near names are suggested, errors point to the help.
 *
 * @param name - of the command; empty for the program itself
 */
export function newCommand(name: string): Command {
  const help = ["tickwright", name, "--help"].filter((word) => word !== "").join(" ");
  return new Command(name)
    .exitOverride()
    .showSuggestionAfterError()
    .showHelpAfterError(
      `(run "${help}" for ${name === "" ? "the commands" : "the options and examples"})`,
    )
    .configureOutput({
      writeOut: print,
      writeErr: (text) => {
        if (!wantsJson()) process.stderr.write(plainText(text));
      },
      outputError: (text, write) => write(`tickwright: ${text.replace(/^error: /, "")}`),
    });
}

/** The end of a command's help: command lines that a test runs. */
export const examples = (...lines: readonly string[]): string =>
  `\nExamples:\n${lines.map((line) => `  $ ${line}`).join("\n")}`;
