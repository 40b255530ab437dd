import { expect, it } from "vitest";
import { describeInChromium } from "./chromium.ts";
import { demo, lessonFile, openStep } from "./lesson-file.ts";

const titles = {
  "closing tags and a script":
    '</title></script><!--<script>document.title="broken"</script><img src=x onerror=alert(1)>',
  "quotes and entities": `"'\`&amp;&lt;b&gt; $& $1 @data@ @title@`,
  "emoji and right-to-left": "🕰️👩‍🔬 ساعة \u202eback\u202c",
  "a very long word": "x".repeat(20_000),
  "controls and lone surrogates": "a\u0000b\u001b[31m\ud800c\u2028d",
};

/** What no HTML can hold comes out as the replacement character. */
const inHtml = (character: string) =>
  character < " " || /^[\ud800-\udfff]$/.test(character) ? "\ufffd" : character;

describeInChromium("a lesson whose scenario holds any text", (browser) => {
  it.each(Object.entries(titles))("works with %s", async (_name, title) => {
    const scenario = { ...demo("school-laboratory"), title };
    const seed = title.slice(0, 150);
    const page = await browser().newPage({ viewport: { width: 400, height: 700 } });
    const messages: string[] = [];
    page.on("console", (message) => messages.push(message.text()));
    page.on("pageerror", (error) => messages.push(String(error)));
    page.on("dialog", (dialog) => messages.push(dialog.message()));
    await openStep(page, await lessonFile(scenario, seed), "step=period");
    expect(messages).toEqual([]);
    expect(await page.locator("img, main script, h1 *").count()).toBe(0);
    const heading = await page.textContent("h1");
    expect([...heading!].slice(0, 20)).toEqual([...title].slice(0, 20).map(inHtml));
    const fits = await page.evaluate(
      () => document.documentElement.scrollWidth <= window.innerWidth,
    );
    expect(fits).toBe(true);
    await page.close();
  });
});
