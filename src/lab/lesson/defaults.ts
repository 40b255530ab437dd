import { parseAccuracy } from "../../planning/index.ts";
import { classBudget, runsIn } from "./class-code.ts";
import { gatesIn } from "./gates-text.ts";
import type { SettingRules, Settings } from "./settings.ts";
import type { Control, Step } from "./step.ts";

/**
 * What is set where the address says nothing.
 *
 * @param seed - the seed the page was made with
 */
export function defaultSettings(seed: string): Settings {
  return {
    step: "chain",
    seed,
    said: "",
    periods: "1",
    off: "",
    look: "1",
    gates: "0-4,4-8,10-13",
    outlier: "0",
    units: "10",
    count: "40",
    dead: "no",
    of: "mean_of_readings",
    about: "run",
    within: "10 ms/day",
    way: "back_to_back_line",
    burst: "1",
    span: "step",
    lost: "30",
    word: "",
    name: "",
    runs: "",
  };
}

/** Runs of the class challenge, and the time that they take together. */
const runsPattern = /^[1-9]\d{0,2}x[1-9]\d{0,2}(\.[1-9]\d{0,2}x[1-9]\d{0,2}){0,99}$/;
const timeOf = (text: string) =>
  runsIn(text).reduce((sum, [units, readings]) => sum + units * readings, 0);

/** Longest text that an address may hold, but for predictions; characters. */
const longestText = 200;

/**
 * What may stand in an address: what the controls of the steps can set, a step, and texts.
 *
 * @param steps - the steps there are
 */
export function settingRules(steps: readonly Step[]): SettingRules {
  const isText = (text: string) => text !== "" && text.length <= longestText;
  const rules: Record<string, (text: string) => boolean> = {
    step: (text) => steps.some(({ id }) => id === text),
    seed: isText,
    said: (text) => /^[\w.-]*$/.test(text) && text.length <= 10 * longestText,
    gates: (text) => gatesIn(text) !== null,
    outlier: (text) => /^\d{1,2}$/.test(text),
    way: (text) => /^[a-z_]{1,40}$/.test(text),
    word: isText,
    name: isText,
    runs: (text) => runsPattern.test(text) && timeOf(text) <= classBudget,
  };
  for (const control of steps.flatMap(({ controls }) => controls)) {
    rules[control.key] = (text) => isSettable(control, text);
  }
  return rules;
}

function isSettable(control: Control, text: string): boolean {
  switch (control.kind) {
    case "stepper": {
      const value = Number(text);
      return /^[1-9]\d*$/.test(text) && value >= control.least && value <= control.most;
    }
    case "range":
    case "select":
      return control.values.includes(text);
    case "stages": {
      const off = text.split(",");
      return text === control.values.filter((stage) => off.includes(stage)).join(",");
    }
    case "accuracy":
      return isAccuracy(text);
  }
}

/** Whether a text is an accuracy as the command line takes it. */
export function isAccuracy(text: string): boolean {
  try {
    parseAccuracy(text);
    return true;
  } catch {
    return false;
  }
}
