import type { Scenario } from "../../scenario/index.ts";
import type { ChartOptions, SvgNode } from "../../view/chart/index.ts";
import type { TaskName, Tasks } from "../protocol.ts";
import type { Grade } from "./grade.ts";
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

/** What is asked before a result is shown. */
export type Question =
  | { readonly kind: "choice"; readonly text: string; readonly choices: readonly string[] }
  | {
      /** An amount, placed on a scale. */
      readonly kind: "amount";
      readonly text: string;
      readonly values: readonly number[];
      readonly write: (value: number) => string;
    }
  | {
      /** A curve through given places, drawn from 1 downwards. */
      readonly kind: "sketch";
      readonly text: string;
      readonly places: readonly number[];
      readonly name: (place: number) => string;
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
  /** What a prediction is worth; null where the settings are not those of the question. */
  readonly grade: ((said: string) => Grade) | null;
  readonly table: ShownTable;
}

/** A step of the lesson: a question to predict, a control, and what comes out. */
export interface Step<T extends TaskName = TaskName> {
  readonly id: string;
  readonly title: string;
  readonly intro: string;
  readonly question: Question;
  readonly controls: readonly Control[];
  /** What is played with beside it, and stands there before the question is answered. */
  readonly play?: "motion" | "timeline";
  /** Whether the question is about what is set, so that the controls stand before it. */
  readonly controlsFirst?: boolean;
  readonly task: T;
  readonly ask: (settings: Settings) => Tasks[T]["ask"];
  readonly show: (answer: Tasks[T]["answer"], settings: Settings) => Shown;
}

/** Amounts 1, 2, 5, 10 … from one power of ten to another. */
export const scaleOf = (from: number, to: number): readonly number[] =>
  Array.from({ length: 3 * (to - from) + 1 }, (_, i) =>
    Number(`${[1, 2, 5][i % 3]}e${from + Math.floor(i / 3)}`),
  );
