/** A double as an integer multiple of 2⁻¹⁰⁷⁴, exactly: sums and products of doubles become integers. */
export function asInteger(x: number): bigint {
  const bits = new DataView(new ArrayBuffer(8));
  bits.setFloat64(0, x);
  const word = bits.getBigUint64(0);
  const exponent = (word >> 52n) & 0x7ffn;
  const fraction = word & 0xfffffffffffffn;
  const size = exponent === 0n ? fraction : (fraction | 0x10000000000000n) << (exponent - 1n);
  return word >> 63n === 1n ? -size : size;
}

/** One in units of 2⁻¹⁰⁷⁴. */
export const one = 1n << 1074n;

/** A number of units of 2⁻¹⁰⁷⁴ as a double, for sizes and differences that need not be exact. */
export function asNumber(units: bigint): number {
  const scaled = (units << 200n) / one;
  return Number(scaled) / 2 ** 200;
}
