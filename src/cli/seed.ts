import { createHash, randomBytes } from "node:crypto";

/** The seed of a run: from the command line, else from the scenario, else a fresh one. */
export function chooseSeed(asked: string | undefined, ofScenario: string | null): string {
  return asked ?? ofScenario ?? randomBytes(6).toString("hex");
}

/**
 * A seed (or any text) as part of a folder's name: what is no plain letter, digit, dot or hyphen is replaced,
 * and a few signs of a digest keep different ones apart.
 */
export function folderPart(text: string): string {
  const plain = text
    .replace(/[^A-Za-z0-9.-]+/g, "_")
    .replace(/^\.+/, "_")
    .slice(0, 60);
  if (plain === text && text !== "") return text;
  return `${plain}-${createHash("sha256").update(text).digest("hex").slice(0, 8)}`;
}
