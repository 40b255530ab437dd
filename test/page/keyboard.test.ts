import type { Page } from "playwright-core";
import { beforeAll, expect, it } from "vitest";
import { describeInChromium } from "./chromium.ts";
import { demo, lessonFile, resultShown, shown } from "./lesson-file.ts";

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

const words = (page: Page) => page.textContent(shown(".result"));

describeInChromium("the lesson by keyboard alone", (browser) => {
  let address = "";
  beforeAll(async () => {
    address = await lessonFile(demo("observatory"), "seed-1");
  });

  it("leads through all five steps: predict, measure, change, go on", async () => {
    const page = await browser().newPage();
    await page.goto(address);
    await page.waitForSelector(shown("h2"));
    // The control of each step, the keys that change it, and a step's result must change with it.
    const controls = [
      ["#set-periods", "ArrowUp", "Enter"],
      ['input[type="checkbox"]', "Space"],
      ["#set-gate", "ArrowRight"],
      ["#set-count", "ArrowDown"],
    ] as const;
    for (const [i, [control, ...keys]] of controls.entries()) {
      expect(await page.textContent(shown("h2"))).toMatch(new RegExp(`^${i + 1}\\. `));
      await tabTo(page, 'input[type="radio"]');
      await page.keyboard.press("Space");
      await tabTo(page, ".prediction button");
      await page.keyboard.press("Enter");
      await resultShown(page);
      const before = await words(page);
      expect(before).toMatch(/^(As you predicted|You predicted)/);
      await tabTo(page, shown(control));
      for (const key of keys) await page.keyboard.press(key);
      await page.waitForFunction(
        ([selector, old]) => document.querySelector(selector!)?.textContent !== old,
        [shown(".result"), before],
      );
      await tabTo(page, ".pager .main");
      await page.keyboard.press("Enter");
      expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("H2");
    }
    expect(await page.textContent(shown("h2"))).toMatch(/^5\. /);
    await tabTo(page, shown("#set-within"));
    await page.keyboard.press("ControlOrMeta+A");
    await page.keyboard.type("1 s/day");
    await tabTo(page, 'input[type="radio"]');
    await page.keyboard.press("Space");
    await tabTo(page, ".prediction button");
    await page.keyboard.press("Enter");
    await resultShown(page);
    await tabTo(page, ".trial button");
    await page.keyboard.press("Enter");
    await page.waitForFunction(
      (selector) => /runs? held/.test(document.querySelector(selector)?.textContent ?? ""),
      shown(".trial .result"),
    );
    await page.close();
  });

  it("says what comes out in a live region, and skips to the lesson", async () => {
    const page = await browser().newPage();
    await page.goto(address);
    await page.waitForSelector(shown("h2"));
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe(
      "Skip to the lesson",
    );
    expect(await page.getAttribute(shown(".result"), "aria-live")).toBe("polite");
    await page.close();
  });

  it("asks for a number where a field was emptied", async () => {
    const page = await browser().newPage();
    await page.goto(address);
    await page.waitForSelector(shown("h2"));
    await tabTo(page, 'input[type="radio"]');
    await page.keyboard.press("Space");
    await tabTo(page, ".prediction button");
    await page.keyboard.press("Enter");
    await resultShown(page);
    await tabTo(page, shown("#set-periods"));
    await page.keyboard.press("ControlOrMeta+A");
    await page.keyboard.press("Delete");
    await page.evaluate(() => {
      document.addEventListener(
        "invalid",
        ({ target }) => (target as Element).setAttribute("data-asked", ""),
        true,
      );
    });
    await page.keyboard.press("Enter");
    expect(await page.getAttribute(shown("#set-periods"), "data-asked")).toBe("");
    expect(
      await page.$eval(
        shown("#set-periods"),
        (field) => (field as HTMLInputElement).validity.valueMissing,
      ),
    ).toBe(true);
    await page.close();
  });
});
