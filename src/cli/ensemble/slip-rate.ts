/** What steps lost or gained at random do to the rate on the average, with its sign; dimensionless. */
export function slipRateOf(
  systematic: readonly { readonly cause: string; readonly bound: number }[],
): number {
  return systematic.reduce((sum, { cause, bound }) => {
    if (cause === "steps lost") return sum - bound;
    return cause === "steps gained" ? sum + bound : sum;
  }, 0);
}
