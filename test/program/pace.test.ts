import { expect, it } from "vitest";
import { emptyFolder, tickwright } from "./cli.ts";
import { LiveProcess } from "./live-process.ts";

const run = (readings: number) =>
  `run school-laboratory --quiet --out - --readings ${readings}`.split(" ");

it("run --pace gives the same bytes, each reading when it is due", async () => {
  const began = performance.now();
  const live = new LiveProcess([...run(6), "--pace", "4"], emptyFolder());
  expect(await live.until(() => live.stdout.split("\r\n").length > 3)).toBe(true);
  // The second reading ends after 3 s, the last after 7 s by the clock of the chain.
  expect(performance.now() - began).toBeGreaterThan(2900 / 4);
  const { status, stdout } = await live.ending;
  expect(performance.now() - began).toBeGreaterThan(6900 / 4);
  expect([status, stdout]).toEqual([0, tickwright(run(6)).stdout]);
});

it("run --pace interrupted leaves whole lines, the first of the run", async () => {
  const live = new LiveProcess([...run(40), "--pace", "5"], emptyFolder());
  expect(await live.until(() => live.stdout.split("\r\n").length > 4)).toBe(true);
  const { status, stdout } = await live.stopBy("SIGINT");
  expect(status).toBe(130);
  expect(stdout.endsWith("\r\n")).toBe(true);
  expect(tickwright(run(40)).stdout.startsWith(stdout)).toBe(true);
});

it("run --pace without --out - is refused", () => {
  const { status, stderr } = tickwright(["run", "school-laboratory", "--pace", "1"]);
  expect(status).toBe(2);
  expect(stderr).toContain("--pace goes with --out -");
});
