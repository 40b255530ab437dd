import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");

/**
 * Licences of the packages that a bundle holds, each text once.
 *
 * @param {string[]} inputs - paths of the modules in the bundle
 */
export function licences(inputs) {
  const names = new Set(
    inputs.flatMap((path) => path.match(/node_modules\/((?:@[^/]+\/)?[^/]+)/)?.[1] ?? []),
  );
  const texts = new Map();
  for (const name of [...names].sort()) {
    const folder = join(root, "node_modules", name);
    const text = licence(folder);
    const [, holder = "", terms = text] = /^([\s\S]*?copyright[^\n]*)\n([\s\S]*)$/i.exec(text) ?? [];
    const key = terms.replace(/\s+/g, " ").trim();
    const holders = texts.get(key) ?? [];
    holders.push(`${name}: ${holder.replace(/\s+/g, " ").trim()}`);
    texts.set(key, holders);
  }
  const parts = [...texts].map(([terms, holders]) => `${holders.join("\n")}\n${terms}`);
  return parts.join("\n\n");
}

function licence(folder) {
  for (const name of ["LICENSE", "LICENSE.md", "LICENSE.txt", "LICENCE", "license"]) {
    try {
      return readFileSync(join(folder, name), "utf8");
    } catch {}
  }
  // Some packages have it at the end of their README instead.
  const [text] =
    /^Copyright [\s\S]*Permission [\s\S]*/m.exec(readFileSync(join(folder, "README.md"), "utf8")) ?? [];
  if (text === undefined) throw new Error(`${folder} has no licence to be shown`);
  return text;
}
