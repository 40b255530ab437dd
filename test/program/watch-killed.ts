import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect } from "vitest";
import { emptyFolder, main } from "./cli.ts";

/**
 * Kills `watch --log` at random moments while lines come as fast as they go, and starts it again on the same log.
 *
 * @param kills - how often
 * @param seed - of the moments
 * @returns kills after which every line shown so far was in the log, and no line in it was broken
 */
export async function killedWatches(kills: number, seed: number): Promise<number> {
  const cwd = emptyFolder();
  let state = seed;
  const random = () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
  const shown = new Set<string>();
  let next = 1;
  let held = 0;
  let rows = 0;
  for (let kill = 0; kill < kills; kill++) {
    const args = [
      "watch",
      "-",
      "--nominal-period",
      "1",
      "--gate",
      "9.5",
      "--json",
      "--log",
      "b.log",
    ];
    const child = spawn(process.execPath, [main, ...args], {
      cwd,
      stdio: ["pipe", "pipe", "ignore"],
    });
    let said = "";
    child.stdout.on("data", (data) => {
      said += data;
    });
    child.stdin.on("error", () => {});
    const closed = new Promise((resolve) => child.on("close", resolve));
    // Each line is another number, so that every one is known again.
    const feed = setInterval(() => {
      let piece = "";
      for (let i = 0; i < 3; i++) piece += `${(1 + 1e-9 * next++).toFixed(9)}\n`;
      child.stdin.write(piece);
    }, 2);
    const begun = Date.now();
    while (said === "" && Date.now() - begun < 20_000) await new Promise((r) => setTimeout(r, 5));
    await new Promise((resolve) => setTimeout(resolve, 400 * random()));
    child.kill("SIGKILL");
    clearInterval(feed);
    await closed;
    const whole = said
      .slice(0, said.lastIndexOf("\n") + 1)
      .split("\n")
      .filter((l) => l !== "");
    rows += whole.length;
    for (const line of whole) shown.add(Number(JSON.parse(line).value).toFixed(9));
    const log = readFileSync(join(cwd, "b.log"), "latin1");
    const kept = log
      .split("\n")
      .slice(0, -1)
      .map((line) => line.split("\t"));
    const values = new Set(kept.map(([, value]) => value));
    const isWhole = kept.every(([at, value]) => at?.length === 24 && value?.length === 11);
    if (isWhole && [...shown].every((value) => values.has(value))) held++;
  }
  // A test in which nothing was shown before the kills would show nothing.
  expect(rows).toBeGreaterThan(kills);
  return held;
}
