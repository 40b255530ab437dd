import { spawnSync } from "node:child_process";
import { copyFileSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { emptyFolder, main, tickwright } from "./cli.ts";

const commands = [...tickwright(["--help"]).stdout.matchAll(/^ {2}(\w+) (?:\[options\] )?.*$/gm)]
  .map((match) => match[1]!)
  .filter((name) => name !== "help");

const examplesOf = (command: string): string[] => {
  const { stdout } = tickwright([command, "--help"]);
  const [, examples = ""] = stdout.split("Examples:\n");
  return [...examples.matchAll(/^ {2}\$ (.*)$/gm)].map((match) => match[1]!);
};

describe("--help", () => {
  const cwd = emptyFolder();
  const bin = join(cwd, "bin");

  beforeAll(() => {
    mkdirSync(bin);
    writeFileSync(join(bin, "tickwright"), `#!/bin/sh\nexec ${process.execPath} ${main} "$@"\n`, {
      mode: 0o755,
    });
    const demos = join(import.meta.dirname, "../../scenarios");
    copyFileSync(join(demos, "observatory.yaml"), join(cwd, "my-clock.yaml"));
    symlinkSync(demos, join(cwd, "scenarios"));
    // A counter's log of ten-second readings of a one-second tick: invented.
    const readings = Array.from({ length: 40 }, (_, i) => (1 + 1e-6 * Math.sin(i * 7)).toFixed(9));
    writeFileSync(join(cwd, "my-counter.txt"), `${readings.join("\n")}\n`);
    for (const folder of [
      ".local/share/bash-completion/completions",
      ".zfunc",
      ".config/fish/completions",
    ]) {
      mkdirSync(join(cwd, folder), { recursive: true });
    }
  });

  it("lists the commands", () => {
    expect(commands).toContain("run");
    expect(commands.length).toBeGreaterThan(4);
  });

  it.each(commands)(
    "of %s is filled evenly: no line ends where another word would fit",
    (command) => {
      const [, description = ""] = tickwright([command, "--help"]).stdout.split("\n\n");
      const lines = description.split("\n");
      lines.slice(1).forEach((line, i) => {
        const word = line.split(" ")[0]!;
        expect(lines[i]!.length + 1 + word.length, lines[i]).toBeGreaterThan(80);
      });
    },
  );

  it.each(commands)("of %s fits 80 columns and ends with examples", (command) => {
    const { status, stdout } = tickwright([command, "--help"], { env: { COLUMNS: "80" } });
    expect(status).toBe(0);
    const [help, examples] = stdout.split("Examples:\n");
    expect(examples).toMatch(/^ {2}\$ tickwright /);
    for (const line of help!.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it.each(commands.flatMap((command) => examplesOf(command)))(
    "has an example that works: %s",
    (example) => {
      const { status, stderr } = spawnSync("bash", ["-c", example], {
        cwd,
        encoding: "utf8",
        env: { PATH: `${bin}:${process.env.PATH}`, HOME: cwd, NO_COLOR: "1" },
      });
      // What watch says beside its lines goes to stderr.
      if (/tickwright watch\b/.test(example)) return void expect(status).toBe(0);
      expect({ status, stderr: stderr.replace(/^warning: .*\n(?: {2}.*\n)*/gm, "") }).toEqual({
        status: 0,
        stderr: "",
      });
    },
  );
});

describe("an option", () => {
  it.each(commands)("--quiet and --json are known to %s", (command) => {
    const { stdout } = tickwright([command, "--help"]);
    expect(stdout).toMatch(/^ {2}--json /m);
    expect(stdout).toMatch(/^ {2}--quiet /m);
  });

  it.each([
    ["run", "--readings", "20", "--out", "o", "--force"],
    ["plan", "--length", "1h"],
    ["budget"],
    ["lesson", "--out", "l.html", "--force"],
    ["sweep", "--seeds", "2", "--length", "200", "--out", "s", "--force"],
  ])("--quiet leaves of %s the result alone", (command, ...args) => {
    const cwd = emptyFolder();
    // A loop that compares more slowly than it moves is warned of.
    const set = "synthesizer.loop.comparison_hz=1";
    const words = [command, "observatory", ...args, "--seed", "q", "--set", set];
    const told = tickwright(words, { cwd });
    const quiet = tickwright([...words, "--quiet"], { cwd });
    expect(told.stderr).toContain("warning: synthesizer.loop.comparison_hz");
    expect(quiet).toEqual({ ...told, stderr: "" });
  });

  it("that was renamed is refused with its new name", () => {
    const { status, stderr } = tickwright(["judge", "readings.csv", "--taus", "all"]);
    expect(status).toBe(2);
    expect(stderr).toContain("--averaging-times octaves|every");
  });

  it("of pictures sets the size on paper, the title and the unit", () => {
    const cwd = emptyFolder();
    const args = ["--plot", "--size", "a4", "--title", "Sheet 1", "--unit", "µs/day", "--out", "p"];
    const made = tickwright(["plan", "school-laboratory", "--within", "1e-6", ...args], { cwd });
    expect(made.status).toBe(0);
    const svg = readFileSync(join(cwd, "p/plan.svg"), "utf8");
    // ISO 216: A4 is 210 mm by 297 mm; 15 mm are left free on each side.
    expect(svg).toContain('width="267mm" height="180mm"');
    expect(svg).toContain(">Sheet 1</text>");
    expect(svg).toMatch(/interval of the rate \(µs\/day\)</);
    const refused = tickwright(["budget", "school-laboratory", "--size", "a4"], { cwd });
    expect(refused).toMatchObject({ status: 2, stdout: "" });
    expect(refused.stderr).toContain("give --plot too");
  });
});
