import { parseAccuracy } from "../../planning/accuracy.ts";
import type { SettingRules, Settings } from "./settings.ts";
import { lossLengths } from "./steps/drive-lost.ts";
import { burstSpans, mostBursts } from "./steps/inside-a-burst.ts";
import { longerGates } from "./steps/longer-gate.ts";
import { manyGatesValues } from "./steps/many-gates.ts";
import { looks, stagesIn } from "./steps/stages.ts";

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

const oneOf = (values: readonly string[]) => (text: string) => values.includes(text);
const wholeUpTo = (most: number) => (text: string) =>
  /^[1-9]\d*$/.test(text) && Number(text) <= most;

/** Longest seed that an address may hold; characters. */
const longestSeed = 200;

/**
 * What may stand in an address.
 *
 * @param steps - ids of the steps there are
 */
export function settingRules(steps: readonly string[]): SettingRules {
  return {
    step: oneOf(steps),
    seed: (text) => text !== "" && text.length <= longestSeed,
    periods: wholeUpTo(100),
    off: (text) => stagesIn(text).join(",") === text,
    look: oneOf(looks),
    gate: oneOf(longerGates),
    units: oneOf(manyGatesValues.units),
    count: oneOf(manyGatesValues.count),
    dead: oneOf(manyGatesValues.dead),
    edge: oneOf(manyGatesValues.edge),
    within: isAccuracy,
    way: (text) => /^[a-z_]{1,40}$/.test(text),
    burst: wholeUpTo(mostBursts),
    span: oneOf(burstSpans),
    lost: oneOf(lossLengths),
  };
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
