import type { Scenario } from "../scenario/index.ts";

/** What a page is made for: the element `lesson-data` holds it as JSON. */
export interface LessonData {
  readonly title: string;
  readonly seed: string;
  readonly scenario: Scenario;
}
