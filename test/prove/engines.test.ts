import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, main, tickwright } from "../program/cli.ts";

/** Other versions of Node, installed by `.ci/run` from the npm packages that carry their binaries. */
const engines = ["node22", "node24"].map((name) => ({
  name,
  path: join(import.meta.dirname, `../../.engines/node_modules/${name}/bin/node`),
}));

const demos = [
  "observatory",
  "observatory-own-oscillator",
  "synthesizer-direct",
  "reference-direct",
  "harbour-tide-gauge",
  "station-dial",
  "school-laboratory",
];

const digest = (node: string, demo: string): string => {
  const { stdout, stderr, status } = spawnSync(node, [main, "run", demo, "--out", "-"], {
    maxBuffer: 1 << 28,
  });
  expect({ status, stderr: String(stderr) }).toEqual({ status: 0, stderr: "" });
  return createHash("sha256").update(stdout).digest("hex");
};

/** What commands that read say about the readings of a demo, and those that plan about the demo itself. */
const said = (node: string, demo: string, cwd: string): Record<string, string> =>
  Object.fromEntries(
    [
      `judge ${demo}/readings.csv --json --within 1e-10 --ahead 30d`,
      `fit ${demo}/readings.csv --json`,
      `check ${demo} --json`,
      `plan ${demo} --length 6h --json`,
      `budget ${demo} --json`,
      `sweep ${demo} --seeds 2 --length 4000 --workers 1 --json --force --out sweep`,
    ].map((words) => {
      const { stdout, stderr } = spawnSync(node, [main, ...words.split(" ")], { cwd });
      return [words, String(stdout) + String(stderr)];
    }),
  );

describe("readings on other versions of Node", () => {
  for (const { name, path } of engines) {
    const isMissing = !existsSync(path);
    if (isMissing && process.env.CI === undefined) {
      it.skip(`${name}: not installed; .ci/run shows how`, () => {});
      continue;
    }
    it.each(demos)(`${name} gives the same bytes for %s`, (demo) => {
      expect(digest(path, demo)).toBe(digest(process.execPath, demo));
    });

    it.each(["harbour-tide-gauge", "observatory"])(
      `${name} says the same to the last digit about %s`,
      (demo) => {
        const cwd = emptyFolder();
        const run = ["run", demo, "--out", demo, "--quiet"];
        expect(tickwright(run, { cwd }).status).toBe(0);
        expect(said(path, demo, cwd)).toEqual(said(process.execPath, demo, cwd));
      },
    );
  }
});
