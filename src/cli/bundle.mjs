// Bundles program and library over their single modules: a few files load faster than hundreds, and what is constant in
// one file is a constant to the compiler, as an import is not.
import { writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "rolldown";
import { licences } from "../licences.mjs";

const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const common = { cwd: root, platform: "node", logLevel: "warn" };

// The library asks for its packages as any other does.
await build({
  ...common,
  input: { index: "src/index.ts" },
  external: /^[^./]/,
  output: { dir: "dist", entryFileNames: "[name].js", comments: false },
});

// The program brings what it uses of them: hundreds of their files would take longer to load than all of its own.
const { output } = await build({
  ...common,
  input: {
    "cli/main": "src/cli/main.ts",
    "cli/ensemble/ensemble-worker": "src/cli/ensemble/ensemble-worker.ts",
  },
  output: {
    dir: "dist",
    cleanDir: false,
    entryFileNames: "[name].js",
    // As deep as the sources that `installed.ts` counts places from.
    chunkFileNames: "chunks/[name]-[hash].js",
    comments: false,
    // Each command loads what it needs; what runs for long stays together.
    codeSplitting: {
      groups: [{ name: "engine", test: /src\/(numeric|kernel|noise|stages|chain)\// }],
    },
  },
});
const inputs = output.flatMap(({ moduleIds }) => moduleIds ?? []);
writeFileSync(join(root, "dist", "chunks", "LICENSES.txt"), `${licences(inputs)}\n`);
