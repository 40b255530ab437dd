// Bundles program and library over their single modules: one file loads faster than hundreds, and what is constant in
// one file is a constant to the compiler, as an import is not.
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "rolldown";

await build({
  cwd: join(dirname(fileURLToPath(import.meta.url)), "..", ".."),
  input: {
    index: "src/index.ts",
    // In the folder that `installed.ts` counts places from.
    "cli/main": "src/cli/main.ts",
    "cli/ensemble/ensemble-worker": "src/cli/ensemble/ensemble-worker.ts",
  },
  platform: "node",
  // Packages stay outside.
  external: /^[^./]/,
  output: {
    dir: "dist",
    entryFileNames: "[name].js",
    chunkFileNames: "chunks/[name]-[hash].js",
    comments: false,
  },
  logLevel: "warn",
});
