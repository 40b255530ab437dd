import { beforeAll, expect, it } from "vitest";
import { describeInChromium } from "./chromium.ts";
import { demo, lessonFile, resultShown, shown } from "./lesson-file.ts";

describeInChromium("what is played with in the lesson", (browser) => {
  let address = "";
  beforeAll(async () => {
    address = await lessonFile(demo("observatory"), "seed-1");
  });

  it("runs by itself, pauses, and goes on moment by moment", async () => {
    const page = await browser().newPage();
    await page.goto(address);
    const words = shown(".motion-words");
    await page.waitForFunction(
      (at) => /Tick 2/.test(document.querySelector(at)?.textContent ?? ""),
      words,
      {
        timeout: 20_000,
      },
    );
    await page.click("text=Pause");
    const head = () => page.getAttribute(shown(".motion-head"), "d");
    const paused = await head();
    await page.waitForTimeout(200);
    expect(await head()).toBe(paused);
    await page.click("text=Next moment");
    expect(await head()).not.toBe(paused);
    await page.close();
  });

  it("stands still where less motion is wished for, and shows each tick whole", async () => {
    const page = await browser().newPage({ reducedMotion: "reduce" });
    await page.goto(address);
    const words = shown(".motion-words");
    await page.waitForFunction(
      (at) => /Tick 1/.test(document.querySelector(at)?.textContent ?? ""),
      words,
    );
    await page.waitForTimeout(300);
    expect(await page.textContent(words)).toMatch(
      /^Tick 1: [\d.]+ ms from edge to tick\. Slowed \d+ times\.$/,
    );
    await page.click("text=Next tick");
    await page.waitForFunction(
      (at) => /Tick 2/.test(document.querySelector(at)?.textContent ?? ""),
      words,
    );
    expect(await page.textContent(words)).toMatch(
      /^Tick 2: [\d.]+ ms .*, [\d.]+ ms the time before\. /,
    );
    await page.close();
  });

  it.each([
    ["mouse", { width: 1280, height: 900 }, false],
    ["touch", { width: 390, height: 844 }, true],
  ] as const)("drags the ends of gates (%s)", async (_name, viewport, hasTouch) => {
    const context = await browser().newContext({ viewport, hasTouch });
    const page = await context.newPage();
    await page.goto(`${address}#step=gates`);
    const handle = page.locator('[aria-label="Start of gate B"] .handle');
    await handle.scrollIntoViewIfNeeded();
    const box = (await handle.boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const tick = await page.evaluate(() => {
      const { width } = document.querySelector(".timeline")!.getBoundingClientRect();
      return (width - 44) / 16;
    });
    if (hasTouch) {
      const client = await context.newCDPSession(page);
      const touch = (type: "touchStart" | "touchMove" | "touchEnd", at: number) =>
        client.send("Input.dispatchTouchEvent", {
          type,
          touchPoints: type === "touchEnd" ? [] : [{ x: at, y }],
        });
      await touch("touchStart", x);
      await touch("touchMove", x + tick);
      await touch("touchMove", x + 2 * tick);
      await touch("touchEnd", x);
    } else {
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + tick, y);
      await page.mouse.move(x + 2 * tick, y);
      await page.mouse.up();
    }
    await page.waitForFunction(() => location.hash.includes("gates=0-4%2C6-8"));
    await page.click("text=Undo");
    await page.waitForFunction(() => !location.hash.includes("gates=0-4%2C6-8"));
    await page.click("text=Join");
    await page.waitForFunction(() => location.hash.includes("gates=0-4%2C4-8%2C8-11"));
    await page.click("text=Delete gate");
    await page.click("text=Move outlier");
    expect(await page.textContent(shown(".play .result"))).toMatch(/is an outlier/);
    await context.close();
  });

  it("takes a drawing by the pen, and holds it against the truth", async () => {
    const page = await browser().newPage({ viewport: { width: 1280, height: 900 } });
    await page.goto(`${address}#step=draw`);
    const box = (await page.locator(shown(".pad")).boundingBox())!;
    await page.mouse.move(box.x + box.width * 0.16, box.y + box.height * 0.05);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.97, box.y + box.height * 0.46, { steps: 12 });
    await page.mouse.up();
    await page.click(shown('.prediction button[type="submit"]'));
    await resultShown(page);
    expect(await page.textContent(shown(".verdict"))).toMatch(/^Well drawn/);
    expect(await page.locator(shown(".figures svg")).count()).toBe(1);
    await page.close();
  });

  it("loses nothing on reload, and goes back through the steps with the browser", async () => {
    const page = await browser().newPage();
    await page.goto(`${address}#step=period`);
    await page.waitForSelector(shown("h2"));
    await page.click(shown('.prediction button[type="submit"]'));
    await resultShown(page);
    const verdict = await page.textContent(shown(".verdict"));
    await page.click(".pager .main");
    expect(await page.textContent(shown("h2"))).toMatch(/^3/);
    await page.goBack();
    await page.waitForFunction(
      (at) => /^2/.test(document.querySelector(at)?.textContent ?? ""),
      shown("h2"),
    );
    await page.reload();
    await resultShown(page);
    expect(await page.textContent(shown(".verdict"))).toBe(verdict);
    await page.close();
  });
});
