import type { Method, Strategy } from "../../planning/index.ts";
import { estimatorNames } from "./estimator-names.ts";

const ways: Readonly<Record<Method, string>> = {
  single_periods: "periods with dead time",
  gates_with_dead_time: "gates with dead time",
  back_to_back_mean: "gates back to back",
  back_to_back_line: "gates back to back",
  stamped_ticks_line: "every tick stamped",
  synthesizer_output: "synthesizer's output",
  reference_direct: "reference itself",
  longest_gate: "longest gate",
};

/** What is looked at, and how: `gates back to back`. */
export const wayName = ({ method }: Pick<Strategy, "method">): string => ways[method];

/** A way of measuring with its estimator: `gates back to back, line fit`. */
export const wayInWords = (strategy: Pick<Strategy, "method" | "estimator">): string =>
  `${wayName(strategy)}, ${estimatorNames[strategy.estimator]}`;
