import { describe, expect, it } from "vitest";
import { fillTycheI } from "../../src/numeric/index.ts";

/** The ChaCha quarter-round as RFC 8439, section 2.1 writes it, in unsigned 32-bit arithmetic. */
function quarterRound(state: readonly number[]): number[] {
  let [a, b, c, d] = state.map((word) => word >>> 0) as [number, number, number, number];
  const left = (x: number, n: number) => ((x << n) | (x >>> (32 - n))) >>> 0;
  a = (a + b) >>> 0;
  d = left(d ^ a, 16);
  c = (c + d) >>> 0;
  b = left(b ^ c, 12);
  a = (a + b) >>> 0;
  d = left(d ^ a, 8);
  c = (c + d) >>> 0;
  b = left(b ^ c, 7);
  return [a, b, c, d];
}

const unsigned = (state: Int32Array) => [...state].map((word) => word >>> 0);

describe("fillTycheI", () => {
  it("undoes the quarter-round of the test vector in RFC 8439, section 2.1.1", () => {
    const state = Int32Array.of(0xea2a92f4, 0xcb1cf8ce, 0x4581472e, 0x5881c4bb);
    const block = new Int32Array(1);
    fillTycheI(state, block);
    expect(unsigned(state)).toEqual([0x11111111, 0x01020304, 0x9b8d6f43, 0x01234567]);
    expect(block[0]! >>> 0).toBe(0x11111111);
  });

  it("is a permutation: as many quarter-rounds lead back to the start", () => {
    const start = [1, 2, 3, 4];
    const state = Int32Array.from(start);
    fillTycheI(state, new Int32Array(1000));
    let back = unsigned(state);
    for (let i = 0; i < 1000; i++) {
      back = quarterRound(back);
    }
    expect(back).toEqual(start);
  });

  it("goes on in the next block where it stopped in the last", () => {
    const whole = new Int32Array(100);
    fillTycheI(Int32Array.of(9, 8, 7, 6), whole);
    const state = Int32Array.of(9, 8, 7, 6);
    const first = new Int32Array(37);
    const second = new Int32Array(63);
    fillTycheI(state, first);
    fillTycheI(state, second);
    expect([...first, ...second]).toEqual([...whole]);
  });
});
