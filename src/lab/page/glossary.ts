import { button, element } from "./element.ts";

/** What the words of the lesson mean; the longest come first, so that they are found whole. */
const meanings: Readonly<Record<string, string>> = {
  "time base":
    "The oscillator inside the counter by which it measures. If it is off, every reading is.",
  "dead time": "The pause that a counter needs between two readings. Then they share no tick.",
  "back to back": "Readings without a pause: each begins with the tick that ended the one before.",
  "in the long run":
    "The rate that the clock keeps over many days, its daily ups and downs averaged.",
  "even grid": "When the ticks would come if all periods were alike.",
  threshold: "The voltage at which the receiver lets the clock step.",
  scatter: "How far readings of the same thing differ: their standard deviation.",
  burst: "A short piece of a tone. Each one makes the clock step once.",
  interval: "The range that holds the truth in 95 of 100 such runs.",
  gate: "The time over which the counter measures, from one tick to another.",
  seed: "The text that all chance on this page follows from: the same seed, the same run.",
};

const pattern = new RegExp(`\\b(${Object.keys(meanings).join("|")})(?=\\b|s\\b)`, "i");

let made = 0;

/**
 * A paragraph in which each word of the trade can be tapped for its meaning, where it stands first.
 *
 * @param text - the paragraph
 * @param properties - of its element
 */
export function paragraph(
  text: string,
  properties: Readonly<Record<string, string>> = {},
): HTMLElement {
  const parts: (Node | string)[] = [];
  const seen = new Set<string>();
  let rest = text;
  for (;;) {
    const found = pattern.exec(rest);
    if (found === null) break;
    const key = found[1]!.toLowerCase();
    const end = found.index + found[0].length;
    if (seen.has(key)) parts.push(rest.slice(0, end));
    else parts.push(rest.slice(0, found.index), ...term(found[0], meanings[key]!));
    seen.add(key);
    rest = rest.slice(end);
  }
  return element("p", properties, ...parts, rest);
}

function term(word: string, meaning: string): readonly HTMLElement[] {
  const id = `term-${++made}`;
  const note = element("span", { id, class: "meaning", popover: "auto", role: "note" }, meaning);
  const shown = button(word, () => {}, { class: "term", popovertarget: id });
  return [shown, note];
}
