import type { Warning } from "../scenario/index.ts";
import { wrap } from "./style.ts";

/** Warnings on stderr, one after the other. */
export function printWarnings(warnings: readonly Warning[]): void {
  for (const { path, message } of warnings) {
    process.stderr.write(
      `${wrap(`warning: ${path === "" ? "" : `${path}: `}${message}`, 80, "  ")}\n`,
    );
  }
}
