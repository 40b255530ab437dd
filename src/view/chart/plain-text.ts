/** What a terminal would obey rather than print: C0 and C1 controls but line ends and tabs, DEL, marks that turn text about. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for
const controls = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/g;

/**
 * Text from outside (titles, names of files, arguments) that a terminal cannot take for commands.
 *
 * @param text - any text
 * @returns the same with U+FFFD, the replacement character, in the place of each control; line ends and tabs stay
 *
 * Source: ECMA-48, control functions; Unicode Standard Annex 9, explicit directional formatting characters.
 * Exact case: ESC [ 2 J, which clears a screen, comes out as U+FFFD [ 2 J.
 */
export function plainText(text: string): string {
  return text.replace(controls, "\ufffd");
}
