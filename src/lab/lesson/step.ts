import type { Scenario } from "../../scenario/index.ts";
import type { ChartOptions, SvgNode } from "../../view/chart/index.ts";
import type { TaskName, Tasks } from "../protocol.ts";
import type { Settings } from "./settings.ts";

/** What the lesson is about. */
export interface LessonContext {
  /** As the lesson looks at it. */
  readonly scenario: Scenario;
  readonly title: string;
}

/** A control that sets one setting, by its kind. */
export type Control =
  | {
      readonly kind: "stepper";
      readonly key: keyof Settings;
      readonly label: string;
      readonly least: number;
      readonly most: number;
      readonly back: string;
      readonly on: string;
    }
  | {
      readonly kind: "range";
      readonly key: keyof Settings;
      readonly label: string;
      readonly values: readonly string[];
      readonly text: (value: string) => string;
    }
  | {
      readonly kind: "select";
      readonly key: keyof Settings;
      readonly label: string;
      readonly values: readonly string[];
      readonly text: (value: string) => string;
    }
  | {
      readonly kind: "stages";
      readonly key: keyof Settings;
      readonly label: string;
      readonly values: readonly string[];
      readonly text: (value: string) => string;
    }
  | {
      readonly kind: "accuracy";
      readonly key: keyof Settings;
      readonly label: string;
      readonly hint: string;
    };

/** A number as the counter shows it, and how much of it means something. */
export interface ShownReading {
  readonly label: string;
  readonly value: number;
  /** Standard uncertainty; same unit. */
  readonly uncertainty: number;
  readonly decimals: number;
  readonly unit: string;
}

/** A table of the numbers in the pictures. */
export interface ShownTable {
  readonly caption: string;
  /** Whether it is unfolded at first. */
  readonly isOpen?: boolean;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** What came out, ready to be shown. */
export interface Shown {
  readonly reading: ShownReading | null;
  readonly pictures: readonly ((options: ChartOptions) => SvgNode)[];
  /** The result in words, a sentence or a few. */
  readonly words: string;
  /** Which of the predictions was right; null where the settings are not those of the question. */
  readonly right: number | null;
  readonly table: ShownTable;
}

/** A step of the lesson: a question to predict, a control, and what comes out. */
export interface Step<T extends TaskName = TaskName> {
  readonly id: string;
  readonly title: string;
  readonly intro: string;
  readonly question: string;
  readonly choices: readonly string[];
  readonly controls: readonly Control[];
  /** Whether the question is about what is set, so that the controls stand before it. */
  readonly controlsFirst?: boolean;
  readonly task: T;
  readonly ask: (settings: Settings) => Tasks[T]["ask"];
  readonly show: (answer: Tasks[T]["answer"], settings: Settings) => Shown;
}
