/** Keys and list indices from the top of a scenario down. */
export type KeyPath = readonly (string | number)[];

/** A fault of the content of a scenario, not yet located in the text. */
export interface Fault {
  readonly path: KeyPath;
  /** Whether the key or its value is at fault. */
  readonly at: "key" | "value";
  readonly message: string;
  readonly hint: string;
  /** Path, joined by dots, of the key that an unknown one was most likely meant to be. */
  readonly meant?: string;
}

/** Something a scenario may do but that its author should know of. */
export interface Warning {
  /** Short name of the kind of warning, in lower case with underscores. */
  readonly code: string;
  /** Key the warning is about, from the top of the scenario, joined by dots. */
  readonly path: string;
  /** One sentence for people. */
  readonly message: string;
}

/** A value that stands in no file as it is: converted, or typical of a class; and where it comes from. */
export interface Derived {
  /** Key it stands at, from the top of the scenario, joined by dots. */
  readonly path: string;
  /** In SI units, by the unit of the key. */
  readonly value: number;
  /** What it was made of, with the source; for people. */
  readonly from: string;
}

/** What a check for sense found. */
export interface Sense {
  readonly faults: readonly Fault[];
  readonly warnings: readonly Warning[];
  readonly derived: readonly Derived[];
}

/** Collects what the checks of a scenario find. */
export class SenseReport implements Sense {
  readonly faults: Fault[] = [];
  readonly warnings: Warning[] = [];
  readonly derived: Derived[] = [];

  /** Notes a value that makes the scenario unusable. */
  fault(path: KeyPath, message: string, hint = ""): void {
    this.faults.push({ path, at: "value", message, hint });
  }

  /** Notes a section that cannot stand as the scenario is. */
  misplaced(section: string, message: string, hint: string): void {
    this.faults.push({ path: [section], at: "key", message, hint });
  }

  /** Notes something its author should know of. */
  warn(code: string, path: KeyPath, message: string): void {
    this.warnings.push({ code, path: path.join("."), message });
  }

  /** Notes a value that no file states as it is. */
  derive(path: KeyPath, value: number, from: string): void {
    this.derived.push({ path: path.join("."), value, from });
  }
}
