import type { Command } from "commander";
import { demoNames } from "./load-scenario.ts";

/** What a shell has to know of one command. */
interface Completable {
  readonly name: string;
  readonly summary: string;
  readonly options: readonly {
    readonly flag: string;
    readonly about: string;
    readonly values: readonly string[];
  }[];
  readonly takesScenario: boolean;
  readonly words: readonly string[];
}

/**
 * A completion script, made by walking the commands and their options.
 *
 * @param shell - bash, zsh or fish
 * @param program - the program
 */
export function completionScript(shell: "bash" | "zsh" | "fish", program: Command): string {
  const commands = program.commands.map(completable);
  switch (shell) {
    case "bash":
      return bash(commands);
    case "zsh":
      return zsh(commands);
    case "fish":
      return fish(commands);
  }
}

function completable(command: Command): Completable {
  const [argument] = command.registeredArguments;
  return {
    name: command.name(),
    summary: command.summary(),
    options: [
      ...command.options.filter(({ hidden }) => !hidden),
      ...[{ long: "--help", description: "show help", argChoices: [] }],
    ].map((option) => ({
      flag: option.long ?? "",
      about: option.description,
      values: option.argChoices ?? [],
    })),
    takesScenario: argument?.name() === "scenario",
    words: argument?.argChoices ?? [],
  };
}

const wordsOf = (command: Completable): string =>
  [...command.words, ...(command.takesScenario ? demoNames() : [])].join(" ");

function bash(commands: readonly Completable[]): string {
  const cases = commands.map((command) => {
    const flags = command.options.map((option) => option.flag).join(" ");
    const values = command.options
      .filter((option) => option.values.length > 0)
      .map(
        (option) =>
          `        ${option.flag}) COMPREPLY=($(compgen -W "${option.values.join(" ")}" -- "$word")); return ;;`,
      );
    return [
      `    ${command.name})`,
      ...(values.length > 0 ? ['      case "$before" in', ...values, "      esac"] : []),
      `      flags="${flags}"; words="${wordsOf(command)}" ;;`,
    ].join("\n");
  });
  return `# bash completion for tickwright
_tickwright() {
  local word=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD-1]}
  local flags="" words=""
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "${commands.map((c) => c.name).join(" ")} --help --version" -- "$word"))
    return
  fi
  case "\${COMP_WORDS[1]}" in
${cases.join("\n")}
  esac
  case "$word" in
    -*) COMPREPLY=($(compgen -W "$flags" -- "$word")) ;;
    *) COMPREPLY=($(compgen -W "$words" -- "$word") $(compgen -f -- "$word")) ;;
  esac
}
complete -o filenames -F _tickwright tickwright
`;
}

/** A word inside single quotes of a POSIX shell. */
const quoted = (text: string): string => `'${text.replace(/\n/g, " ").replace(/'/g, `'\\''`)}'`;

/** Text inside a zsh option description. */
const zshText = (text: string): string => text.replace(/\n/g, " ").replace(/[[\]:\\]/g, "\\$&");

function zsh(commands: readonly Completable[]): string {
  const list = commands.map((c) => `    ${quoted(`${c.name}:${zshText(c.summary)}`)}`).join("\n");
  const cases = commands.map((command) => {
    const options = command.options.map((option) => {
      const values = option.values.length > 0 ? `:value:(${option.values.join(" ")})` : "";
      return `        ${quoted(`*${option.flag}[${zshText(option.about)}]${values}`)}`;
    });
    const words = wordsOf(command);
    const rest =
      words === ""
        ? quoted("*:file:_files")
        : quoted(`*:scenario or file:{ compadd ${words}; _files }`);
    return `      ${command.name})\n      _arguments \\\n${[...options, `        ${rest}`].join(" \\\n")} ;;`;
  });
  return `#compdef tickwright
_tickwright() {
  local -a commands
  commands=(
${list}
  )
  if (( CURRENT == 2 )); then
    _describe command commands
    return
  fi
  local name=$words[2]
  shift words
  (( CURRENT-- ))
  case $name in
${cases.join("\n")}
  esac
}
_tickwright "$@"
`;
}

function fish(commands: readonly Completable[]): string {
  const lines = [
    "# fish completion for tickwright",
    "complete -c tickwright -n __fish_use_subcommand -f",
  ];
  for (const command of commands) {
    lines.push(
      `complete -c tickwright -n __fish_use_subcommand -a ${command.name} -d ${fishQuoted(command.summary)}`,
    );
    const here = `-n '__fish_seen_subcommand_from ${command.name}'`;
    const words = wordsOf(command);
    if (words !== "") lines.push(`complete -c tickwright ${here} -a ${fishQuoted(words)}`);
    for (const option of command.options) {
      const values =
        option.values.length > 0 ? ` -x -a ${fishQuoted(option.values.join(" "))}` : "";
      lines.push(
        `complete -c tickwright ${here} -l ${option.flag.replace(/^--/, "")} -d ${fishQuoted(option.about)}${values}`,
      );
    }
  }
  return `${lines.join("\n")}\n`;
}

/** A word inside single quotes of fish. */
const fishQuoted = (text: string): string =>
  `'${text.replace(/\n/g, " ").replace(/\\/g, "\\\\").replace(/'/g, "\\'")}'`;
