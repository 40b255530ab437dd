/**
 * Fill a block with words of the generator Tyche-i: the inverse of the ChaCha quarter-round, iterated.
 *
 * A permutation of 128 bits of state, written out in locals over a whole block. (The generator of
 * that name in the package seedrandom takes half of its last rotation from another word, so that it is
 * no permutation, and it costs a closure call a word; seedrandom serves to make the state, not the words.)
 *
 * @param state - the four words a, b, c, d; advanced by one step for each word of the block; not all 0
 * @param block - receives word a after each step; int32, any length
 *
 * Source: S. Neves, F. Araujo, "Fast and Small Nonlinear Pseudorandom Number Generators for Computer
 * Simulation", PPAM 2011. Exact case: the step undoes the quarter-round example of RFC 8439, 2.1.1.
 */
export function fillTycheI(state: Int32Array, block: Int32Array): void {
  let a = state[0]!;
  let b = state[1]!;
  let c = state[2]!;
  let d = state[3]!;
  const length = block.length;
  for (let i = 0; i < length; i++) {
    b = ((b << 25) | (b >>> 7)) ^ c;
    c = (c - d) | 0;
    d = ((d << 24) | (d >>> 8)) ^ a;
    a = (a - b) | 0;
    b = ((b << 20) | (b >>> 12)) ^ c;
    c = (c - d) | 0;
    d = ((d << 16) | (d >>> 16)) ^ a;
    a = (a - b) | 0;
    block[i] = a;
  }
  state[0] = a;
  state[1] = b;
  state[2] = c;
  state[3] = d;
}
