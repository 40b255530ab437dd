import { describe, expect, it } from "vitest";
import { emptyFolder, type Result } from "../cli.ts";
import { commandSamples, sweepSamples } from "./command-samples.ts";
import { fileSamples } from "./file-samples.ts";
import { messageSites } from "./message-sites.ts";
import { type Call, Coverage, runInOneProcess } from "./one-process.ts";
import { readingsSamples } from "./readings-samples.ts";
import { makeFiles, type Sample, wordsOf } from "./sample.ts";
import {
  keySamples,
  overrideSamples,
  senseSamples,
  structureSamples,
  textSamples,
} from "./scenario-samples.ts";
import { warningSamples } from "./warning-samples.ts";

const tables: Readonly<Record<string, readonly Sample[]>> = {
  "texts that are no scenario": textSamples,
  "keys and values": keySamples,
  overrides: overrideSamples,
  "sections that need others": structureSamples,
  "values that make no sense together": senseSamples,
  "readings, and notes about them": readingsSamples,
  "command lines": commandSamples,
  sweeps: sweepSamples,
  "files and folders": fileSamples,
  warnings: warningSamples,
};

/**
 * What only a broken installation, a schema that knows more kinds of checks, a disk that fails, or a folder that takes
 * the place of a file while a run is at work could bring about.
 */
const guards = [
  'cli/output-folder.js: throw new FileError("write", join(this.path, name), cause);',
  "cli/commands/lesson.js: throw new FileError(\"read the page's template",
  'cli/watch/follow.js: follower.fail(new FileError("read", path, cause));',
  'cli/watch/watch-log.js: throw new FileError("write", this.path, cause);',
  "scenario/explain-issue.js: return wrong(issue.message);",
];

const coverage = new Coverage();
const samples = Object.values(tables).flat();
const answers = answersOf(samples);

/** What each sample says, plainly and as JSON; each in a folder of its own. */
function answersOf(all: readonly Sample[]): Map<Sample, { plain: Result; json: Result }> {
  const folders = all.map(() => [emptyFolder(), emptyFolder()]);
  const before: Call[] = [];
  all.forEach((sample, i) => {
    for (const cwd of folders[i]!) {
      makeFiles(cwd, sample);
      for (const line of sample.before ?? []) before.push({ cwd, args: wordsOf(line) });
    }
  });
  for (const { status, stderr } of runInOneProcess(before, coverage))
    if (status !== 0) throw new Error(stderr);
  all.forEach((sample, i) => {
    for (const cwd of folders[i]!) sample.prepare?.(cwd);
  });
  const calls = all.flatMap(({ args, isDiskFull = false, isPlainOnly }, i): Call[] => {
    const words = wordsOf(args).filter((word) => word !== "");
    return folders[i]!.map((cwd, isJson) => ({
      cwd,
      args: isJson && !isPlainOnly ? [...words, "--json"] : words,
      isDiskFull,
    }));
  });
  const results = runInOneProcess(calls, coverage);
  return new Map(all.map((s, i) => [s, { plain: results[2 * i]!, json: results[2 * i + 1]! }]));
}

const named = (table: readonly Sample[]): [string, Sample][] =>
  table.map((sample) => {
    const words = wordsOf(sample.args).join(" ");
    return [words.length > 90 ? `${words.slice(0, 90)}…` : words, sample];
  });

/** Lines put together again that were broken at the edge of the terminal. */
const unwrapped = (text: string) => text.replace(/\n(?:# )? {2,}/g, " ");

describe.each(Object.entries(tables))("%s", (_, table) => {
  it.each(named(table))("%s", (_name, sample) => {
    const { status = 2, says } = sample;
    const { plain, json } = answers.get(sample)!;
    expect([plain.status, json.status]).toEqual([status, status]);
    expect(plain.stderr + json.stderr).not.toMatch(/\n\s+at .*:\d+:\d+|this is a bug/);
    if (status === 0 || status === 1) {
      const { warnings = [], notes = [] } = status === 0 ? JSON.parse(json.stdout) : {};
      const inJson = warnings.map((w: { code: string; path?: string; message: string }) =>
        [w.code, w.path, w.message].filter((part) => part !== undefined).join(" "),
      );
      const told = [
        ...inJson,
        ...notes.map((n: { message: string }) => n.message),
        ...(status === 1 ? [plain.stdout] : []),
      ];
      expect(told).toContainEqual(expect.stringMatching(says));
      // What programs are told, people are told too.
      const message = told
        .find((text) => says.test(text))!
        .replace(/^[a-z_]+ (?=\S+ |all|the)/, "");
      const forPeople = unwrapped(plain.stdout + plain.stderr);
      expect(forPeople.replaceAll(":", "")).toContain(message.replaceAll(":", "").slice(-60));
      return;
    }
    expect([plain.stdout, json.stdout]).toEqual(["", ""]);
    expect(plain.stderr).toMatch(says);
    if (sample.isPlainOnly) return;
    const { schema_version, error, ...rest } = JSON.parse(json.stderr);
    expect([schema_version, error.status, rest]).toEqual([1, status, {}]);
    const lines = error.messages.map((message: string) => `tickwright: ${message}`).join("\n");
    expect(lines).toMatch(says);
    for (const { message, hint } of error.details ?? [])
      expect([typeof message, typeof hint]).toEqual(["string", "string"]);
  });
});

describe("the catalogue", () => {
  it("has a sample of every message in the program", () => {
    const sites = messageSites();
    expect(sites.length).toBeGreaterThan(150);
    const missed = sites.filter(
      ({ path, offset, name }) =>
        !coverage.ran(path, offset) && !guards.some((guard) => name.startsWith(guard)),
    );
    expect(missed.map(({ name }) => name)).toEqual([]);
  });

  it("has a sample of every code of a warning", () => {
    // What is found in a record has codes too, but is no warning.
    const sites = messageSites().filter(
      ({ name }) => !/^(?:judgement\/(?!digit)|log\/|readings\/)/.test(name),
    );
    const codes = sites.flatMap(
      ({ name }) => /(?:\bcode: |report\.warn\()"([a-z_]+)"/.exec(name)?.[1] ?? [],
    );
    const sampled = warningSamples.map(({ says }) => /^\^([a-z_]+) /.exec(says.source)?.[1]);
    expect(new Set(sampled)).toEqual(new Set(codes));
  });
});
