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

/** Whether a record agrees with its scenario, and where it does not. */
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
    ? "The scenario's noise levels are taken as known."
    : "The scenario's noise levels are left out: the record is judged by itself.";
  const against = compared.filter(({ agrees }) => !agrees);
  return [wrap(`${verdict} ${used}`), ...against.map((one) => wrap(`  ${inWords(one)}`, 80, "  "))];
}

function inWords({ quantity, found, interval95, expected, probability }: Compared): string {
  const [low, high] = interval95;
  const unit = quantity === "whitePm" ? " s" : "";
  const text = (value: number) =>
    quantity === "rate" ? rateText(value) : `${shortNumber(value, 2)}${unit}`;
  const chance = probability < 0.001 ? "below 0.001" : shortNumber(probability, 2);
  return `${names[quantity]}: ${text(found)} found (95 %: ${text(low)} to ${text(high)}), ${text(expected)} expected; probability ${chance}.`;
}
