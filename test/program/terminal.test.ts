import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { emptyFolder, main } from "./cli.ts";

/** Output of a command whose streams are a terminal, made by util-linux's `script`. */
function onTerminal(words: string, env: Record<string, string>): string {
  const { status, stdout } = spawnSync(
    "script",
    ["--quiet", "--return", "--command", `${process.execPath} ${main} ${words}`, "/dev/null"],
    {
      cwd: emptyFolder(),
      encoding: "utf8",
      env: { PATH: process.env.PATH ?? "", TERM: "xterm", ...env },
    },
  );
  expect(status).toBe(0);
  return stdout;
}

const hasScript = existsSync("/usr/bin/script");
/** How commands to a terminal begin (ECMA-48). */
const commands = "\u001b[";

describe.skipIf(!hasScript)("on a terminal", () => {
  it.each([
    ["nothing is said", {}, true],
    // no-color.org: present and not empty.
    ["NO_COLOR is set", { NO_COLOR: "1" }, false],
    ["NO_COLOR is empty", { NO_COLOR: "" }, true],
    // Node's documentation of tty, getColorDepth: FORCE_COLOR=0 turns colour off.
    ["FORCE_COLOR is 0", { FORCE_COLOR: "0" }, false],
    ["the terminal is dumb", { TERM: "dumb" }, false],
    ["the terminal is dumb and FORCE_COLOR is 1", { TERM: "dumb", FORCE_COLOR: "1" }, true],
  ])("there is colour or none, where %s", (_, env: Record<string, string>, hasColor) => {
    expect(onTerminal("check observatory", env).includes(commands)).toBe(hasColor);
  });

  it.each([
    ["xterm", true],
    ["dumb", false],
  ])("progress is shown where its line can be taken away: %s", (TERM, isShown) => {
    const text = onTerminal("run observatory --out o", { TERM, NO_COLOR: "1" });
    expect(text.includes("simulating")).toBe(isShown);
    expect(text.includes(commands)).toBe(isShown);
  });
});
