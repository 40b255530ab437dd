import { execFileSync, spawnSync } from "node:child_process";
import { cpSync, readdirSync, readFileSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { emptyFolder } from "../../program/cli.ts";

/**
 * The worked examples of DEVELOPERS.md are patches of this folder. They are laid over a copy of the program, which
 * must then pass the type check and the tests that the patches bring.
 *
 * Where one no longer applies: `git apply --reject test/prove/examples/NAME.patch`, mend by hand, store
 * `git diff -U1` again, and take the change back.
 */
const root = join(import.meta.dirname, "../../..");
const patches = readdirSync(import.meta.dirname).filter((name) => name.endsWith(".patch"));
const textOf = (name: string) => readFileSync(join(import.meta.dirname, name), "utf8");

/** Test files that a patch makes anew. */
const testsOf = (patch: string) =>
  [...patch.matchAll(/^--- \/dev\/null\n\+\+\+ b\/(test\/\S+\.test\.ts)$/gm)].map((m) => m[1]!);

describe("the worked examples", () => {
  const copy = emptyFolder();
  const node = (...args: string[]) => {
    const { status, stdout, stderr } = spawnSync(process.execPath, args, {
      cwd: copy,
      encoding: "utf8",
      env: { PATH: process.env.PATH, NO_COLOR: "1" },
    });
    return { status, said: status === 0 ? "" : stdout + stderr };
  };

  beforeAll(() => {
    for (const name of ["src", "test", "scenarios", "package.json", "tsconfig.json"]) {
      cpSync(join(root, name), join(copy, name), { recursive: true });
    }
    symlinkSync(join(root, "node_modules"), join(copy, "node_modules"));
  });

  it.each(patches)("can be applied: %s", (name) => {
    execFileSync("git", ["apply", "-C1", join(import.meta.dirname, name)], { cwd: copy });
    expect(testsOf(textOf(name))).toHaveLength(1);
  });

  it("pass the type check, all at once", () => {
    const tsc = "node_modules/typescript/bin/tsc";
    expect(node(tsc, "-p", "tsconfig.json", "--noEmit")).toEqual({ status: 0, said: "" });
    expect(node(tsc, "-p", "test/tsconfig.json")).toEqual({ status: 0, said: "" });
  });

  it("pass their own tests and that of the rooms", () => {
    const tests = [
      ...patches.flatMap((name) => testsOf(textOf(name))),
      "test/architecture.test.ts",
    ];
    const vitest = ["node_modules/vitest/vitest.mjs", "run", "--dir", "test"];
    expect(node(...vitest, "--testTimeout=900000", ...tests)).toEqual({ status: 0, said: "" });
  });
});

describe("DEVELOPERS.md", () => {
  it("leads to every example", () => {
    const developers = readFileSync(join(root, "DEVELOPERS.md"), "utf8");
    for (const name of patches) expect(developers).toContain(`test/prove/examples/${name}`);
  });
});
