import type { Scenario } from "../../scenario/index.ts";
import { escaped } from "../chart/index.ts";

/** What a lesson is about. */
export interface LessonSubject {
  /** Title of the scenario; any text. */
  readonly title: string;
  readonly seed: string;
  readonly scenario: Scenario;
}

/** Longest title of a window, and longest heading; characters. */
const [longestTitle, longestHeading] = [120, 300];

function cut(text: string, longest: number): string {
  const characters = [...text];
  return characters.length > longest ? `${characters.slice(0, longest).join("")}…` : text;
}

/**
 * Puts a scenario into the template of the lesson.
 *
 * @param template - HTML with the marks `@title@`, `@heading@` and `@data@`
 * @param subject - what the lesson is about; texts in it may hold anything
 * @returns the page
 * @throws RangeError if a mark is missing, or stands there twice
 *
 * Source: HTML Standard, 13.2.5.4 (a script element ends at `</script`): with every `<` of the data written as
 * an escape of JSON it holds no tag.
 */
export function lessonPage(template: string, subject: LessonSubject): string {
  const { title } = subject;
  const parts: Readonly<Record<string, string>> = {
    title: escaped(cut(title, longestTitle)),
    heading: escaped(cut(title, longestHeading)),
    data: JSON.stringify(subject)
      .replaceAll("<", "\\u003c")
      .replace(/[\u2028\u2029]/g, (mark) => (mark === "\u2028" ? "\\u2028" : "\\u2029")),
  };
  for (const name of Object.keys(parts)) {
    const places = template.split(`@${name}@`).length - 1;
    if (places !== 1) {
      throw new RangeError(`lessonPage: template must have @${name}@ once, got it ${places} times`);
    }
  }
  return template.replace(/@(title|heading|data)@/g, (_mark, name: string) => parts[name]!);
}
