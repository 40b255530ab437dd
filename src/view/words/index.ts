export { bar } from "./bar.ts";
export { counted } from "./counted.ts";
export { estimatorNames } from "./estimator-names.ts";
export { humanDuration } from "./human-duration.ts";
export { plusMinus } from "./plus-minus.ts";
export {
  commonRateUnit,
  halfWidthText,
  type RateUnit,
  rateNumber,
  rateNumbersWithin,
  rateSize,
  rateText,
  rateUnit,
  rateUnits,
  rateWithin,
  unitAsFraction,
} from "./rate-unit.ts";
export { wayInWords, wayName } from "./ways-of-measuring.ts";
