import { readdirSync, readFileSync } from "node:fs";
import { join, sep } from "node:path";
import { dist } from "./one-process.ts";

/** A place of the built program where something is said to the user that is no result. */
export interface MessageSite {
  /** Absolute path of the file, and offset in it. */
  readonly path: string;
  readonly offset: number;
  /** `scenario/sense-drive.js: report.fault(["drive", "burst_s"], ...` */
  readonly name: string;
}

/** What makes a message: errors everywhere, and in some rooms the functions that lead up to them. */
const makers: readonly (readonly [room: RegExp, maker: RegExp])[] = [
  [/./, /\bthrow new (?:Usage|Data|File|Input|Scenario|InvalidArgument)Error\(/g],
  [/./, /\bcode: "(?!custom")[a-z_]+",/g],
  [/^(?:scenario|stages|keys)\//, /\b(?:refuse|stop|wrong|report\.fault|report\.warn)\((?!\[?$)/g],
  [/^scenario\/structure/, /\badd\(\[/g],
  [/^scenario\/(?:explain|extent|parse|schema|.*-section)/, /\bmessage: /g],
  [/^cli\/ensemble\/vary/, /\brefuse\(/g],
  [/^analysis\/rate\/fit-noise/, /\bnotes\.push\(/g],
  [/^log\/make-readings/, /\bnote\(/g],
  [/^log\/log-reader/, /#tell\(/g],
  [/^log\/dead-time/, /\bnote: `|\? `/g],
];

const src = join(dist, "../src");

/** Built as bundles of all the others, which speak for themselves; the sources hold no message. */
const bundles = ["index.js", "cli/main.js", "cli/ensemble/ensemble-worker.js"];

const blanked = (text: string) => text.replace(/[^\n]/g, " ");

/** Every such place, in the order of the files. */
export function messageSites(): MessageSite[] {
  // Named by their sources: an old build may have left others behind.
  const files = readdirSync(src, { recursive: true, encoding: "utf8" })
    .map((name) => name.split(sep).join("/").replace(/\.ts$/, ".js"))
    .filter((name) => name.endsWith(".js") && !name.startsWith("lab/") && !bundles.includes(name));
  return files.sort().flatMap((file) => {
    const path = join(dist, file);
    const text = readFileSync(path, "utf8");
    const code = text
      .replace(/\/\*[\s\S]*?\*\//g, blanked)
      .replace(/^\s*\/\/.*$/gm, blanked)
      // A declaration makes no message.
      .replace(/\b(?:const \w+ = |function )\w*\(/g, blanked);
    return makers
      .filter(([room]) => room.test(file))
      .flatMap(([, maker]) => [...code.matchAll(maker)])
      .map((match) => {
        const line = code.slice(code.lastIndexOf("\n", match.index) + 1).split("\n")[0]!;
        return { path, offset: match.index, name: `${file}: ${line.trim()}` };
      });
  });
}
