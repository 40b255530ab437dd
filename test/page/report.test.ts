import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import axe from "axe-core";
import { beforeAll, expect, it } from "vitest";
import { emptyFolder, tickwright } from "../program/cli.ts";
import { describeInChromium } from "./chromium.ts";

const cwd = emptyFolder();
/** What would do harm wherever it stood as it is. */
const hostile = `</title><script>document.title="harmed"</script><img src=x onerror=alert(1)>&"'`;
/** By the command that made them. */
const reports = ["judge", "compare", "plan", "budget"] as const;
const words: Readonly<Record<(typeof reports)[number], readonly string[]>> = {
  judge: ["judge", "a.txt", "--within", "1 s/day", "--ahead", "30d"],
  compare: ["compare", "a.txt", "b.txt"],
  plan: ["plan", "school-laboratory", "--within", "1e-6"],
  budget: ["budget", "school-laboratory", "--no-simulation"],
};
const how = ["--nominal-period", "1", "--gate", "9.5"];

describeInChromium("a report", (browser) => {
  beforeAll(() => {
    // Invented: a period that swings.
    for (const [name, size] of [
      ["a.txt", 3e-5],
      ["b.txt", 1e-5],
    ] as const) {
      const lines = Array.from({ length: 60 }, (_, i) => (1 + size * Math.sin(i * i)).toFixed(9));
      lines[7] = `${hostile} 1.5`;
      writeFileSync(join(cwd, name), `${lines.join("\n")}\n`);
    }
    for (const name of reports) {
      const said = name === "plan" || name === "budget" ? [] : how;
      const more = ["--title", hostile, "--by", hostile, "--report", `${name}.html`];
      const { status, stdout, stderr } = tickwright([...words[name], ...said, ...more], { cwd });
      expect([status, stderr]).toEqual([0, ""]);
      expect(stdout).toContain(`wrote ${name}.html`);
    }
  }, 900_000);

  it.each(
    reports.flatMap((name) =>
      (["light", "dark", "print"] as const).map((look) => ({ name, look })),
    ),
  )(
    "of $name is clean by axe, asks nothing of the network and runs nothing ($look)",
    async ({ name, look }) => {
      const context = await browser().newContext({
        colorScheme: look === "dark" ? "dark" : "light",
      });
      const page = await context.newPage();
      const asked: string[] = [];
      page.on("request", (request) => asked.push(request.url()));
      const failures: string[] = [];
      page.on("dialog", (dialog) => failures.push(dialog.message()));
      if (look === "print") await page.emulateMedia({ media: "print" });
      const address = pathToFileURL(join(cwd, `${name}.html`)).href;
      await page.goto(address);
      expect(await page.locator("script, img").count()).toBe(0);
      expect(await page.title()).not.toBe("harmed");
      expect([asked, failures]).toEqual([[address], []]);
      await page.evaluate(axe.source);
      const found = await page.evaluate(async () => {
        const { axe: engine } = window as unknown as { axe: typeof import("axe-core") };
        return (await engine.run()).violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
      });
      expect(found).toEqual([]);
      // A4 and letter less margins of 15 mm are 680 px wide or more; a telephone has 360.
      for (const width of look === "print" ? [680] : [360, 680]) {
        await page.setViewportSize({ width, height: 900 });
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        expect(wide).toBeLessThanOrEqual(width);
      }
      await context.close();
    },
  );

  it("opens with the sentence of the answer and holds digest, version and command", () => {
    const html = readFileSync(join(cwd, "judge.html"), "utf8");
    expect(html).toMatch(
      /<p class="answer">The clock[^<]* ± [^<]*\/day \(95 %\) over this run of [^<]*\.<\/p>/,
    );
    expect(html).toMatch(/a\.txt: <code>[0-9a-f]{64}<\/code>/);
    expect(html).toContain("tickwright judge a.txt --within &#39;1 s/day&#39; --ahead 30d");
    expect(html).toMatch(/by tickwright \d+\.\d+\.\d+/);
    for (const label of [
      "How it was measured",
      "How it ended",
      "What spoiled it",
      "What was assumed",
      "What is not known",
    ]) {
      expect(html).toContain(`<dt>${label}</dt>`);
    }
  });
});
