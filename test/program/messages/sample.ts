import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";

/** A command line that has something to complain of, and what it must say. */
export interface Sample {
  /** The command line; a text is cut at its blanks. */
  readonly args: string | readonly string[];
  /** Files in the folder it is given in. */
  readonly files?: Readonly<Record<string, string | Uint8Array>>;
  /** Command lines given before. */
  readonly before?: readonly string[];
  /** What happens to the folder between those and this one. */
  readonly prepare?: (cwd: string) => void;
  readonly isDiskFull?: boolean;
  /** Whether it is not tried with `--json`, where that is another command line altogether. */
  readonly isPlainOnly?: boolean;
  /** Exit status: 2 by default. */
  readonly status?: number;
  /** What is said: what, where, what to do. For a warning, its code stands before it: `few_readings leaves room …`. */
  readonly says: RegExp;
}

/** The words of a command line. */
export const wordsOf = (args: string | readonly string[]): readonly string[] =>
  typeof args === "string" ? args.split(" ") : args;

/** Makes a sample's files. */
export function makeFiles(cwd: string, { files = {} }: Sample): void {
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(dirname(join(cwd, name)), { recursive: true });
    writeFileSync(join(cwd, name), text);
  }
}
