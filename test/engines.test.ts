import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { main } from "./cli/cli.ts";

/** Other versions of Node, installed by `.ci/run` from the npm packages that carry their binaries. */
const engines = ["node22", "node24"].map((name) => ({
  name,
  path: join(import.meta.dirname, `../.engines/node_modules/${name}/bin/node`),
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
  }
});
