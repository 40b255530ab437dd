import { type Complaint, ScenarioError } from "../scenario/index.ts";

/**
 * Lets complaints about overrides name what was written on the command line, where that was not `--set`.
 *
 * @param written - for each override, as complaints call it (`--set counter.gate_s=5`), what was written (`--gate 5`)
 * @param act - what may complain
 * @throws ScenarioError of `act`, its complaints renamed
 */
export function asWritten<T>(written: ReadonlyMap<string, string>, act: () => T): T {
  try {
    return act();
  } catch (error) {
    if (!(error instanceof ScenarioError)) throw error;
    const renamed = error.complaints.map(
      (complaint): Complaint => ({
        ...complaint,
        file: written.get(complaint.file) ?? complaint.file,
      }),
    );
    throw new ScenarioError(renamed);
  }
}
