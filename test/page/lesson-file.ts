import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Page } from "playwright-core";
import { buildTemplate } from "../../src/lab/build-page.mjs";
import type { Scenario } from "../../src/scenario/index.ts";
import { parseScenario } from "../../src/scenario/index.ts";
import { lessonPage } from "../../src/view/report/index.ts";

/** A demo scenario. */
export function demo(name: string): Scenario {
  const path = join(import.meta.dirname, "..", "..", "scenarios", `${name}.yaml`);
  return parseScenario(readFileSync(path, "utf8"), path).scenario;
}

/**
 * Writes the page of a scenario into a folder of its own.
 *
 * @returns its file: address
 */
export async function lessonFile(scenario: Scenario, seed: string): Promise<string> {
  const page = lessonPage(await buildTemplate(), { title: scenario.title, seed, scenario });
  const path = join(mkdtempSync(join(tmpdir(), "tickwright-page-")), "lesson.html");
  writeFileSync(path, page);
  return pathToFileURL(path).href;
}

/** Selector of what lies in the step shown. */
export const shown = (selector: string) => `.step:not([hidden]) ${selector}`;

/** Ids of the steps of a clock that is driven by bursts. */
export const stepIds = [
  "chain",
  "period",
  "stages",
  "gates",
  "draw",
  "hundred",
  "averaging",
  "long",
  "burst",
  "loss",
];

/** Opens a step, asks for its result without a prediction, and waits for it. */
export async function openStep(page: Page, address: string, settings: string): Promise<void> {
  await page.goto("about:blank");
  await page.goto(`${address}#${settings}`);
  await page.waitForSelector(shown("h2"));
  const isAsked = await page.locator(shown(".prediction:not([hidden])")).count();
  if (isAsked > 0) await page.click(shown(".prediction .quiet"));
  await resultShown(page);
}

/** Waits until the result of the step is there. */
export async function resultShown(page: Page): Promise<void> {
  // Attached: a step without a picture has results without a height.
  await page.waitForSelector(shown('.results[aria-busy="false"]'), { state: "attached" });
  await page.waitForSelector(shown("> .result:not(:empty)"));
}
