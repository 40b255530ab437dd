import type { Quantity } from "./column-name.ts";
import type { Layout } from "./detect-layout.ts";
import { shown } from "./shown.ts";

const quantityNames: Readonly<Record<Quantity, string>> = {
  period_s: "period",
  frequency_hz: "frequency",
  time_error_s: "time error",
  rate: "rate",
};

/** Units by their power of ten. */
const prefixes: Readonly<Record<number, string>> = {
  [-12]: "p",
  [-9]: "n",
  [-6]: "µ",
  [-3]: "m",
  0: "",
  3: "k",
  6: "M",
  9: "G",
};

/**
 * What was detected, in one line: "period in s, 409 readings, stamps day first, 3 lines skipped".
 *
 * @param layout - of the log
 * @param present - readings that are there
 * @param order - of the dates; empty where they tell it themselves
 * @param hasStamps - whether there are time stamps
 * @param skipped - lines that were skipped
 */
export function detectedInWords(
  layout: Layout,
  present: number,
  order: string,
  hasStamps: boolean,
  skipped: number,
): string {
  const { quantity, value, time, date, stamp } = layout;
  const base = quantity === "frequency_hz" ? "Hz" : "s";
  const unit =
    quantity === "rate"
      ? layout.power === 0
        ? ""
        : ` in 1e${layout.power}`
      : ` in ${prefixes[layout.power]}${base}`;
  const column = value.written === "" ? "" : ` from column ${shown(value.written)}`;
  const kind =
    order !== ""
      ? order
      : stamp?.name.role === "start"
        ? "of the first edges"
        : time === null
          ? date === null
            ? "as numbers"
            : "by date"
          : date === null
            ? "by time of day"
            : "by date and time";
  return [
    `${quantityNames[quantity]}${unit}${column}`,
    ...(layout.format.decimal === "," ? ["decimal commas"] : []),
    `${present} reading${present === 1 ? "" : "s"}`,
    ...(hasStamps ? [`stamps ${kind}`] : []),
    ...(layout.temperature === null ? [] : ["temperature"]),
    ...(skipped === 0 ? [] : [`${skipped} line${skipped === 1 ? "" : "s"} skipped`]),
  ].join(", ");
}
