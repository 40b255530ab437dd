import type { Command } from "commander";
import type { Report } from "../view/report/index.ts";
import { reportPage } from "../view/report/index.ts";
import { writeFile } from "./output-folder.ts";
import { created } from "./provenance.ts";
import { version } from "./version.ts";

/** Options of `withReportOptions`, as commander hands them over. */
export interface ReportOptions {
  readonly report?: string;
  readonly by?: string;
  readonly instrument?: string;
  readonly force?: boolean;
}

/** Adds the options of a command that writes a report. */
export function withReportOptions(command: Command): Command {
  return command
    .option("--report <file>", "one page to mail or print (HTML)")
    .option("--by <name>", "who measured, for the report")
    .option("--instrument <name>", "what was measured with, for the report");
}

/** A command line as a shell takes it. */
const asTyped = (words: readonly string[]): string =>
  words
    .map((word) => (/^[\w@%+=:,./-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`))
    .join(" ");

/** Writes a report where one is asked for; its path by the name that JSON has for it. */
export function writeReport(
  { report: path, by, instrument, force }: ReportOptions,
  make: () => Omit<Report, "command" | "version" | "created" | "by" | "instrument">,
): { readonly report?: string } {
  if (path === undefined) return {};
  const command = asTyped(["tickwright", ...process.argv.slice(2)]);
  const text = reportPage({ ...make(), command, version, created: created(), by, instrument });
  writeFile(path, text, force === true);
  return { report: path };
}
