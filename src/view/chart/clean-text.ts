/** What XML 1.0 allows no document to hold, not even as a reference: most controls, lone surrogates, U+FFFE/F. */
const forbidden =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/**
 * Text with every character that XML cannot hold replaced by U+FFFD, the replacement character.
 *
 * @param text - any string, users' text included
 * @returns the same text where it was fit for XML
 *
 * Source: XML 1.0 (fifth edition), production 2 (Char). Exact case: "a\u0000b" gives "a\ufffdb".
 */
export function cleanText(text: string): string {
  return text.replace(forbidden, "\ufffd");
}
