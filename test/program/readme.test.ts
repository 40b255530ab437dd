import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { emptyFolder, main } from "./cli.ts";

/**
 * Runs every `console` block of README.md in one folder, from top to bottom, and compares what it shows.
 * `UPDATE_README=1 npm run vitest -- test/program/readme.test.ts` writes what the commands print into it.
 */
const path = join(import.meta.dirname, "../../README.md");
const readme = readFileSync(path, "utf8");
const block = /```console\n([\s\S]*?)```/g;
const examples = [...readme.matchAll(block)].map((match) => match[1]!);

const run = (command: string, cwd: string) =>
  spawnSync("bash", ["-c", command], {
    cwd,
    encoding: "utf8",
    env: { PATH: `${cwd}/bin:${process.env.PATH}`, HOME: cwd, NO_COLOR: "1", COLUMNS: "80" },
  });

describe("README.md", () => {
  const cwd = emptyFolder();
  const printed: string[] = [];

  beforeAll(() => {
    mkdirSync(join(cwd, "bin"));
    const script = `#!/bin/sh\nexec ${process.execPath} ${main} "$@"\n`;
    writeFileSync(join(cwd, "bin/tickwright"), script, { mode: 0o755 });
    symlinkSync(join(import.meta.dirname, "../../scenarios"), join(cwd, "scenarios"));
  });

  it("opens with one paragraph that states the job", () => {
    const [title, paragraph] = readme.split("\n\n");
    expect(title).toBe("# tickwright");
    expect(paragraph).toMatch(/^An old electric clock [\s\S]*checked against it\.$/);
  });

  it("names scripts that there are", () => {
    const { scripts } = JSON.parse(
      readFileSync(join(import.meta.dirname, "../../package.json"), "utf8"),
    );
    expect(readme).toContain("npm ci && npm start");
    expect(readme).toContain("npm ci && npm test");
    for (const name of ["start", "test"]) expect(scripts[name]).toBeTypeOf("string");
  });

  it.each(examples.map((text, i) => ({ i, text, command: text.split("\n")[0]!.slice(2) })))(
    "shows what is printed by: $command",
    ({ i, text, command }) => {
      expect(text.startsWith("$ ")).toBe(true);
      const { status, stdout, stderr } = run(command, cwd);
      expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
      printed[i] = `$ ${command}\n${stdout}`;
      if (process.env.UPDATE_README === undefined) expect(printed[i]).toBe(text);
    },
  );

  it("shows the picture that the demo draws", () => {
    const { status } = run("tickwright run observatory --plot --out picture", cwd);
    expect(status).toBe(0);
    const drawn = readFileSync(join(cwd, "picture/readings.svg"), "utf8");
    const shown = join(import.meta.dirname, "../../scenarios/observatory.svg");
    if (process.env.UPDATE_README !== undefined) writeFileSync(shown, drawn);
    expect(readFileSync(shown, "utf8")).toBe(drawn);
  });

  it.runIf(process.env.UPDATE_README !== undefined)("is brought up to date", () => {
    let i = 0;
    const example = () => printed[i] ?? examples[i]!;
    writeFileSync(
      path,
      readme.replace(block, () => {
        const text = example();
        i++;
        return `\`\`\`console\n${text}\`\`\``;
      }),
    );
  });
});
