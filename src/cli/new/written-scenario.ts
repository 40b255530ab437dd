import { shortNumber } from "../../numeric/index.ts";
import { factorOf, type KeyEffect } from "../../planning/index.ts";
import { keyDescription, scenarioSchema } from "../../scenario/index.ts";
import { wrap } from "../style.ts";
import type { DraftKey } from "./draft.ts";

const number = (value: number): string => shortNumber(value, 3);

const origins = {
  stated: "As you said.",
  follows: "Follows from what you said.",
  guess: "NOT KNOWN, a typical value.",
} as const;

/** How much a key matters to the length of a run, in words. */
export function mattering(effect: KeyEffect | undefined): string {
  if (effect === undefined) return "";
  const factor = factorOf(effect);
  if (factor === Infinity) return `at ${number(effect.worse)} no run is long enough`;
  return factor < 1.05
    ? "hardly changes the plan"
    : `changes the plan ${Number(factor.toPrecision(2))} ×`;
}

/** Keys of a path one in another, with their values. */
export function nested(keys: readonly Pick<DraftKey, "path" | "value">[]): Record<string, unknown> {
  const top: Record<string, unknown> = {};
  for (const { path, value } of keys) {
    const steps = path.split(".");
    let here = top;
    for (const step of steps.slice(0, -1)) {
      here[step] ??= {};
      here = here[step] as Record<string, unknown>;
    }
    here[steps.at(-1)!] = value;
  }
  return top;
}

/**
 * A scenario as a text in YAML, every key with a comment: meaning and unit, where the value comes from, between which
 * ends it typically lies and by what source, how much it matters, how to find out.
 *
 * @param head - what stands at the top, a paragraph a line
 * @param keys - in the order of the file
 * @param effects - of keys on the length of the run
 */
export function writtenScenario(
  head: readonly string[],
  keys: readonly DraftKey[],
  effects: readonly KeyEffect[],
): string {
  const value = nested(keys);
  const lines = head
    .flatMap((text) => wrap(text, 78).split("\n"))
    .map((text) => `# ${text}`.trimEnd());
  lines.push("");
  let open: readonly string[] = [];
  for (const key of keys) {
    const steps = key.path.split(".");
    const sections = steps.slice(0, -1);
    sections.forEach((section, depth) => {
      if (
        open[depth] === section &&
        open.slice(0, depth).join() === sections.slice(0, depth).join()
      )
        return;
      lines.push(`${"  ".repeat(depth)}${section}:`);
    });
    open = sections;
    const indent = "  ".repeat(sections.length);
    const { range, source, find } = key;
    const said = [
      `${keyDescription(scenarioSchema, value, steps)}.`,
      origins[key.origin],
      range ? `Typically ${number(range[0])} to ${number(range[1])} (${source}).` : "",
      mattering(effects.find(({ path }) => path === key.path)).replace(/^(?=.)(.*)$/, "It $1."),
      key.origin === "guess" && find ? `To find out: ${find}.` : "",
    ];
    const text = said.filter((part) => part !== "").join(" ");
    for (const line of wrap(text, 78 - indent.length).split("\n")) lines.push(`${indent}# ${line}`);
    const written =
      typeof key.value === "number" ? shortNumber(key.value, 15) : JSON.stringify(key.value);
    lines.push(`${indent}${steps.at(-1)}: ${written}`);
  }
  return `${lines.join("\n")}\n`;
}
