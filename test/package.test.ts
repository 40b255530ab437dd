import { execFileSync, spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { emptyFolder } from "./cli/cli.ts";

const root = join(import.meta.dirname, "..");

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
  }, 300_000);

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

  it("is imported as a module, with types", () => {
    writeFileSync(
      join(home, "use.ts"),
      `import { overlappingAllanDeviation, parseScenario, settleRun, Simulation } from "tickwright";
const text = "length_s: 50\\nclock: {tick_hz: 1}\\nreference: {nominal_hz: 10e6}\\ncounter: {gate_s: 5}\\n";
const { scenario } = parseScenario(text, "inline");
const request = { seed: "1", length: null, readings: null, recording: null, wantsTicks: false, wantsBursts: false };
const { options } = settleRun(scenario, request);
let readings: number = 0;
const simulation = new Simulation(scenario, options, { reading: (r) => { readings += r.cycles > 0 ? 1 : 0; } });
simulation.run();
const deviation: number = overlappingAllanDeviation(Float64Array.from({ length: 9 }, (_, i) => i * i), 1, 1);
console.log(readings, deviation);
`,
    );
    const tsc = join(root, "node_modules/.bin/tsc");
    const flags = ["--strict", "--module", "nodenext", "--target", "es2023", "--skipLibCheck"];
    const types = ["--types", "node", "--typeRoots", join(root, "node_modules/@types")];
    execFileSync(tsc, [...flags, ...types, "use.ts"], { cwd: home });
    const output = execFileSync(process.execPath, ["use.js"], { cwd: home, encoding: "utf8" });
    // Drift of 2 a step: D·τ/√2.
    expect(output.trim()).toBe(`9 ${Math.SQRT2}`);
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
