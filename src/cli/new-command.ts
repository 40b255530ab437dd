import { Command } from "commander";

/** A command with the manners of all: near names are suggested, errors point to the help. */
export function newCommand(name: string): Command {
  return new Command(name)
    .exitOverride()
    .showSuggestionAfterError()
    .showHelpAfterError(`(run "tickwright ${name} --help" for the options and examples)`)
    .configureOutput({ outputError: (text, write) => write(`tickwright: ${text}`) });
}
