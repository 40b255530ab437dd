// Builds the template of the lesson: one HTML file with everything in it but the scenario.
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { deflateSync } from "node:zlib";
import { rolldown } from "rolldown";
import { licences } from "../licences.mjs";

const lab = dirname(fileURLToPath(import.meta.url));
const root = join(lab, "..", "..");

/** Bundles one entry as a classic script. */
async function bundle(entry, transform = {}) {
  const build = await rolldown({
    input: join(lab, entry),
    cwd: root,
    platform: "browser",
    resolve: {
      // Its index brings generators of other authors, which nobody calls.
      alias: { seedrandom: "seedrandom/seedrandom.js" },
    },
    transform: { target: "es2022", ...transform },
  });
  const { output } = await build.generate({ format: "iife", minify: true, comments: false });
  await build.close();
  return { text: output[0].code.trimEnd(), inputs: output[0].moduleIds };
}

/** Text that may stand inside a script element. */
const forScript = (text) => text.replace(/<\/(script)/gi, "<\\/$1").replace(/<!--/g, "<\\!--");

/** Program text as a data block: deflated, in base64. */
const packed = (text) => deflateSync(text, { level: 9 }).toString("base64");

const hash = (text) => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;

/**
 * Builds the template; the same sources give the same bytes.
 *
 * @returns {Promise<string>} HTML with the marks @title@, @heading@ and @data@ left to be filled in
 */
export async function buildTemplate() {
  const worker = await bundle("worker/main.ts", {
    inject: { Buffer: [join(lab, "no-buffer.ts"), "Buffer"] },
  });
  const page = await bundle("page/main.ts");
  const loader = await bundle("page/loader.ts");
  const styles = ["page.css", "controls.css", "play.css", "media.css"];
  const style = styles.map((name) => readFileSync(join(lab, "page", name), "utf8")).join("").trimEnd();
  const script = forScript(loader.text);
  // A comment must not hold two dashes.
  const body = licences([...worker.inputs, ...page.inputs]).replace(/--+/g, "-");
  const parts = {
    "script-hash": hash(script),
    "style-hash": hash(style),
    style,
    "page-code": packed(page.text),
    "worker-code": packed(worker.text),
    script,
    notices: `<!--\nThis page contains parts of these packages.\n\n${body}\n-->`,
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
