import { beforeAll, expect, it } from "vitest";
import { describeInChromium } from "./chromium.ts";
import { demo, lessonFile, openStep, resultShown, shown, stepIds } from "./lesson-file.ts";

// Every demo with its own kind of chain: bursts, a bare contact, a reference at 10 MHz.
describeInChromium("the lesson, opened from disk", (browser) => {
  const addresses = new Map<string, string>();
  const demos = ["observatory", "school-laboratory", "reference-direct"];
  beforeAll(async () => {
    for (const name of demos) addresses.set(name, await lessonFile(demo(name), "seed-1"));
  });

  it.each(demos)("asks nothing of any network and prints no message (%s)", async (name) => {
    const page = await browser().newPage();
    const requests: string[] = [];
    const messages: string[] = [];
    page.on("request", (request) => requests.push(request.url()));
    page.on("console", (message) => messages.push(message.text()));
    page.on("pageerror", (error) => messages.push(String(error)));
    const address = addresses.get(name)!;
    const steps = name === "observatory" ? stepIds : stepIds.slice(0, 8);
    for (const step of steps) {
      await openStep(page, address, `step=${step}`);
      // A period of 0.1 µs can be too short to be read, and then there is nothing to draw.
      const isDrawn = (await page.locator(shown(".shows svg")).count()) > 0;
      expect(isDrawn || name === "reference-direct", `picture of ${step}`).toBe(true);
      expect(await page.textContent(shown("> .result"))).not.toMatch(/NaN|Infinity|undefined/);
    }
    expect(messages).toEqual([]);
    const foreign = requests.filter(
      (url) => !url.startsWith(`${address}`) && !/^(blob:|about:blank)/.test(url),
    );
    expect(foreign).toEqual([]);
    expect(requests.some((url) => url.startsWith(address))).toBe(true);
    await page.close();
  });

  it("keeps its settings in the address, and takes them from there", async () => {
    const page = await browser().newPage();
    const address = addresses.get("observatory")!;
    await openStep(page, address, "step=hundred&count=20&dead=yes&seed=other");
    expect(await page.inputValue("#set-count")).toBe("20");
    expect(await page.inputValue("#set-dead")).toBe("yes");
    expect(await page.inputValue("#set-seed")).toBe("other");
    await page.selectOption("#set-count", "10");
    await resultShown(page);
    const hash = new URLSearchParams(new URL(page.url()).hash.slice(1));
    expect(Object.fromEntries(hash)).toEqual({
      step: "hundred",
      said: "hundred.",
      count: "10",
      dead: "yes",
      seed: "other",
    });
    await page.close();
  });

  it("keeps the usual setting where the address makes no sense, and says so", async () => {
    const page = await browser().newPage();
    await page.goto(`${addresses.get("observatory")!}#step=hundred&units=7&nonsense=1`);
    await page.waitForSelector(shown("h2"));
    expect(await page.textContent("main")).toMatch(/does not know \(units, nonsense\)/);
    expect(await page.inputValue("#set-units")).toBe("10");
    await page.close();
  });
});
