import fc from "fast-check";
import seedrandom from "seedrandom";
import { describe, expect, it } from "vitest";
import { RandomStream } from "../../src/numeric/index.ts";

const words = (seed: string, path: string, count = 4) => {
  const stream = new RandomStream(seed, path);
  return Array.from({ length: count }, () => stream.word());
};

/** Correlation coefficient of two rows of equal length. */
function correlation(x: Float64Array, y: Float64Array): number {
  let xy = 0;
  let xx = 0;
  let yy = 0;
  for (let i = 0; i < x.length; i++) {
    xy += x[i]! * y[i]!;
    xx += x[i]! * x[i]!;
    yy += y[i]! * y[i]!;
  }
  return xy / Math.sqrt(xx * yy);
}

const normals = (seed: string, path: string, count: number) => {
  const out = new Float64Array(count);
  new RandomStream(seed, path).fillNormal(out, 0, count);
  return out;
};

describe("RandomStream", () => {
  it("is Tyche-i from the words of ARC4 for its key, after 20 steps", () => {
    const left = (x: number, n: number) => (x << n) | (x >>> (32 - n));
    // ARC4 as the package seedrandom gives it, for the documented key.
    const hash = seedrandom('["run 1","reference/white"]\0');
    const start = [hash.int32(), hash.int32(), hash.int32(), hash.int32()];
    // The quarter-round of RFC 8439, 2.1, undone line by line from its end.
    let [a, b, c, d] = start as [number, number, number, number];
    const expected: number[] = [];
    for (let step = 0; step < 24; step++) {
      b = left(b, 25) ^ c;
      c = (c - d) | 0;
      d = left(d, 24) ^ a;
      a = (a - b) | 0;
      b = left(b, 20) ^ c;
      c = (c - d) | 0;
      d = left(d, 16) ^ a;
      a = (a - b) | 0;
      expected.push(a >>> 0);
    }
    expect(words("run 1", "reference/white")).toEqual(expected.slice(20));
  });

  it("fills the sequence of word(), across blocks, and leaves the rest of the array alone", () => {
    const expected = words("fill", "words", 700);
    const stream = new RandomStream("fill", "words");
    const out = new Uint32Array(702).fill(7);
    stream.fillWords(out, 1, 301);
    stream.fillWords(out, 301, 701);
    expect(Array.from(out)).toEqual([7, ...expected, 7]);
    expect(() => stream.fillWords(out, 0, 703)).toThrow("0 <= from <= to <= 702 must hold");
  });

  it("depends on its seed and path alone", () => {
    const other = new RandomStream("s", "another");
    const first = words("s", "drive");
    other.normal();
    expect(words("s", "drive")).toEqual(first);
  });

  it("keeps apart what string hashes confuse: repeats, borders, neighbours, letters beyond ASCII", () => {
    const keys = [
      ["1", "a"],
      ["11", "a"],
      ["111", "a"],
      ["1", "aa"],
      ["a/b", "c"],
      ["a", "b/c"],
      ['a","b', "c"],
      ["a", 'b","c'],
      ["", "a"],
      ["2", "a"],
      ["a", "š"],
      ["a", "a"],
      ["š", "a"],
      ["\u0100", "a"],
      ["\u0000", "a"],
    ] as const;
    const firsts = keys.map(([seed, path]) => words(seed, path).join());
    expect(new Set(firsts).size).toBe(keys.length);
  });

  it("gives different streams for different pairs of strings", () => {
    const text = fc.string({ minLength: 1, maxLength: 300, unit: "binary" });
    fc.assert(
      fc.property(text, text, text, text, (seed, path, seed2, path2) => {
        fc.pre(seed !== seed2 || path !== path2);
        expect(words(seed, path)).not.toEqual(words(seed2, path2));
      }),
      { seed: 9, numRuns: 300 },
    );
  });

  it("has independent streams for neighbouring seeds and paths: |r| < 5/√n", () => {
    const n = 20_000;
    const pairs = [
      [normals("1", "a", n), normals("11", "a", n)],
      [normals("1", "a", n), normals("2", "a", n)],
      [normals("a/b", "c", n), normals("a", "b/c", n)],
      [normals("1", "a", n), normals("1", "b", n)],
      [normals("1", "a1", n), normals("1", "a2", n)],
    ] as const;
    for (const [x, y] of pairs) {
      expect(Math.abs(correlation(x, y))).toBeLessThan(5 / Math.sqrt(n));
    }
  });

  it("has streams of 2000 successive seeds whose first words are uniform: chi-square within 5 σ", () => {
    const bins = new Float64Array(256);
    const low = new Float64Array(256);
    for (let seed = 0; seed < 2000; seed++) {
      const first = new RandomStream(String(seed), "clock").word();
      bins[first >>> 24]! += 1;
      low[first & 255]! += 1;
    }
    for (const row of [bins, low]) {
      const expected = 2000 / 256;
      const chiSquare = row.reduce((sum, n) => sum + (n - expected) ** 2 / expected, 0);
      expect(Math.abs(chiSquare - 255)).toBeLessThan(5 * Math.sqrt(2 * 255));
    }
  });

  it("refuses an empty path", () => {
    expect(() => new RandomStream("seed", "")).toThrow(RangeError);
  });
});

describe("RandomStream.uniform", () => {
  it("stays inside (0, 1), with mean ½ and variance 1/12 within 5 σ", () => {
    const stream = new RandomStream("uniform", "test");
    const n = 200_000;
    let sum = 0;
    let squares = 0;
    let inside = true;
    for (let i = 0; i < n; i++) {
      const u = stream.uniform();
      inside &&= u > 0 && u < 1;
      sum += u - 0.5;
      squares += (u - 0.5) ** 2;
    }
    expect(inside).toBe(true);
    expect(Math.abs(sum / n)).toBeLessThan(5 * Math.sqrt(1 / 12 / n));
    expect(Math.abs(squares / n - 1 / 12)).toBeLessThan(5 * Math.sqrt(1 / 180 / n));
  });
});

describe("RandomStream.fillNormal", () => {
  it("draws the sequence of normal(), across blocks, and leaves the rest of the array alone", () => {
    const n = 5000;
    const one = new RandomStream("fill", "test");
    const many = new RandomStream("fill", "test");
    const out = new Float64Array(n + 2).fill(-99);
    many.fillNormal(out, 1, 700);
    many.fillNormal(out, 700, n + 1);
    for (let i = 1; i <= n; i++) {
      expect(out[i]).toBe(one.normal());
    }
    expect([out[0], out[n + 1]]).toEqual([-99, -99]);
    expect(many.word()).toBe(one.word());
  });

  it("refuses a range outside the array", () => {
    const stream = new RandomStream("fill", "test");
    expect(() => stream.fillNormal(new Float64Array(3), 0, 4)).toThrow(RangeError);
    expect(() => stream.fillNormal(new Float64Array(3), 2, 1)).toThrow(RangeError);
    expect(() => stream.fillNormal(new Float64Array(3), -1, 1)).toThrow(RangeError);
  });
});
