// Bundles the program over its single modules: one file loads faster, and constants stay constants to the compiler.
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "rolldown";

const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");

await build({
  cwd: root,
  input: {
    "cli/main": "src/cli/main.ts",
    "cli/ensemble/ensemble-worker": "src/cli/ensemble/ensemble-worker.ts",
  },
  platform: "node",
  // Packages stay outside.
  external: /^[^./]/,
  output: {
    dir: "dist",
    format: "es",
    entryFileNames: "[name].js",
    // Beside `main.js`: `installed.ts` knows places by theirs.
    chunkFileNames: "cli/[name]-[hash].js",
    comments: false,
  },
  logLevel: "warn",
});
