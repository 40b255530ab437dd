// Builds the template of the lesson: one HTML file with everything in it but the scenario.
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { deflateSync } from "node:zlib";
import { build } from "esbuild";

const lab = dirname(fileURLToPath(import.meta.url));
const root = join(lab, "..", "..");

/** Bundles one entry as a classic script. */
async function bundle(entry, options = {}) {
  const { outputFiles, metafile } = await build({
    entryPoints: [join(lab, entry)],
    absWorkingDir: root,
    bundle: true,
    minify: true,
    write: false,
    metafile: true,
    format: "iife",
    platform: "browser",
    target: "es2022",
    charset: "utf8",
    legalComments: "none",
    // Its index brings generators of other authors, which nobody calls.
    alias: { seedrandom: "seedrandom/seedrandom.js" },
    outdir: join(root, "dist"),
    ...options,
  });
  return { text: outputFiles[0].text.trimEnd(), inputs: Object.keys(metafile.inputs) };
}

/** Text that may stand inside a script element. */
const forScript = (text) => text.replace(/<\/(script)/gi, "<\\/$1").replace(/<!--/g, "<\\!--");

/** Program text as a data block: deflated, in base64. */
const packed = (text) => deflateSync(text, { level: 9 }).toString("base64");

const hash = (text) => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;

/** Licences of the packages that a bundle holds, each text once, as a comment. */
function notices(inputs) {
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
  const body = parts.join("\n\n").replace(/--+/g, "-");
  return `<!--\nThis page contains parts of these packages.\n\n${body}\n-->`;
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

/**
 * Builds the template; the same sources give the same bytes.
 *
 * @returns {Promise<string>} HTML with the marks @title@, @heading@ and @data@ left to be filled in
 */
export async function buildTemplate() {
  const worker = await bundle("worker/main.ts", { inject: [join(lab, "no-buffer.ts")] });
  const page = await bundle("page/main.ts");
  const loader = await bundle("page/loader.ts");
  const style = await bundle("page/page.css");
  const script = forScript(loader.text);
  const parts = {
    "script-hash": hash(script),
    "style-hash": hash(style.text),
    style: style.text,
    "page-code": packed(page.text),
    "worker-code": packed(worker.text),
    script,
    notices: notices([...worker.inputs, ...page.inputs]),
  };
  const frame = readFileSync(join(lab, "page.html"), "utf8");
  return frame.replace(/@([a-z-]+)@/g, (mark, name) => parts[name] ?? mark);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const out = join(root, "dist", "lab", "lesson-template.html");
  const template = await buildTemplate();
  mkdirSync(dirname(out), { recursive: true });
  writeFileSync(out, template);
}
