import { describe, expect, it } from "vitest";
import { gradeAmount, gradeChoice, largestOf } from "../../../src/lab/index.ts";

const text = (value: number) => `${value}`;

describe("grades", () => {
  it("take an amount within a factor of three for well placed, on either side", () => {
    expect(gradeAmount(30, 10, text).isRight).toBe(true);
    expect(gradeAmount(4, 10, text).isRight).toBe(true);
    expect(gradeAmount(31, 10, text).isRight).toBe(false);
    expect(gradeAmount(100, 10, text).words).toBe("You placed 100; theory says 10, 10 times less.");
  });

  it("take any of the answers that theory cannot tell apart", () => {
    const choices = ["a", "b", "c"];
    expect(gradeChoice(1, choices, [1, 2])).toEqual({
      isRight: true,
      words: "As you predicted: b. Just as right: b, or c.",
    });
    expect(gradeChoice(0, choices, [1]).words).toBe("You predicted: a. The answer: b.");
  });

  it("count shares within a factor of 1.5 of the largest as alike", () => {
    expect(largestOf([1, 9, 6.1, 5.9])).toEqual([1, 2]);
  });
});
