import axe from "axe-core";
import type { Page } from "playwright-core";
import { beforeAll, expect, it } from "vitest";
import { describeInChromium } from "./chromium.ts";
import { demo, lessonFile, openStep, stepIds as steps } from "./lesson-file.ts";

/** What axe finds wrong, as short texts. */
async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const { axe: engine } = window as unknown as { axe: typeof import("axe-core") };
    const found = await engine.run();
    return found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
  });
}

describeInChromium("the lesson, for everybody", (browser) => {
  let address = "";
  beforeAll(async () => {
    address = await lessonFile(demo("observatory"), "seed-1");
  });

  it.each(["light", "dark"] as const)(
    "has no violation that axe finds (%s)",
    async (colorScheme) => {
      const context = await browser().newContext({ colorScheme });
      const page = await context.newPage();
      for (const step of steps) {
        await openStep(page, address, `step=${step}`);
        await page.evaluate(() => {
          for (const details of document.querySelectorAll("details")) details.open = true;
        });
        expect(await violations(page), `step ${step}`).toEqual([]);
      }
      await context.close();
    },
  );

  it("moves nothing by itself, with or without a wish for less motion", async () => {
    for (const reducedMotion of ["reduce", "no-preference"] as const) {
      const context = await browser().newContext({ reducedMotion });
      const page = await context.newPage();
      await openStep(page, address, "step=draw");
      const moving = await page.evaluate(() => {
        const styles = [...document.querySelectorAll("*")].map((one) => getComputedStyle(one));
        const moves = ({ animationName, transitionDuration }: CSSStyleDeclaration) =>
          animationName !== "none" || !/^(0s(, )?)+$/.test(transitionDuration);
        return styles.filter(moves).length + document.getAnimations().length;
      });
      expect(moving).toBe(0);
      await context.close();
    }
  });

  // WCAG 2.2, success criterion 1.4.10 (reflow): 320 px wide, which is also 640 px at 200 %.
  it.each([
    [320, 1],
    [640, 2],
  ])("fits %s px at %s device pixels each without sideways scroll", async (width, scale) => {
    const context = await browser().newContext({
      viewport: { width: width / scale, height: 700 },
      deviceScaleFactor: scale,
    });
    const page = await context.newPage();
    for (const step of steps) {
      await openStep(page, address, `step=${step}`);
      const [content, window_] = await page.evaluate(() => [
        document.documentElement.scrollWidth,
        window.innerWidth,
      ]);
      expect(content, `step ${step}`).toBeLessThanOrEqual(window_!);
    }
    await context.close();
  });
});
