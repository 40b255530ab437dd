import { existsSync } from "node:fs";
import { type Browser, chromium } from "playwright-core";
import { afterAll, beforeAll, describe, it } from "vitest";

/** Where the browser is. */
export const chromiumPath = process.env.CHROMIUM_PATH ?? "/usr/bin/chromium";

/** Keeps it from asking anything of the network by itself. */
export const launchArguments = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/**
 * Tests that need a browser. Without one they are skipped, and say so; where CI is set that is a failure.
 *
 * @param name - of the group
 * @param body - the tests; gets a function that gives the browser
 */
export function describeInChromium(name: string, body: (browser: () => Browser) => void): void {
  if (!existsSync(chromiumPath)) {
    const why = `there is no Chromium at ${chromiumPath}; set CHROMIUM_PATH`;
    if (process.env.CI === "true") {
      describe(name, () => {
        it("finds a browser", () => {
          throw new Error(why);
        });
      });
      return;
    }
    console.warn(`Page tests skipped (${name}): ${why}`);
    describe.skip(`${name} (skipped: ${why})`, () => body(notThere));
    return;
  }
  describe(name, () => {
    let browser: Browser | undefined;
    beforeAll(async () => {
      browser = await chromium.launch({
        executablePath: chromiumPath,
        args: [...launchArguments],
        timeout: 0,
      });
      // A loaded machine may take its time: nothing waits on a wall clock but the test as a whole.
      browser.on("context", (context) => context.setDefaultTimeout(0));
    });
    afterAll(async () => {
      await browser?.close();
    });
    body(() => browser ?? notThere());
  });
}

function notThere(): never {
  throw new Error("the browser is not there");
}
