import { Command } from "commander";
import { plainText } from "../chart/plain-text.ts";

/** Whether failures are told as JSON, and commander is to leave the telling of them to the program. */
export const wantsJson = (): boolean => process.argv.includes("--json");

/** A command with the manners of all: near names are suggested, errors point to the help. */
export function newCommand(name: string): Command {
  return new Command(name)
    .exitOverride()
    .showSuggestionAfterError()
    .showHelpAfterError(`(run "tickwright ${name} --help" for the options and examples)`)
    .configureOutput({
      writeErr: (text) => {
        if (!wantsJson()) process.stderr.write(plainText(text));
      },
      outputError: (text, write) => write(`tickwright: ${text.replace(/^error: /, "")}`),
    });
}
