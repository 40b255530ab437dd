/** Decimals beyond which a double of order one holds no more of them. */
const mostDecimals = 16;

/** Different values of which one in ten thousand sets ends in zeros throughout. */
const fewest = 4;

/**
 * Relative error that the digits at which readings end leave each of them: rms of a value rounded to a decimal step.
 *
 *   u² = mean of (step/v)²/12,  step the finest among the values of one power of ten
 *
 * A display of so many digits has a coarser step above a power of ten than below it.
 *
 * @param values - as written, not 0; NaN = left out
 * @returns u, dimensionless; below 1e-15 where the values have all digits of a double
 *
 * Source: uniform distribution, JCGM 100:2008, 4.3.7. Exact case: 1.25 and 1.5 are rounded to 0.01.
 */
export function roundingError(values: Float64Array): number {
  const found = new Map<number, { decimals: number; different: Set<number> }>();
  for (let i = 0; i < values.length; i++) {
    const size = Math.abs(values[i]!);
    if (!(size > 0)) continue;
    const power = powerOf(size);
    const group = found.get(power) ?? { decimals: 0, different: new Set() };
    group.decimals = decimalsOf(size, group.decimals);
    if (group.different.size < fewest) group.different.add(size);
    found.set(power, group);
  }
  const decimals = decimalsByPower(found);
  let square = 0;
  let known = 0;
  for (let i = 0; i < values.length; i++) {
    const size = Math.abs(values[i]!);
    if (!(size > 0)) continue;
    const step = tenTo(-decimals.get(powerOf(size))!);
    square += (step / size) ** 2;
    known++;
  }
  return known === 0 ? 0 : Math.sqrt(square / (12 * known));
}

/** Where few values of one power of ten may all end in a zero, those of the others tell: as many decimals, or digits. */
function decimalsByPower(
  found: ReadonlyMap<
    number,
    { readonly decimals: number; readonly different: ReadonlySet<number> }
  >,
): Map<number, number> {
  let most = 0;
  let digits = Number.NEGATIVE_INFINITY;
  for (const [power, { decimals }] of found) {
    most = Math.max(most, decimals);
    digits = Math.max(digits, decimals + power);
  }
  return new Map(
    [...found].map(([power, { decimals, different }]) => [
      power,
      different.size < fewest ? Math.max(decimals, Math.min(most, digits - power)) : decimals,
    ]),
  );
}

/** Largest power of ten that is not above a number: its exponent. */
function powerOf(size: number): number {
  let exponent = 0;
  let unit = 1;
  while (unit <= size / 10 && exponent < 300) {
    unit *= 10;
    exponent++;
  }
  while (unit > size && exponent > -300) {
    unit /= 10;
    exponent--;
  }
  return exponent;
}

/** Decimals of a number as it was written, but no fewer than given; counted up to where no double tells them. */
function decimalsOf(size: number, least: number): number {
  let decimals = least;
  let scaled = size * tenTo(decimals);
  const most = mostDecimals - powerOf(size);
  while (decimals < most && Math.abs(scaled - Math.round(scaled)) > 4 * Number.EPSILON * scaled) {
    decimals++;
    scaled = size * tenTo(decimals);
  }
  return decimals;
}

const powers = Float64Array.from({ length: 331 }, (_, k) => Number(`1e${k - 22}`));
const tenTo = (exponent: number): number => powers[exponent + 22] ?? Number(`1e${exponent}`);
