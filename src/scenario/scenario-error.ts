/** One thing that is wrong with a scenario, and where. */
export interface Complaint {
  /** Name of the file, or the override as it was written (`--set drive.burst_s=0.1`). */
  readonly file: string;
  /** Line of the file, from 1; null where the fault is in an override. */
  readonly line: number | null;
  /** Column of the line, from 1; null where the fault is in an override. */
  readonly column: number | null;
  /** Key, from the top of the scenario, joined by dots; empty where the whole text is meant. */
  readonly path: string;
  /** What is wrong. */
  readonly message: string;
  /** What to do about it; empty where nothing useful can be said. */
  readonly hint: string;
}

/**
 * A complaint as one line of text: `file:line:col: path: message; hint`.
 *
 * @param complaint - the complaint
 * @returns one line, without line feed
 */
export function complaintText(complaint: Complaint): string {
  const { file, line, column, path, message, hint } = complaint;
  const place = line === null ? file : `${file}:${line}:${column}`;
  const said = hint === "" ? message : `${message}; ${hint}`;
  return path === "" ? `${place}: ${said}` : `${place}: ${path}: ${said}`;
}

/** A scenario that cannot be used. Its message is the list of complaints, one a line. */
export class ScenarioError extends Error {
  readonly complaints: readonly Complaint[];

  constructor(complaints: readonly Complaint[]) {
    super(complaints.map(complaintText).join("\n"));
    this.name = "ScenarioError";
    this.complaints = complaints;
  }
}
