import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { beforeAll, expect, it } from "vitest";
import { settleRun } from "../../src/chain/index.ts";
import { simulate, textSink } from "../../src/cli/index.ts";
import type { Scenario } from "../../src/scenario/index.ts";
import { describeInChromium } from "./chromium.ts";
import { demo, lessonFile } from "./lesson-file.ts";

const silent = { show() {}, clear() {} };

/** What the command line writes as readings.csv: its digest. */
async function digestInNode(scenario: Scenario, seed: string): Promise<string> {
  const { options } = settleRun(scenario, {
    seed,
    length: null,
    readings: null,
    recording: null,
    wantsTicks: false,
    wantsBursts: false,
  });
  const tables = { readings: textSink(null), ticks: null, bursts: null };
  const { written } = await simulate(scenario, options, tables, silent);
  return written.readings!.sha256;
}

describeInChromium("readings downloaded from the page", (browser) => {
  const demos = ["observatory", "school-laboratory", "station-dial"];
  const addresses = new Map<string, string>();
  beforeAll(async () => {
    for (const name of demos) addresses.set(name, await lessonFile(demo(name), "seed-1"));
  });

  // Both sides compute: an engine function that differs in one bit between Node and the browser shows here.
  it.each(demos)("have the same bytes as those of the command line (%s)", async (name) => {
    const page = await browser().newPage();
    await page.goto(`${addresses.get(name)!}#seed=page%20%26%20command`);
    const waiting = page.waitForEvent("download");
    await page.click("text=Download readings");
    const download = await waiting;
    expect(download.suggestedFilename()).toBe("readings.csv");
    const bytes = readFileSync(await download.path());
    expect(bytes.length).toBeGreaterThan(1000);
    const digest = createHash("sha256").update(bytes).digest("hex");
    expect(digest).toBe(await digestInNode(demo(name), "page & command"));
    await page.close();
  });
});
