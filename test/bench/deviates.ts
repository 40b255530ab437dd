import { RandomStream } from "../../src/numeric/index.ts";

/** Deviates drawn, by kind. */
export interface Drawn {
  /** Standard Gaussian. */
  readonly normal: number;
  readonly uniform: number;
}

/**
 * Counts the deviates that a piece of work draws. The methods of the streams are wrapped meanwhile, so
 * that its time means nothing.
 */
export function countDeviates(work: () => void): Drawn {
  const { normal, fillNormal, uniform, word, fillWords } = RandomStream.prototype;
  let normals = 0;
  let uniforms = 0;
  RandomStream.prototype.normal = function () {
    normals++;
    return normal.call(this);
  };
  RandomStream.prototype.fillNormal = function (out, from, to) {
    normals += to - from;
    fillNormal.call(this, out, from, to);
  };
  RandomStream.prototype.uniform = function () {
    uniforms++;
    return uniform.call(this);
  };
  RandomStream.prototype.word = function () {
    uniforms++;
    return word.call(this);
  };
  RandomStream.prototype.fillWords = function (out, from, to) {
    uniforms += to - from;
    fillWords.call(this, out, from, to);
  };
  try {
    work();
  } finally {
    Object.assign(RandomStream.prototype, { normal, fillNormal, uniform, word, fillWords });
  }
  return { normal: normals, uniform: uniforms };
}

/** Draws deviates in blocks from six streams in turn, as a chain has them; returns how many. */
export function drawDeviates(blocks: number): number {
  const length = 512;
  const streams = Array.from({ length: 6 }, (_, i) => new RandomStream("bench", `stream ${i}`));
  const block = new Float64Array(length);
  for (let i = 0; i < blocks; i++) streams[i % streams.length]!.fillNormal(block, 0, length);
  return blocks * length;
}
