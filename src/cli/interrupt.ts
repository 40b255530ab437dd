import { exitCode } from "./exit-code.ts";

let interrupted = false;

/** Whether SIGINT or SIGTERM asked the program to stop. Long work looks at this now and then. */
export function isInterrupted(): boolean {
  return interrupted;
}

const signals = ["SIGINT", "SIGTERM"] as const;

/** Ends the program at SIGINT or SIGTERM, while it loads or a worker does its work. */
export function leaveAtSignals(): void {
  listen(() => process.exit(exitCode.interrupted));
}

/** Leaves the signals to the system again: work in one go would not hear of them. */
export function leaveSignalsAlone(): void {
  for (const signal of signals) process.removeAllListeners(signal);
}

/**
 * Catches the first SIGINT or SIGTERM, for work that looks at `isInterrupted` and ends in good order.
 *
 * A second one ends the program at once: it is the system's again, which also stops what never looks, such as the
 * estimates of a long run.
 */
export function watchSignals(): void {
  listen(() => {
    interrupted = true;
    leaveSignalsAlone();
  });
}

function listen(answer: () => void): void {
  leaveSignalsAlone();
  for (const signal of signals) process.on(signal, answer);
}
