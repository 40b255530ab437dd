import { Argument, type Command } from "commander";
import { jsonText } from "../../view/table/index.ts";
import { completionScript } from "../completion-script.ts";
import { examples, newCommand } from "../new-command.ts";
import { withChoices } from "../options.ts";
import { print } from "../print.ts";

/** `tickwright completion`: a completion script for a shell, made from the commands themselves. */
export function completionCommand(): Command {
  const command = newCommand("completion")
    .summary("print a shell completion script")
    .description("Prints a script that completes commands, options and demo names in a shell.")
    .addArgument(withChoices(new Argument("<shell>", "the shell"), ["bash", "zsh", "fish"]))
    .addHelpText(
      "after",
      examples(
        "tickwright completion bash > ~/.local/share/bash-completion/completions/tickwright",
        "tickwright completion zsh > ~/.zfunc/_tickwright",
        "tickwright completion fish > ~/.config/fish/completions/tickwright.fish",
      ),
    )
    .action((shell: "bash" | "zsh" | "fish", options: { readonly json?: boolean }) => {
      const script = completionScript(shell, command.parent!);
      print(options.json ? jsonText({ schema_version: 1, shell, script }) : script);
    });
  return command;
}
