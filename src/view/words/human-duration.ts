const day = 86400;
const year = 365.25 * day;

/** Three significant digits without an exponent, thousands set apart by a thin gap: 148 000. */
function threeDigits(value: number): string {
  const rounded = Number(value.toPrecision(3));
  const [whole = "", fraction] = (rounded < 1000 ? String(rounded) : rounded.toFixed(0)).split(".");
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, " ") : whole;
  return fraction === undefined ? grouped : `${grouped}.${fraction}`;
}

const withUnit = (value: number, unit: string): string => {
  const text = threeDigits(value);
  return `${text} ${text === "1" ? unit.replace(/s$/, "") : unit}`;
};

function twoUnits(seconds: number, large: number, small: number, names: [string, string]): string {
  const parts = Math.round(seconds / small);
  const perLarge = large / small;
  const whole = Math.floor(parts / perLarge);
  const rest = parts - whole * perLarge;
  return rest === 0 ? `${whole} ${names[0]}` : `${whole} ${names[0]} ${rest} ${names[1]}`;
}

/**
 * Says a duration as a person grasps it: `6 h 40 min`, `17.6 days`, `148 000 years`.
 *
 * Two units from 100 s to two days, three significant digits elsewhere; a year is 365.25 days.
 *
 * @param seconds - the duration; s, >= 0; Infinity gives `never`
 * @returns the duration in words
 * @throws RangeError if seconds is negative or NaN
 */
export function humanDuration(seconds: number): string {
  if (!(seconds >= 0)) {
    throw new RangeError(`humanDuration: seconds must be >= 0 s, got ${seconds}`);
  }
  if (seconds === Infinity) return "never";
  if (seconds === 0) return "0 s";
  // No unit suits what is far below a femtosecond.
  if (seconds < 1e-18) return `${Number(seconds.toPrecision(3))} s`;
  if (seconds < 0.9995e-12) return `${threeDigits(seconds * 1e15)} fs`;
  if (seconds < 0.9995e-9) return `${threeDigits(seconds * 1e12)} ps`;
  if (seconds < 0.9995e-6) return `${threeDigits(seconds * 1e9)} ns`;
  if (seconds < 0.9995e-3) return `${threeDigits(seconds * 1e6)} µs`;
  if (seconds < 0.9995) return `${threeDigits(seconds * 1e3)} ms`;
  if (seconds < 99.95) return `${threeDigits(seconds)} s`;
  if (seconds < 5969.5) return twoUnits(seconds, 60, 1, ["min", "s"]);
  if (seconds < 2 * day - 30) return twoUnits(seconds, 3600, 60, ["h", "min"]);
  if (seconds < 2 * year) return withUnit(seconds / day, "days");
  if (seconds < 0.9995e6 * year) return withUnit(seconds / year, "years");
  if (seconds < 0.9995e9 * year) return withUnit(seconds / year / 1e6, "million years");
  return seconds < 0.9995e15 * year
    ? withUnit(seconds / year / 1e9, "billion years")
    : `${(seconds / year).toExponential(1)} years`;
}
