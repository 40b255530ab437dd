import type { RateMethod } from "../judgement/index.ts";
import { estimatorNames } from "../view/words/index.ts";
import { wrap } from "./style.ts";

/** What must be known of an estimate to say that it does not apply. */
interface Refusable {
  readonly method: RateMethod;
  readonly applies: boolean;
  readonly why: string;
}

/**
 * Which estimators do not apply, and why: those refused for one reason are named together.
 *
 * @param estimates - all of them
 * @returns lines to be printed; none where all apply
 */
export function refusals(estimates: readonly Refusable[]): string[] {
  const methods = new Map<string, string[]>();
  for (const { method, applies, why } of estimates) {
    if (applies) continue;
    const names = methods.get(why) ?? [];
    names.push(estimatorNames[method]);
    methods.set(why, names);
  }
  return [...methods].map(([why, names]) => {
    const last = names.pop()!;
    const subject = names.length === 0 ? `${last} does` : `${names.join(", ")} and ${last} do`;
    return wrap(`${subject} not apply: ${why}`, 80, "  ");
  });
}
