/** Something a scenario may do but that its author should know of. */
export interface Warning {
  /** Short name of the kind of warning, in lower case with underscores. */
  readonly code: string;
  /** Key the warning is about, from the top of the scenario, joined by dots. */
  readonly path: string;
  /** One sentence for people. */
  readonly message: string;
}
