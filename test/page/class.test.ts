import { beforeAll, expect, it } from "vitest";
import { describeInChromium } from "./chromium.ts";
import { demo, lessonFile } from "./lesson-file.ts";

describeInChromium("the challenge of a class, and the worksheet", (browser) => {
  let address = "";
  beforeAll(async () => {
    address = await lessonFile(demo("school-laboratory"), "seed-1");
  });

  it("leads from a word through runs to a code, which the teacher reads", async () => {
    const page = await browser().newPage();
    await page.goto(address);
    await page.click("text=A challenge for the class");
    await page.fill("#set-word", "acorn");
    await page.fill("#set-name", "Ada");
    await page.press("#set-name", "Tab");
    await page.selectOption("#class-gate", "10");
    await page.fill("#class-count", "50");
    await page.click('details.tools button:text-is("Measure")');
    await page.waitForSelector("details.tools tbody tr");
    // 600 periods less 50 gates of 10.
    await page.waitForSelector("text=100 periods are left.");
    await page.fill("#class-count", "20");
    await page.click('details.tools button:text-is("Measure")');
    await page.waitForSelector("text=That takes 200 periods; 100 periods are left.");
    // A reload takes nothing away.
    await page.reload();
    await page.click("text=A challenge for the class");
    await page.waitForSelector("details.tools tbody tr");
    const line = await page.textContent("details.tools tbody tr td:nth-child(4)");
    await page.fill("#class-rate", line!.replace("−", "-").replace(/\u202f/g, ""));
    await page.fill("#class-half", "1e9");
    await page.click("text=Make my code");
    const code = await page.textContent(".code");
    await page.fill("#class-codes", `${code}\nnonsense`);
    await page.click("text=See the class");
    await page.waitForSelector("text=0 sound, 0 claimed too much, 1 too little.");
    expect(await page.locator("text=no whole code").count()).toBe(1);
    await page.close();
  });

  it("prints in black on white with the questions, the seed and the address, also from a dark page", async () => {
    const context = await browser().newContext({ colorScheme: "dark" });
    const page = await context.newPage();
    await page.goto(`${address}#step=period&said=period.100000`);
    await page.waitForSelector(".step:not([hidden]) .figures svg");
    await page.emulateMedia({ media: "print", colorScheme: "dark" });
    await page.waitForSelector('.figures svg rect[fill="#ffffff"]');
    const printed = await page.evaluate(() => {
      const style = (selector: string) => getComputedStyle(document.querySelector(selector)!);
      return {
        ink: style("body").color,
        paper: style("html").backgroundColor,
        navigation: style("nav").display,
        sheet: document.querySelector(".worksheet")!.textContent!,
      };
    });
    expect(printed.ink).toBe("rgb(0, 0, 0)");
    expect(printed.paper).toBe("rgb(255, 255, 255)");
    expect(printed.navigation).toBe("none");
    expect(printed.sheet).toMatch(/Seed: seed-1\. file:.*#step=period&said=period\.100000/);
    expect(printed.sheet.match(/I predict/g)!.length).toBe(8);
    await context.close();
  });

  // What is asked and what is shown of it fit one screen of 1280 by 900.
  it("keeps control and picture on one screen", async () => {
    const page = await browser().newPage({ viewport: { width: 1280, height: 900 } });
    for (const step of [
      "chain",
      "period.1000",
      "stages.0",
      "gates.1",
      "hundred.1",
      "averaging.0",
    ]) {
      const id = step.split(".")[0]!;
      await page.goto("about:blank");
      await page.goto(`${address}#step=${id}${step.includes(".") ? `&said=${step}` : ""}`);
      await page.waitForSelector(".step:not([hidden]) .shows svg");
      const lowest = await page.evaluate(() => {
        const parts = document.querySelectorAll(".step:not([hidden]) :is(.shows svg, .controls)");
        return Math.max(...[...parts].map((part) => part.getBoundingClientRect().bottom));
      });
      expect(lowest, id).toBeLessThanOrEqual(900);
    }
    await page.close();
  });
});
