import { spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, tickwright } from "./cli.ts";

const folder = emptyFolder();
for (const shell of ["bash", "zsh", "fish"])
  writeFileSync(join(folder, shell), tickwright(["completion", shell]).stdout);

/** What bash offers for the last word of a line. */
function offered(...words: string[]): string[] {
  const line = `source ${join(folder, "bash")}; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _tickwright; printf '%s\\n' "\${COMPREPLY[@]}"`;
  const { stdout } = spawnSync("bash", ["-c", line, "bash", "tickwright", ...words], {
    cwd: folder,
    encoding: "utf8",
  });
  return stdout.trim().split("\n");
}

describe("completion", () => {
  it("offers commands, options, demo names and choices in bash", () => {
    expect(offered("ju")).toEqual(["judge"]);
    expect(offered("run", "--rea")).toEqual(["--readings"]);
    expect(offered("check", "harb")).toEqual(["harbour-tide-gauge"]);
    expect(offered("run", "observatory", "--recording", "la")).toEqual(["lazy"]);
    expect(offered("completion", "f")).toContain("fish");
  });

  it("comes as JSON too", () => {
    const { schema_version, shell, script } = JSON.parse(
      tickwright(["completion", "zsh", "--json"]).stdout,
    );
    expect([schema_version, shell]).toEqual([1, "zsh"]);
    expect(script).toBe(tickwright(["completion", "zsh"]).stdout);
  });

  for (const shell of ["bash", "zsh", "fish"]) {
    const isThere = spawnSync(shell, ["-c", "true"]).error === undefined;
    // Where everything is meant to be installed, a shell that is missing is a failure.
    const isSkipped = !isThere && !process.env.CI;
    it.skipIf(isSkipped)(
      `is a script that ${shell} can read${isSkipped ? ` (no ${shell})` : ""}`,
      () => {
        const { error, status, stderr } = spawnSync(shell, ["-n", join(folder, shell)], {
          encoding: "utf8",
        });
        expect([error, status, stderr]).toEqual([undefined, 0, ""]);
      },
    );
  }

  const hasFish = spawnSync("fish", ["-c", "true"]).error === undefined;
  it.skipIf(!hasFish && !process.env.CI)("offers commands, options and choices in fish", () => {
    const line = (typed: string) =>
      spawnSync(
        "fish",
        ["-c", `source ${join(folder, "fish")}; complete -C ${JSON.stringify(typed)}`],
        {
          cwd: folder,
          encoding: "utf8",
          env: { PATH: process.env.PATH ?? "", HOME: folder },
        },
      )
        .stdout.trim()
        .split("\n")
        .map((offer) => offer.split("\t")[0]);
    expect(line("tickwright ju")).toEqual(["judge"]);
    expect(line("tickwright run --rea")).toEqual(["--readings"]);
    expect(line("tickwright run observatory --recording la")).toContain("lazy");
  });
});
