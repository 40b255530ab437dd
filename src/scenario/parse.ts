import {
  type Derived,
  type Fault,
  type KeyPath,
  SenseReport,
  type Warning,
} from "../keys/index.ts";
import { absent, explainIssue } from "./explain-issue.ts";
import { extentFaults } from "./extent-faults.ts";
import { fillClasses } from "./fill-classes.ts";
import { applyOverrides, type Override, readOverride } from "./overrides.ts";
import { type ReadDocument, readDocument } from "./read-document.ts";
import { resolveScenario } from "./resolve.ts";
import type { Scenario } from "./scenario.ts";
import { type Complaint, ScenarioError } from "./scenario-error.ts";
import { type ScenarioDocument, scenarioSchema } from "./schema.ts";
import { senseOfStages } from "./sections.ts";
import { senseOfDisturbances } from "./sense-disturbances.ts";
import { senseOfStructure } from "./structure.ts";

/** A scenario ready to run, and what its author should know. */
export interface ParsedScenario {
  readonly scenario: Scenario;
  readonly warnings: readonly Warning[];
  /** Values that the file does not state as they are. */
  readonly derived: readonly Derived[];
}

/** So many complaints are told one by one; the rest only by number. */
const mostComplaints = 20;
/** So many faults are looked up in the text, to tell the first of them in the order of the file. */
const mostLocated = 200;

const startsWith = (path: KeyPath, start: KeyPath) =>
  start.every((step, depth) => String(path[depth]) === String(step));

/** The override that a fault comes from, or undefined where it comes from the file. */
function overrideOf(path: KeyPath, read: ReadDocument, overrides: readonly Override[]) {
  const section = path.slice(0, -1);
  return overrides.findLast(
    (override) =>
      startsWith(path, override.path) ||
      (!read.has(path) && startsWith(override.path, path)) ||
      (section.length > 0 && !read.has(section) && startsWith(override.path, section)),
  );
}

function located(
  { path, at, message, hint }: Fault,
  file: string,
  read: ReadDocument,
  overrides: readonly Override[],
): Complaint {
  const override = overrideOf(path, read, overrides);
  const place =
    override === undefined
      ? { file, ...read.place(path, at) }
      : { file: override.name, line: null, column: null };
  return { ...place, path: path.join("."), message, hint };
}

/** In the order of the file, the first of them only if they are many. */
function inOrder(complaints: Complaint[], total: number): Complaint[] {
  complaints.sort((a, b) => (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0));
  const rest = total - mostComplaints;
  if (rest <= 0) return complaints;
  const last = complaints[mostComplaints]!;
  const more = { ...last, path: "", message: `and ${rest} more faults`, hint: "" };
  return [...complaints.slice(0, mostComplaints), more];
}

function checked(value: unknown): { document: ScenarioDocument } | { faults: Fault[] } {
  const result = scenarioSchema.safeParse(value);
  if (result.success) return { document: result.data };
  const faults = result.error.issues.flatMap((issue) => explainIssue(scenarioSchema, value, issue));
  return { faults: withoutEchoes(faults) };
}

/** A key mistyped is not told again as the key that is missing. */
function withoutEchoes(faults: readonly Fault[]): Fault[] {
  const meant = new Set(faults.map((fault) => fault.meant).filter((key) => key !== undefined));
  return faults.filter(({ path, message }) => message !== absent || !meant.has(path.join(".")));
}

/**
 * Reads a scenario: YAML or JSON text in, a resolved scenario out.
 *
 * Pure: reads no file, prints nothing.
 *
 * @param text - the text of the file
 * @param file - what to call it in complaints
 * @param sets - overrides `PATH=VALUE`, applied in their order before anything is checked
 * @returns the scenario, SI units, defaults filled in, frozen; and warnings
 * @throws ScenarioError with everything that is wrong, each with its place
 */
export function parseScenario(
  text: string,
  file: string,
  sets: readonly string[] = [],
): ParsedScenario {
  const read = readDocument(text, file);
  const overrides = sets.map(readOverride);
  if (typeof read.value !== "object" || read.value === null || Array.isArray(read.value)) {
    const message = "is no scenario: it must have keys with values, such as length_s: 3600";
    throw new ScenarioError([{ file, ...read.place([], "value"), path: "", message, hint: "" }]);
  }
  const refuse = (faults: readonly Fault[]): never => {
    const complaints = faults
      .slice(0, mostLocated)
      .map((fault) => located(fault, file, read, overrides));
    throw new ScenarioError(inOrder(complaints, faults.length));
  };

  const { filled, derived } = fillClasses(applyOverrides(read.value, overrides));
  const result = checked(filled);
  if ("faults" in result) return refuse(result.faults);
  const { document } = result;
  const extents = extentFaults(document);
  if (extents.length > 0) return refuse(extents);
  const report = new SenseReport();
  warnOfOrder(document, report);
  warnOfTypical(derived, report);
  senseOfStructure(document, report);
  const scenario = resolveScenario(document, report);
  if (report.faults.length > 0) return refuse(report.faults);
  senseOfStages(scenario, report);
  senseOfDisturbances(scenario, timeOrder(document), report);
  if (report.faults.length > 0) return refuse(report.faults);
  return { scenario, warnings: report.warnings, derived: [...derived, ...report.derived] };
}

/** Index in the file of each disturbance, in order of time. */
function timeOrder({ disturbances }: ScenarioDocument): number[] {
  const at = (index: number) => disturbances[index]!.at_s;
  return disturbances.map((_, index) => index).sort((a, b) => at(a) - at(b));
}

/** What is typical of a class is no knowledge of the one at hand. */
function warnOfTypical(derived: readonly Derived[], report: SenseReport): void {
  if (derived.length === 0) return;
  const paths = derived.map(({ path }) => path);
  report.warn(
    "typical_values",
    [paths[0]!],
    `is typical of a class, not known of yours${paths.length > 1 ? ` (so are ${paths.length - 1} more)` : ""}: what follows is an order of magnitude; check the data sheet`,
  );
}

/** Disturbances written out of order: they happen in order of time all the same. */
function warnOfOrder({ disturbances }: ScenarioDocument, report: SenseReport): void {
  disturbances.forEach(({ at_s }, index) => {
    if (index === 0 || at_s >= disturbances[index - 1]!.at_s) return;
    report.warn(
      "disturbance_order",
      ["disturbances", index, "at_s"],
      "is earlier than the one before it; they happen in order of time",
    );
  });
}
