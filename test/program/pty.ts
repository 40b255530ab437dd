import { type ChildProcess, spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { main } from "./cli.ts";

/** Whether what makes pseudo-terminals is there: `script` of util-linux, and socat. */
export const hasTerminals = existsSync("/usr/bin/script") && existsSync("/usr/bin/socat");

const quoted = (word: string) => `'${word.replaceAll("'", "'\\''")}'`;

/** Starts the built program on a terminal, on which one types what is written to its standard input. */
export function onTerminal(args: readonly string[], cwd: string, columns = 80): ChildProcess {
  const command = [process.execPath, main, ...args].map(quoted).join(" ");
  return spawn(
    "script",
    [
      "--quiet",
      "--return",
      "--command",
      `stty cols ${columns} rows 24; exec ${command}`,
      "/dev/null",
    ],
    {
      cwd,
      env: { PATH: process.env.PATH ?? "", TERM: "xterm", NO_COLOR: "1" },
      stdio: "pipe",
    },
  );
}

/** A serial line: what is written to the returned process comes out of the device `line` in the folder. */
export async function serialLine(cwd: string): Promise<ChildProcess> {
  const made = spawn("socat", ["-u", "-", "pty,raw,echo=0,link=line,wait-slave"], {
    cwd,
    stdio: ["pipe", "ignore", "ignore"],
  });
  while (!existsSync(`${cwd}/line`)) await new Promise((resolve) => setTimeout(resolve, 10));
  return made;
}

/** What a terminal shows at the end: ECMA-48 cursor up, erase below, and the ends of lines. */
export function screenOf(text: string): string[] {
  const lines: string[] = [""];
  let at = 0;
  const commands = new RegExp(`(\n|${String.fromCharCode(27)}\\[\\d*[AJ])`);
  for (const part of text.replaceAll("\r", "").split(commands)) {
    const isCommand = part.startsWith("\u001b");
    if (part === "\n") {
      at++;
      lines[at] ??= "";
    } else if (isCommand && part.endsWith("A")) at = Math.max(0, at - Number(part.slice(2, -1)));
    else if (isCommand) lines.splice(at, lines.length, "");
    else lines[at] = (lines[at] ?? "") + part;
  }
  return lines;
}
