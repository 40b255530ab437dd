import { parseAccuracy } from "../../planning/index.ts";
import type { SettingRules, Settings } from "./settings.ts";
import type { Control, Step } from "./step.ts";

/**
 * What is set where the address says nothing.
 *
 * @param seed - the seed the page was made with
 */
export function defaultSettings(seed: string): Settings {
  return {
    step: "period",
    seed,
    periods: "1",
    off: "",
    look: "1",
    gate: "10",
    units: "10",
    count: "40",
    dead: "no",
    edge: "none",
    within: "10 ms/day",
    way: "back_to_back_line",
    burst: "1",
    span: "step",
    lost: "30",
  };
}

/** Longest seed that an address may hold; characters. */
const longestSeed = 200;

/**
 * What may stand in an address: what the controls of the steps can set, a step, and a seed.
 *
 * @param steps - the steps there are
 */
export function settingRules(steps: readonly Step[]): SettingRules {
  const rules: Record<string, (text: string) => boolean> = {
    step: (text) => steps.some(({ id }) => id === text),
    seed: (text) => text !== "" && text.length <= longestSeed,
    way: (text) => /^[a-z_]{1,40}$/.test(text),
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
