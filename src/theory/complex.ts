/** A complex number. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

/** The product a·b. */
export function multiply(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

/** The quotient a/b. */
export function divide(a: Complex, b: Complex): Complex {
  const size = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / size, im: (a.im * b.re - a.re * b.im) / size };
}

/** The square root with a real part >= 0; the smaller of its parts from the larger, which does not cancel. */
export function squareRoot(a: Complex): Complex {
  const large = Math.sqrt((Math.hypot(a.re, a.im) + Math.abs(a.re)) / 2);
  if (large === 0) return { re: 0, im: 0 };
  const small = a.im / (2 * large);
  if (a.re >= 0) return { re: large, im: small };
  return { re: Math.abs(small), im: a.im < 0 ? -large : large };
}

/** e^a − 1, accurate for small a. */
export function exponentialLess1(a: Complex): Complex {
  const growth = Math.expm1(a.re);
  const half = Math.sin(a.im / 2);
  return {
    re: growth * Math.cos(a.im) - 2 * half * half,
    im: (growth + 1) * Math.sin(a.im),
  };
}
