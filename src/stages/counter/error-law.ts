import { exp } from "../../numeric/index.ts";

/** Errors are followed from −8σ to 8σ in cells of 0.05σ. */
export const errorReach = 8;
export const errorCells = 320;
export const errorWidth = (2 * errorReach) / errorCells;

/** Centre of a cell, in units of σ. */
export const errorAt = (cell: number): number => -errorReach + (cell + 0.5) * errorWidth;

/** How the time errors of edges are distributed, in units of their rms, about their mean. */
export interface ErrorLaw {
  /** Probability of each cell. */
  readonly density: Float64Array;
  /** Probability of an error above the lower end of each cell, one more at the end. */
  readonly above: Float64Array;
  /** The part of the mean that lies above the lower end of each cell. */
  readonly meanAbove: Float64Array;
  /** The part of the mean square that does. */
  readonly squareAbove: Float64Array;
}

/**
 * Makes a law of its density.
 *
 * @param weights - weights of the cells, `errorCells` of them, not all zero
 * @returns the law, with the weights made to sum to one
 * @throws RangeError if there are not so many weights
 */
export function errorLaw(weights: Float64Array): ErrorLaw {
  if (weights.length !== errorCells) {
    throw new RangeError(`errorLaw: weights must be ${errorCells} values, got ${weights.length}`);
  }
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const density = weights.map((weight) => weight / total);
  const above = new Float64Array(errorCells + 1);
  const meanAbove = new Float64Array(errorCells + 1);
  const squareAbove = new Float64Array(errorCells + 1);
  for (let cell = errorCells - 1; cell >= 0; cell--) {
    above[cell] = above[cell + 1]! + density[cell]!;
    const part = density[cell]! * errorAt(cell);
    meanAbove[cell] = meanAbove[cell + 1]! + part;
    squareAbove[cell] = squareAbove[cell + 1]! + part * errorAt(cell);
  }
  return { density, above, meanAbove, squareAbove };
}

/** Gaussian errors. */
export const gaussianLaw: ErrorLaw = errorLaw(
  Float64Array.from({ length: errorCells }, (_, cell) => exp(-(errorAt(cell) * errorAt(cell)) / 2)),
);
