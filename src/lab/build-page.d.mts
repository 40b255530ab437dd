/** Builds the template of the lesson; the same sources give the same bytes. */
export function buildTemplate(): Promise<string>;
