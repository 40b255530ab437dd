/** At most so many updates a second. */
const updatesPerSecond = 10;

/** Shows on stderr how far a long piece of work has come. */
export interface Progress {
  /** Says how far it is: a share from 0 to 1. */
  show(share: number): void;
  /** Takes the line away. */
  clear(): void;
}

/**
 * Progress on stderr where that is a terminal that can move its cursor, and nobody asked for quiet; else nothing.
 *
 * @param what - what is going on, e.g. "simulating"
 * @param isQuiet - whether the user asked for quiet
 */
export function progress(what: string, isQuiet: boolean): Progress {
  const { CI, TERM } = process.env;
  // A dumb terminal cannot take a line away again.
  const isShown = process.stderr.isTTY === true && TERM !== "dumb" && !CI && !isQuiet;
  let last = 0;
  let isOnScreen = false;
  return {
    show(share) {
      if (!isShown) return;
      const now = Date.now();
      if (now - last < 1000 / updatesPerSecond) return;
      last = now;
      isOnScreen = true;
      process.stderr.write(`\r${what} ${Math.floor(100 * Math.min(1, share))} % `);
    },
    clear() {
      if (isOnScreen) process.stderr.write("\r\u001b[K");
      isOnScreen = false;
    },
  };
}
