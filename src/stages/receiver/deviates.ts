import type { RandomStream } from "../../numeric/index.ts";

/** Gaussian deviates made at a time. */
const blockLength = 256;

/** A stream with its Gaussian deviates made in blocks: half the price a deviate in a tight loop. */
export class Deviates {
  private readonly stream: RandomStream;
  private readonly block = new Float64Array(blockLength);
  private next = blockLength;

  /** @param stream - the stream, from now on used by this object alone */
  constructor(stream: RandomStream) {
    this.stream = stream;
  }

  /** @returns a standard Gaussian deviate */
  normal(): number {
    if (this.next === blockLength) {
      this.stream.fillNormal(this.block, 0, blockLength);
      this.next = 0;
    }
    return this.block[this.next++]!;
  }

  /** @returns a uniform deviate in (0, 1), of 32 bits: 2⁻³² is far below any probability decided by it */
  uniform(): number {
    return (this.stream.word() + 0.5) * 2.3283064365386963e-10;
  }
}
