import { times } from "./amounts.ts";

/** What a prediction is worth. */
export interface Grade {
  readonly isRight: boolean;
  readonly words: string;
}

/** How near an amount must be to count as right, and shares to count as equal. */
const [nearEnough, alike] = [3, 1.5];

/**
 * Judges an amount that was placed on a scale: there are no limits between answers that it could lie on.
 *
 * @param said - the amount; > 0
 * @param theory - what it should be, by theory; >= 0
 * @param text - writes an amount
 */
export function gradeAmount(said: number, theory: number, text: (amount: number) => string): Grade {
  if (theory === 0) return { isRight: false, words: `You placed ${text(said)}; there is none.` };
  const ratio = Math.max(said / theory, theory / said);
  const isRight = ratio <= nearEnough;
  const more = theory > said ? "as much" : "less";
  return {
    isRight,
    words: isRight
      ? `You placed ${text(said)}; theory says ${text(theory)}: well placed.`
      : `You placed ${text(said)}; theory says ${text(theory)}, ${times(ratio)} ${more}.`,
  };
}

/**
 * Judges a choice.
 *
 * @param said - index chosen
 * @param choices - their texts
 * @param right - indices of the right ones; more than one where theory cannot tell them apart
 */
export function gradeChoice(
  said: number,
  choices: readonly string[],
  right: readonly number[],
): Grade {
  const answer = right.map((i) => choices[i]).join(", or ");
  const isRight = right.includes(said);
  const more = right.length > 1 && isRight ? ` Just as right: ${answer}.` : "";
  return {
    isRight,
    words: isRight
      ? `As you predicted: ${choices[said]}.${more}`
      : `You predicted: ${choices[said]}. The answer: ${answer}.`,
  };
}

/** Indices of the largest of some shares, and of those that nobody can tell from it. */
export function largestOf(shares: readonly number[]): readonly number[] {
  const most = Math.max(...shares);
  return [...shares.keys()].filter((i) => shares[i]! * alike >= most);
}
