import type { Page } from "playwright-core";
import { beforeAll, expect, it } from "vitest";
import { describeInChromium } from "./chromium.ts";
import { demo, lessonFile, resultShown, shown, stepIds } from "./lesson-file.ts";

/** Presses Tab until the element with the focus matches. */
async function tabTo(page: Page, selector: string): Promise<void> {
  for (let presses = 0; presses < 80; presses++) {
    await page.keyboard.press("Tab");
    const isThere = await page.evaluate(
      (wanted) => document.activeElement?.matches(wanted) ?? false,
      selector,
    );
    if (isThere) return;
  }
  throw new Error(`Tab does not come to ${selector}`);
}

const words = (page: Page) => page.textContent(shown("> .result"));

/** What is predicted with in each step, and the control to change afterwards. */
const keys: Readonly<
  Record<string, readonly [predict: string, key: string, control?: string, change?: string]>
> = {
  chain: ['input[type="radio"]', "Space"],
  period: ['input[type="range"]', "ArrowRight", "#set-periods", "ArrowUp"],
  stages: ['input[type="radio"]', "Space", 'input[type="checkbox"]', "Space"],
  gates: ['input[type="radio"]', "Space"],
  draw: [".pad .handle", "ArrowDown"],
  hundred: ['input[type="radio"]', "Space", "#set-of", "ArrowDown"],
  averaging: ['input[type="radio"]', "Space"],
  long: ['input[type="range"]', "ArrowRight"],
};

describeInChromium("the lesson by keyboard alone", (browser) => {
  let address = "";
  beforeAll(async () => {
    address = await lessonFile(demo("observatory"), "seed-1");
  });

  it("leads through all steps: predict, see, change, go on", async () => {
    const page = await browser().newPage({ reducedMotion: "reduce" });
    await page.goto(address);
    await page.waitForSelector(shown("h2"));
    for (const [i, id] of stepIds.slice(0, 8).entries()) {
      expect(await page.textContent(shown("h2"))).toMatch(new RegExp(`^${i + 1}\\. `));
      const [predict, key, control, change] = keys[id]!;
      await tabTo(page, shown(predict));
      await page.keyboard.press(key);
      await tabTo(page, shown('.prediction button[type="submit"]'));
      await page.keyboard.press("Enter");
      await resultShown(page);
      expect((await page.textContent(shown(".verdict")))!.length, id).toBeGreaterThan(10);
      if (control !== undefined) {
        const before = await words(page);
        await tabTo(page, shown(control));
        await page.keyboard.press(change!);
        if (id === "period") await page.keyboard.press("Enter");
        await page.waitForFunction(
          ([selector, old]) => document.querySelector(selector!)?.textContent !== old,
          [shown("> .result"), before],
        );
      }
      if (id === "long") break;
      await tabTo(page, ".pager .main");
      await page.keyboard.press("Enter");
      expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("H2");
    }
    await tabTo(page, ".trial button");
    await page.keyboard.press("Enter");
    await page.waitForFunction(
      (selector) => /runs? held/.test(document.querySelector(selector)?.textContent ?? ""),
      shown(".trial .result"),
    );
    await page.close();
  });

  it("says what comes out in live regions, and skips to the lesson", async () => {
    const page = await browser().newPage();
    await page.goto(address);
    await page.waitForSelector(shown("h2"));
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe(
      "Skip to the lesson",
    );
    expect(await page.locator(shown('> .result[role="status"]')).count()).toBe(1);
    await page.close();
  });

  it("asks for a number where a field was emptied", async () => {
    const page = await browser().newPage();
    await page.goto(`${address}#step=period&said=period.1000`);
    await resultShown(page);
    await tabTo(page, shown("#set-periods"));
    await page.keyboard.press("ControlOrMeta+A");
    await page.keyboard.press("Delete");
    await page.keyboard.press("Enter");
    const isMissing = await page.$eval(
      shown("#set-periods"),
      (input) => (input as HTMLInputElement).validity.valueMissing,
    );
    expect(isMissing).toBe(true);
    await page.close();
  });

  it("moves the ends of gates with the arrow keys, and says what becomes of the shared tick", async () => {
    const page = await browser().newPage();
    await page.goto(`${address}#step=gates`);
    await page.waitForSelector(shown(".timeline"));
    await tabTo(page, '[aria-label="Start of gate B"]');
    await page.keyboard.press("ArrowRight");
    await page.waitForFunction(
      (selector) => /A and B are apart/.test(document.querySelector(selector)?.textContent ?? ""),
      shown(".play .result"),
    );
    expect(page.url()).toContain("gates=0-4%2C5-8%2C10-13");
    // The handle that was moved keeps the focus.
    await page.keyboard.press("ArrowLeft");
    await page.waitForFunction(
      (selector) => /share tick 4/.test(document.querySelector(selector)?.textContent ?? ""),
      shown(".play .result"),
    );
    await page.close();
  });
});
