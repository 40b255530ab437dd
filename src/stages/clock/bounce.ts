import type { RandomStream } from "../../numeric/index.ts";
import type { BounceParameters } from "./clock-parameters.ts";

/**
 * The moments at which a contact closes again after a tick: uniform within `within`, in order.
 *
 * @param out - delays after the tick; s; `count` values, ascending
 */
export function drawBounces(
  parameters: BounceParameters,
  stream: RandomStream,
  out: Float64Array,
): void {
  for (let i = 0; i < parameters.count; i++) out[i] = parameters.within * stream.uniform();
  out.subarray(0, parameters.count).sort();
}
