let interrupted = false;

/** Whether SIGINT or SIGTERM asked the program to stop. Long work looks at this now and then. */
export function isInterrupted(): boolean {
  return interrupted;
}

/** Catches the first SIGINT or SIGTERM; a second one ends the program at once. */
export function watchSignals(): void {
  for (const signal of ["SIGINT", "SIGTERM"] as const) {
    process.on(signal, () => {
      if (interrupted) process.exit(130);
      interrupted = true;
    });
  }
}
