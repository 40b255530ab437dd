import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { buildTemplate } from "../../src/lab/build-page.mjs";
import { lessonPage } from "../../src/view/report/index.ts";
import { demo } from "./lesson-file.ts";

/** Largest page; bytes. */
const budget = 350_000;

describe("the template of the lesson", () => {
  it("comes out the same from two builds", async () => {
    const [first, second] = [await buildTemplate(), await buildTemplate()];
    const digest = (text: string) => createHash("sha256").update(text).digest("hex");
    expect(digest(second)).toBe(digest(first));
  });

  it("makes pages of at most 350 kB", async () => {
    const scenario = demo("observatory");
    const page = lessonPage(await buildTemplate(), { title: scenario.title, seed: "1", scenario });
    expect(Buffer.byteLength(page)).toBeLessThanOrEqual(budget);
  });

  it("forbids everything but itself, and runs the one script it names by its digest", async () => {
    const template = await buildTemplate();
    const policy = /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(template)![1]!;
    expect(policy).toMatch(/^default-src 'none';/);
    expect(policy).not.toMatch(/unsafe|https?:|\*/);
    const script = /<script>([\s\S]*?)<\/script>/.exec(template)![1]!;
    const digest = createHash("sha256").update(script).digest("base64");
    expect(policy).toContain(`'sha256-${digest}'`);
  });

  it("carries the licences of the packages in it", async () => {
    const template = await buildTemplate();
    for (const name of ["csv-stringify", "d3-scale", "d3-shape", "seedrandom"]) {
      expect(template).toContain(`${name}: `);
    }
    expect(template).toMatch(/permission notice appear in all copies/);
    expect(template).toMatch(/permission notice shall be included in all copies/);
  });
});
