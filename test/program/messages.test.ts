import { describe, expect, it } from "vitest";
import { tickwright } from "./cli.ts";

/** A failure of each status in a process of its own; messages/ has all of them, in one process. */
const failures: readonly (readonly [string, number, RegExp])[] = [
  ["rum observatory", 2, /^tickwright: unknown command 'rum'[\s\S]*Did you mean run\?/],
  ["check observatory --set drive.burts_s=1", 2, /unknown key; did you mean burst_s\?\n$/],
  ["plan observatory", 2, /give either --within or --length\n$/],
  ["judge ./none.csv", 3, /none.csv: could not read: there is no such file/],
];

describe("messages of failures", () => {
  it.each(failures)("%s", (line, status, said) => {
    const found = tickwright(line.split(" "));
    expect(found).toMatchObject({ status, stdout: "" });
    expect(found.stderr).toMatch(said);
  });

  it.each(failures)("%s --json", (line, status) => {
    const found = tickwright([...line.split(" "), "--json"]);
    expect([found.status, found.stdout]).toEqual([status, ""]);
    expect(JSON.parse(found.stderr).error.status).toBe(status);
  });

  it("tells versions as JSON", () => {
    const { status, stdout } = tickwright(["--version", "--json"]);
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({
      node: process.versions.node,
      v8: process.versions.v8,
    });
  });
});
