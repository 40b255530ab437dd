/** Widths of characters in ems, on the wide side of common sans-serif faces; 0.62 for what is not listed. */
const narrow = /[iljtfrI.,:;!|'()[\] \u2009\u202f\u00b7-]/u;
const wide = /[mwMW@%—]/u;
const capital = /\p{Lu}/u;
const superscript = /[⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺]/u;
const nothing = /[\p{Mn}\p{Me}\p{Cf}]/u;

const emsOf = (character: string): number => {
  if (nothing.test(character)) return 0;
  if (superscript.test(character)) return 0.42;
  if (narrow.test(character)) return 0.38;
  if (wide.test(character)) return 0.98;
  if (capital.test(character)) return 0.72;
  // From here on Hangul, kana, ideographs, emoji: full width, and some more for emoji.
  return character.codePointAt(0)! >= 0x1100 && !/\p{P}/u.test(character) ? 1.3 : 0.62;
};

/**
 * About how wide a line of text is drawn, on the wide side, since no font can be measured here.
 *
 * @param text - one line
 * @param size - font size; px, > 0
 * @returns width; px
 */
export function textWidth(text: string, size: number): number {
  let ems = 0;
  for (const character of text) {
    ems += emsOf(character);
  }
  return ems * size;
}

/** White space at which a line may break; a no-break or thin space holds a number and its unit together. */
const breaking = /[^\S\u00a0\u2009\u202f]+/gu;

/**
 * Text cut to a width, with an ellipsis where something was cut; never inside what a reader sees as one letter.
 *
 * @param text - any text; white space of any kind counts as one space
 * @param size - font size; px, > 0
 * @param width - room there is; px, > 0
 * @returns text no wider than that (a lone ellipsis where nothing fits)
 */
export function fitText(text: string, size: number, width: number): string {
  // Far more than any line holds: a text of megabytes must not cost anything.
  const line = text.slice(0, 2000).replace(breaking, " ").trim();
  if (text.length <= 2000 && textWidth(line, size) <= width) {
    return line;
  }
  let fitted = "";
  let used = textWidth("…", size);
  for (const { segment } of new Intl.Segmenter("en").segment(line)) {
    used += textWidth(segment, size);
    if (used > width) break;
    fitted += segment;
  }
  return `${fitted.trimEnd()}…`;
}

/**
 * Text broken into lines at spaces; a word too long for a line, and text beyond the last line, is cut.
 *
 * @param text - any text
 * @param size - font size; px, > 0
 * @param width - room there is; px, > 0
 * @param lines - most lines there may be; integer >= 1
 * @returns one to `lines` lines, none wider than width
 */
export function wrapText(text: string, size: number, width: number, lines: number): string[] {
  const words = text.slice(0, 2000).replace(breaking, " ").trim().split(" ");
  const wrapped: string[] = [];
  while (words.length > 0 && wrapped.length < lines - 1) {
    let line = words.shift()!;
    while (words.length > 0 && textWidth(`${line} ${words[0]}`, size) <= width) {
      line += ` ${words.shift()}`;
    }
    wrapped.push(fitText(line, size, width));
  }
  if (words.length > 0) {
    wrapped.push(fitText(words.join(" "), size, width));
  }
  return wrapped;
}
