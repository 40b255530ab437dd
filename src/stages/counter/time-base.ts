import type { Edge } from "../../kernel/index.ts";
import { isSilent, PowerLawProcess } from "../../noise/index.ts";
import type { Instant, RandomStream } from "../../numeric/index.ts";
import type { OwnTimeBase } from "./counter-parameters.ts";

/** What a counter takes for time: turns the true time of an edge into counter time. */
export interface TimeBase {
  /**
   * Sets `out` to the counter time of an edge. Edges come in order, each stamped once at most.
   *
   * @param lapse - nominal time since the edge stamped before it; s, >= 0
   */
  stamp(edge: Edge, lapse: number, out: Instant): void;
  /** Deterministic rate of counter time against true time, less one, at a true time in s; dimensionless. */
  rateAt(t: number): number;
}

/**
 * A time base that is the reference of the chain itself: t + x_ref(t).
 *
 * @param rateAt - deterministic rate of the reference at a true time in s
 */
export function referenceTimeBase(rateAt: (t: number) => number): TimeBase {
  return {
    rateAt,
    stamp(edge, _lapse, out) {
      out.copy(edge.instant);
      out.add(edge.referenceError);
    },
  };
}

/**
 * A time base of the counter's own: t·(1 + y) + noise.
 *
 * A time base fast by y makes intervals read long and rates slow: rate read ≈ rate − y.
 *
 * @param parameters - offset and noise levels
 * @param finestStep - smallest nominal spacing of the edges it will be asked for; s
 * @param stream - its random stream
 * @param hasStrides - as of `PowerLawProcess`
 */
export function ownTimeBase(
  parameters: OwnTimeBase,
  finestStep: number,
  stream: RandomStream,
  hasStrides = true,
): TimeBase {
  const rate = parameters.fractionalOffset;
  const noise = new PowerLawProcess(parameters.noise, finestStep, stream, stream, hasStrides);
  const isQuiet = isSilent(parameters.noise);
  return {
    rateAt: () => rate,
    stamp(edge, lapse, out) {
      out.copy(edge.instant);
      out.add(rate * out.whole + rate * out.fraction);
      if (isQuiet) return;
      if (lapse > 0) noise.advance(lapse);
      out.add(noise.accumulated + noise.phaseNoise() + noise.edgeDeviate());
    },
  };
}
