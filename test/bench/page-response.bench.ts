import { type Browser, chromium, type Page } from "playwright-core";
import { bench, describe } from "vitest";
import { chromiumPath, launchArguments } from "../page/chromium.ts";
import { demo, lessonFile, openStep, shown } from "../page/lesson-file.ts";
import { median } from "./measure.ts";

/**
 * Time on the page of the lesson from a control's change to the picture drawn anew:
 * `npx vitest bench --run page-response` prints it step by step.
 */
const changes: readonly (readonly [step: string, control: string, values: readonly string[]])[] = [
  ["period", "#set-periods", ["2", "10", "30", "60", "100"]],
  ["stages", "#set-look", ["10", "50", "1", "10", "50"]],
  ["gate", "#set-gate", ["0", "2", "4", "5", "6"]],
  ["many", "#set-count", ["10", "20", "80", "160", "40"]],
  ["long", "#set-within", ["1 s/day", "2 ms/day", "5 ms/day", "1e-7", "3e-6"]],
  ["burst", "#set-burst", ["2", "3", "50", "100", "200"]],
  ["loss", "#set-lost", ["0", "2", "4", "6", "8"]],
];

/** Sets a control as a person does, and waits until its picture has been drawn; ms. */
function respond(page: Page, control: string, value: string): Promise<number> {
  return page.evaluate(
    ([selector, figures, next]) =>
      new Promise<number>((resolve) => {
        const input = document.querySelector<HTMLInputElement>(selector!)!;
        const began = performance.now();
        new MutationObserver((_records, observer) => {
          observer.disconnect();
          resolve(performance.now() - began);
        }).observe(document.querySelector(figures!)!, { childList: true });
        input.value = next!;
        for (const type of ["input", "change"]) {
          input.dispatchEvent(new Event(type, { bubbles: true }));
        }
      }),
    [shown(control), shown(".figures"), value] as const,
  );
}

async function printTable(browser: Browser): Promise<void> {
  const address = await lessonFile(demo("observatory"), "bench-1");
  const page = await browser.newPage();
  for (const [step, control, values] of changes) {
    await openStep(page, address, `step=${step}`);
    const times: number[] = [];
    for (const value of values) times.push(await respond(page, control, value));
    const words = `median ${median(times).toFixed(0)} ms, most ${Math.max(...times).toFixed(0)} ms`;
    console.log(`${step.padEnd(8)} ${words}`);
  }
  await page.close();
}

const browser = await chromium.launch({ executablePath: chromiumPath, args: [...launchArguments] });
await printTable(browser);

describe("the lesson in a browser", () => {
  bench("opens, and shows its first result", async () => {
    const page = await browser.newPage();
    await openStep(page, await lessonFile(demo("observatory"), "bench-1"), "step=period");
    await page.close();
  });
});
