import { cleanText } from "../chart/index.ts";

const references: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Any text as HTML shows it, in content and in attributes (HTML Standard, 13.1.2.4). */
export const escaped = (text: string) =>
  cleanText(text).replace(/[&<>"']/g, (character) => references[character]!);
