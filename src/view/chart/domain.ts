import { pow } from "../../numeric/index.ts";

/** Lower and upper end of what an axis shows. */
export type Domain = readonly [low: number, high: number];

/**
 * Smallest and largest finite value of some records; NaN (a gap) and infinities are passed over.
 *
 * @param records - any number of arrays
 * @returns [lowest, highest], or null where nothing is finite
 */
export function finiteExtent(...records: readonly ArrayLike<number>[]): Domain | null {
  let low = Infinity;
  let high = -Infinity;
  for (const record of records) {
    for (let i = 0; i < record.length; i++) {
      const value = record[i]!;
      if (value > -Infinity && value < Infinity) {
        if (value < low) low = value;
        if (value > high) high = value;
      }
    }
  }
  return low <= high ? [low, high] : null;
}

/**
 * A domain with a little room at both ends, for a linear axis.
 *
 * @param domain - what must be seen; a single value is widened to a span about it
 * @param share - room at each end, as a share of the span; >= 0
 * @returns the wider domain
 */
export function padLinear([low, high]: Domain, share: number): Domain {
  const span = high - low;
  const room = span > 0 ? span * share : Math.abs(low) * 0.1 || 1;
  return [low - room, high + room];
}

/**
 * A domain with a little room at both ends, for a logarithmic axis.
 *
 * @param domain - what must be seen; > 0
 * @param decades - room at each end; decades, >= 0
 * @returns the wider domain, half a decade at least
 */
export function padLog([low, high]: Domain, decades: number): Domain {
  const short = Math.max(0, 0.5 - Math.log10(high / low)) / 2;
  const factor = pow(10, decades + short);
  return [low / factor, high * factor];
}

/**
 * Two logarithmic domains of which the tighter one is widened, so that a decade is as long on both axes.
 *
 * A slope is then the slope that is seen. Where that would more than double a domain it is left alone.
 *
 * @param x - horizontal domain; > 0
 * @param y - vertical domain; > 0
 * @param width - length of the horizontal axis; px
 * @param height - length of the vertical axis; px
 * @returns both domains
 *
 * Exact case: equal lengths and domains of 2 and 3 decades give 3 and 3.
 */
export function squareDecades(
  x: Domain,
  y: Domain,
  width: number,
  height: number,
): [Domain, Domain] {
  const xDecades = Math.log10(x[1] / x[0]);
  const yDecades = Math.log10(y[1] / y[0]);
  const perDecade = Math.min(width / xDecades, height / yDecades);
  return [widen(x, xDecades, width / perDecade), widen(y, yDecades, height / perDecade)];
}

function widen(domain: Domain, decades: number, wanted: number): Domain {
  if (wanted > 2 * decades) {
    return domain;
  }
  const factor = pow(10, (wanted - decades) / 2);
  return [domain[0] / factor, domain[1] * factor];
}
