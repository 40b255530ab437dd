import type { Fault } from "./explain-issue.ts";
import type { KeyPath } from "./read-document.ts";
import type { Warning } from "./warning.ts";

/** What a check for sense found. */
export interface Sense {
  readonly faults: readonly Fault[];
  readonly warnings: readonly Warning[];
}

/** Collects what the checks for sense find. */
export class SenseReport implements Sense {
  readonly faults: Fault[] = [];
  readonly warnings: Warning[] = [];

  /** Notes something that makes the scenario unusable. */
  fault(path: KeyPath, message: string, hint = ""): void {
    this.faults.push({ path, at: "value", message, hint });
  }

  /** Notes something its author should know of. */
  warn(code: string, path: KeyPath, message: string): void {
    this.warnings.push({ code, path: path.join("."), message });
  }
}
