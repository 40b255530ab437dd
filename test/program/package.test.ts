import { execFileSync, spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { emptyFolder } from "./cli.ts";

const root = join(import.meta.dirname, "../..");

describe("the npm package", () => {
  const folder = emptyFolder();
  const home = join(folder, "home");
  let files: string[] = [];

  beforeAll(() => {
    const packed = execFileSync(
      "npm",
      ["pack", "--ignore-scripts", "--json", "--pack-destination", folder],
      {
        cwd: root,
        encoding: "utf8",
      },
    );
    const [{ filename, files: packedFiles }] = JSON.parse(packed);
    files = packedFiles.map((file: { path: string }) => file.path);
    mkdirSync(home);
    writeFileSync(join(home, "package.json"), '{"name":"a-user","private":true,"type":"module"}\n');
    const args = ["install", "--prefer-offline", "--no-audit", "--no-fund", join(folder, filename)];
    execFileSync("npm", args, { cwd: home });
  });

  it("holds what is needed and nothing else", () => {
    const places = new Set(files.map((file) => (file.includes("/") ? file.split("/")[0] : file)));
    expect([...places].sort()).toEqual([
      "LICENSE",
      "README.md",
      "dist",
      "package.json",
      "scenarios",
    ]);
    expect(files).toContain("dist/cli/main.js");
    expect(files).toContain("dist/index.d.ts");
    // Bundles hold all code; the single modules they are made of stay at home.
    expect(files).not.toContain("dist/cli/program.js");
    expect(files.filter((file) => /\.(ts|map)$/.test(file) && !file.endsWith(".d.ts"))).toEqual([]);
  });

  it("runs a demo by its name with npx", () => {
    const { status, stdout } = spawnSync(
      "npx",
      ["tickwright", "run", "observatory", "--readings", "10"],
      {
        cwd: home,
        encoding: "utf8",
      },
    );
    expect(status).toBe(0);
    expect(stdout).toMatch(/wrote out\/observatory-observatory-1\/readings.csv/);
  });

  it.each([
    ["nodenext", "nodenext"],
    ["esnext", "bundler"],
  ])("is imported with types, module %s, as README shows", (module, resolution) => {
    const readme = readFileSync(join(root, "README.md"), "utf8");
    const example = /^```ts\n(.*?)^```$/ms.exec(readme)![1]!;
    const folder = join(home, "node_modules/tickwright/scenarios");
    writeFileSync(join(home, "use.ts"), example.replace('"scenarios', `"${folder}`));
    const tsc = join(root, "node_modules/.bin/tsc");
    const flags = ["--strict", "--module", module, "--moduleResolution", resolution];
    const types = ["--types", "node", "--typeRoots", join(root, "node_modules/@types")];
    execFileSync(tsc, [...flags, "--target", "es2023", ...types, "use.ts"], { cwd: home });
    const output = execFileSync(process.execPath, ["use.js"], { cwd: home, encoding: "utf8" });
    const lines = output.trim().split(/\n(?! )/);
    // Jitter of 1 ms on 1 s: the median is off by less than 1e-3 at any of the seeds.
    for (const line of lines.slice(0, 3))
      expect(Math.abs(Number(line.split(" ")[1]))).toBeLessThan(1e-3);
    // 2 s over the mean of the six: T/P − 1, in seconds a day.
    const mean = (2.000121 + 2.000468 + 2.000312 + 2.000087 + 2.000254 + 2.000391) / 6;
    expect(Number(lines[3]!.split(" ")[1])).toBeCloseTo((2 / mean - 1) * 86400, 6);
    // The third line of the log holds two cycles.
    expect(lines[7]).toBe("missed_edge 3");
    // White PM of 1 ms rms at either end of a reading of one second: √2 of it.
    expect(Number(/^reference white PM (\S+)$/.exec(lines[8]!)![1])).toBeCloseTo(
      Math.SQRT2 * 1e-3,
      5,
    );
    expect(lines.at(-2)).toMatch(/^stamped_ticks_line \d/);
    // Drift of 2 a step: D·τ/√2.
    expect(lines.at(-1)).toBe(String(Math.SQRT2));
  });

  it("gives names to all that its functions take and hand over", () => {
    writeFileSync(
      join(home, "names.ts"),
      `import type * as t from "tickwright";
import { mark, outcome } from "tickwright";
export const sinks: t.Sinks = {
  reading: (r: t.Reading) => console.log(r.marks & mark.missedEdge, r.start.toSeconds()),
  tick: (n, x, edge: t.Edge) => console.log(n, x, edge.instant.toSeconds()),
  burst: (n, start, delay, code) => console.log(n, start, delay, code === outcome.missed),
};
export type All = [t.AccuracyPlan, t.Budget, t.Complaint, t.Contribution, t.EstimateTruth, t.GapRule, t.Instant, t.JudgeOptions,
  t.Judgement, t.LengthPlan, t.MadeReadings, t.LogOptions, t.Prediction, t.RateOptions, t.ReadingKind, t.RunLength,
  t.Strategy, t.RecordColumns, t.RunRequest, t.SlipCause];
`,
    );
    const tsc = join(root, "node_modules/.bin/tsc");
    const flags = ["--strict", "--noEmit", "--module", "nodenext", "--target", "es2023"];
    const types = ["--types", "node", "--typeRoots", join(root, "node_modules/@types")];
    execFileSync(tsc, [...flags, ...types, "names.ts"], { cwd: home });
  });

  it("names the licence of everything it depends on at run time", () => {
    const { dependencies } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
    for (const name of Object.keys(dependencies)) {
      const manifest = JSON.parse(
        readFileSync(join(root, "node_modules", name, "package.json"), "utf8"),
      );
      expect(["MIT", "ISC", "BSD-3-Clause"]).toContain(manifest.license);
    }
  });
});
