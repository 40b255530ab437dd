import type { NoiseLevels } from "../../noise/index.ts";
import { FoldedGrid } from "./folded-grid.ts";
import type { LoopInputs } from "./loop-inputs.ts";
import { closedLoopResponse, errorResponse } from "./loop-response.ts";
import { densityAboutReference, outputDensity } from "./output-density.ts";
import type { SynthesizerParameters } from "./synthesizer-parameters.ts";

/** Part of the total spectrum that all that is left out together may reach at any frequency. */
const negligible = 1e-3;
/** Own relaxation processes from this part of 1/ω up to this many times it are what the loop is about, and always kept. */
const nearLoop = { from: 0.3, to: 30 };
/** Spectra are looked at up to this many times the rate of the output or of the loop. */
const highestOverRate = 30;

/** A noise process that a loop does without. */
export interface LeftOut {
  /** Which noise: "reference.frequency", "reference.phase" or "oscillator.frequency". */
  readonly path: string;
  /** Its time constant; s, Infinity for random-walk FM. */
  readonly timeConstant: number;
  /** Largest ratio, over all frequencies, of its spectrum S_x at the output to the total; dimensionless. */
  readonly ratio: number;
}

/** What a loop keeps of each group of processes, as places in its ladder, and what it leaves out. */
export interface KeptTerms {
  readonly referenceRate: Int32Array;
  readonly referencePhase: Int32Array;
  readonly ownRate: Int32Array;
  /** White FM in place of the fastest of the own oscillator that are not kept, one-sided S_y; 1/Hz. */
  readonly ownWhiteLevel: number;
  readonly leftOut: readonly LeftOut[];
}

/**
 * Decides which relaxation processes and random walks a loop can do without: those whose spectra S_x at
 * the output, all together, stay below a thousandth of the total at every frequency.
 *
 *   Σ R(f)·2D/(1/T² + Ω²)·(1 or 1/Ω²) <= 10⁻³·S_x(f) for f from 0.1/(longest time constant) up
 *
 * Those of the own oscillator that are faster than the loop go as white FM of their level 2·D·T², where what that has too
 * much, (ΩT)² of it, stays below instead.
 *
 * R = |1 − H|² for frequency noise: leaving the reference's out of the loop means that the output
 * follows it perfectly. The total is that in true time or about the reference, whichever is less. The output
 * has edges only, so what lies above half their rate is folded, evenly, onto what lies below.
 * Never depends on the length of a run. White noises cost nothing and are always kept.
 *
 * @param parameters - the synthesizer
 * @param referenceLevels - noise levels of its reference
 * @param inputs - what drives the loop
 * @returns places kept in each ladder, and the list of what is left out
 *
 * Source: own derivation; sampling theorem. Exact case: where only one oscillator has noise, all of it near
 * 1/ω is kept.
 */
export function leftOutTerms(
  parameters: SynthesizerParameters,
  referenceLevels: NoiseLevels,
  inputs: LoopInputs,
): KeptTerms {
  const { loop, noise } = parameters;
  const longest = Math.max(noise.flickerLongest, referenceLevels.flickerLongest);
  const fold = new FoldedGrid(
    0.1 / longest,
    0.5 * parameters.outputHz,
    highestOverRate * Math.max(parameters.outputHz, loop.naturalHz),
  );
  const absolute = fold.spectrum((f) => outputDensity(parameters, referenceLevels, f));
  const relative = fold.spectrum((f) => densityAboutReference(parameters, referenceLevels, f));
  const allowed = absolute.map((value, i) => negligible * Math.min(value, relative[i]!));
  const natural = 2 * Math.PI * loop.naturalHz;

  const terms: Term[] = [];
  const add = (path: Term["path"], times: Float64Array, diffusions: Float64Array) => {
    for (let k = 0; k < times.length; k++) {
      const time = times[k]!;
      const spectrum = (isWhite: boolean) =>
        fold.spectrum((f) => {
          const w = 2 * Math.PI * f;
          const left = (2 * diffusions[k]!) / (1 / (time * time) + w * w);
          const wrong = isWhite ? left * (w * time) * (w * time) : left;
          return path === "reference.phase"
            ? closedLoopResponse(loop, f) * wrong
            : (errorResponse(loop, f) * wrong) / (w * w);
        });
      const isWhite = path === ownPath && time * natural < 1;
      const density = spectrum(isWhite);
      let ratio = 0;
      density.forEach((value, i) => {
        ratio = Math.max(ratio, (negligible * value) / allowed[i]!);
      });
      const isNear = time * natural > nearLoop.from && time * natural < nearLoop.to;
      const level = isWhite ? 2 * diffusions[k]! * time * time : 0;
      terms.push({ path, k, time, level, density, ratio, isFixed: path === ownPath && isNear });
    }
  };
  add("reference.frequency", inputs.referenceRate.timeConstants, inputs.referenceRate.diffusions);
  add("reference.phase", inputs.referencePhase.timeConstants, inputs.referencePhase.diffusions);
  add(ownPath, inputs.ownRate.timeConstants, inputs.ownRate.diffusions);

  const sum = new Float64Array(allowed.length);
  const leftOut = new Set<Term>();
  for (const term of [...terms].sort((a, b) => a.ratio - b.ratio)) {
    const fits = term.density.every((value, i) => sum[i]! + value <= allowed[i]!);
    if (!term.isFixed && fits) {
      leftOut.add(term);
      term.density.forEach((value, i) => {
        sum[i] = sum[i]! + value;
      });
    }
  }
  const kept = (path: Term["path"]) =>
    Int32Array.from(
      terms.filter((term) => term.path === path && !leftOut.has(term)),
      (t) => t.k,
    );
  return {
    referenceRate: kept("reference.frequency"),
    referencePhase: kept("reference.phase"),
    ownRate: kept(ownPath),
    ownWhiteLevel: [...leftOut].reduce((sum, term) => sum + term.level, 0),
    leftOut: terms
      .filter((term) => leftOut.has(term) && term.level === 0)
      .map(({ path, time, ratio }) => ({ path, timeConstant: time, ratio })),
  };
}

/** Every process of every ladder: a loop that does without none. */
export function allTerms(inputs: LoopInputs): KeptTerms {
  const places = (ladder: { readonly timeConstants: Float64Array }) =>
    Int32Array.from(ladder.timeConstants.keys());
  return {
    referenceRate: places(inputs.referenceRate),
    referencePhase: places(inputs.referencePhase),
    ownRate: places(inputs.ownRate),
    ownWhiteLevel: 0,
    leftOut: [],
  };
}

const ownPath = "oscillator.frequency";

interface Term {
  readonly path: "reference.frequency" | "reference.phase" | typeof ownPath;
  readonly k: number;
  readonly time: number;
  /** Of the white FM that takes its place; 1/Hz, 0 for none. */
  readonly level: number;
  readonly density: Float64Array;
  readonly ratio: number;
  readonly isFixed: boolean;
}
