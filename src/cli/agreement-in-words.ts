import type { Agreement, Compared } from "../judgement/index.ts";
import { shortNumber } from "../numeric/index.ts";
import { rateText } from "../view/words/index.ts";
import { wrap } from "./style.ts";

const names = {
  whitePm: "timing noise of one edge",
  whiteFm: "white FM at 1 s",
  flickerFm: "flicker FM floor",
  randomWalkFm: "random-walk FM at 1 s",
  rate: "steady rate",
} as const;

/** Whether a record agrees with its scenario, in words, and in what it does not. */
export function agreementInWords({ noise, rate, compared }: Agreement): string[] {
  const verdict =
    noise && rate
      ? "The record agrees with the scenario in its noise and its rate."
      : noise
        ? "The record agrees with the scenario in its noise, not in its rate."
        : rate
          ? "The record agrees with the scenario in its rate, not in its noise."
          : "The record does not agree with the scenario.";
  const used = noise
    ? "Its noise levels are taken as known."
    : "Its noise levels are not taken as known: the record is judged by itself.";
  const likeliest = [...compared].sort((a, b) => a.probability - b.probability);
  const shown =
    noise && rate ? likeliest.slice(0, 1) : likeliest.filter((one) => one.probability < 0.01);
  return [wrap(`${verdict} ${used}`), ...shown.map((one) => wrap(`  ${inWords(one)}`, 80, "  "))];
}

function inWords({ quantity, found, interval95, expected, probability }: Compared): string {
  const [low, high] = interval95;
  const unit = quantity === "whitePm" ? " s" : "";
  const text = (value: number) =>
    quantity === "rate" ? rateText(value) : `${shortNumber(value, 2)}${unit}`;
  const chance = probability < 0.001 ? "below 0.001" : shortNumber(probability, 2);
  return `${names[quantity]}: found ${text(found)} (${text(low)} to ${text(high)}), expected ${text(expected)}; probability ${chance}.`;
}
