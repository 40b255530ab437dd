import { InputError } from "../readings/index.ts";
import type { Layout } from "./detect-layout.ts";
import type { LogColumns } from "./log-columns.ts";
import type { LogOptions } from "./log-options.ts";
import { calendarSeconds, dayOrder } from "./stamps.ts";

/**
 * Time stamps of a log, from the first one on.
 *
 * @param columns - what was read
 * @param layout - which columns tell when
 * @param options - the order of dates, where it is said
 * @param line - line of each reading
 * @returns s, null without any; and the order of the dates, empty where they tell it themselves
 * @throws InputError where the dates do not tell their order
 */
export function stampSeconds(
  { date, time, stamp }: LogColumns,
  { date: dateColumn, time: timeColumn }: Layout,
  { dates, file }: LogOptions,
  line: Int32Array,
): { time: Float64Array | null; order: string } {
  let seconds: Float64Array | null = null;
  let order: string | null = null;
  if (dateColumn !== null || timeColumn !== null) {
    const codes = date?.values() ?? null;
    const isOpen = codes?.some((code) => code < 0) ?? false;
    order = isOpen ? (dates?.replace("-", " ") ?? dayOrder(codes!)) : "";
    if (order === null || order === "neither") {
      const code = -codes!.find((c) => c < 0)!;
      const written = `${String(Math.floor(code / 100) % 100).padStart(2, "0")}/${String(code % 100).padStart(2, "0")}`;
      throw new InputError(
        file,
        line[codes!.findIndex((c) => c < 0)]!,
        order === null
          ? `has dates such as ${written} that do not tell whether the day or the month comes first; give --dates day-first or --dates month-first`
          : `has dates such as ${written}, some with the day and some with the month first; write them one way`,
      );
    }
    seconds = calendarSeconds(codes, time?.values() ?? null, order === "day first");
  } else if (stamp !== null) {
    const [whole, rest] = [stamp[0].values(), stamp[1].values()];
    const at = whole.findIndex((t) => !Number.isNaN(t));
    seconds = at < 0 ? null : whole.map((t, i) => t - whole[at]! + rest[i]! - rest[at]!);
  }
  const first = seconds?.find((t) => !Number.isNaN(t));
  if (seconds === null || first === undefined) return { time: null, order: "" };
  return { time: seconds.map((t) => t - first), order: order ?? "" };
}
