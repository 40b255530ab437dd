let interrupted = false;

/** Whether SIGINT or SIGTERM asked the program to stop. Long work looks at this now and then. */
export function isInterrupted(): boolean {
  return interrupted;
}

const signals = ["SIGINT", "SIGTERM"] as const;
let isWatching = false;

function note(): void {
  interrupted = true;
  for (const signal of signals) process.removeListener(signal, note);
}

/**
 * Catches the first SIGINT or SIGTERM, for work that looks at `isInterrupted` and ends in good order.
 *
 * A second one ends the program at once: it is the system's again, which also stops what never looks, such as the
 * estimates of a long run. Commands that do not simulate leave the signals to the system from the start.
 */
export function watchSignals(): void {
  if (isWatching) return;
  isWatching = true;
  for (const signal of signals) process.on(signal, note);
}
