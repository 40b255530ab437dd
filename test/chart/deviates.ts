/** Nearly Gaussian deviates of unit variance (sums of twelve uniforms), from a written seed. */
export function deviates(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    // Lehmer's generator: exact in doubles, so that pictures are the same everywhere.
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
  return () => {
    let sum = -6;
    for (let i = 0; i < 12; i++) sum += uniform();
    return sum;
  };
}
