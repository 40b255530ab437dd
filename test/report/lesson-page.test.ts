import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lessonPage } from "../../src/view/report/index.ts";
import { demo } from "../page/lesson-file.ts";

const template =
  '<title>@title@</title><h1>@heading@</h1><script type="application/json">@data@</script>';
const scenario = demo("school-laboratory");

/** The data as a browser reads it: up to the first end of a script element. */
const dataIn = (page: string) =>
  JSON.parse(/<script type="application\/json">([\s\S]*?)<\/script/.exec(page)![1]!);

describe("lessonPage", () => {
  it("gives back any text, and lets none of it become a tag", () => {
    const text = fc.oneof(
      fc.string({ unit: "binary", maxLength: 80 }),
      fc.constantFrom("</script><script>", "<!--<script>", "$&$1$`", "@data@", "\u2028", "\ud800"),
    );
    fc.assert(
      fc.property(text, text, (title, seed) => {
        const page = lessonPage(template, { title, seed, scenario });
        expect(dataIn(page)).toEqual(JSON.parse(JSON.stringify({ title, seed, scenario })));
        expect(page.match(/</g)!.length).toBe(6);
      }),
      { seed: 11 },
    );
  });

  it("cuts long titles between characters, and keeps them whole in the data", () => {
    const title = "🕰".repeat(1000);
    const page = lessonPage(template, { title, seed: "1", scenario });
    expect(/<title>(.*)<\/title>/.exec(page)![1]).toBe(`${"🕰".repeat(120)}…`);
    expect(dataIn(page).title).toBe(title);
  });

  it.each(["<h1>@heading@</h1>@data@", `${template}@title@`])("refuses the template %s", (bad) => {
    expect(() => lessonPage(bad, { title: "", seed: "", scenario })).toThrow(RangeError);
  });
});
