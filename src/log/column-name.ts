import { readUnit, type Unit } from "./units.ts";

/** What a column of readings holds. */
export type Quantity = "period_s" | "frequency_hz" | "time_error_s" | "rate";

/** What a column can be. */
export type Role = Quantity | "stamp" | "start" | "cycles" | "temperature" | "flag" | "other";

/** What the name of a column says; null where it says nothing. */
export interface ColumnName {
  readonly role: Role | null;
  readonly unit: Unit | null;
}

/** Words that say what a column holds, without accents; a name is understood where it has no others but `fillers`. */
const roles: readonly (readonly [Role, RegExp])[] = [
  ["start", /^start$/],
  ["time_error_s", /^(?:time error|time offset|time deviation|tie|phase|phase time|x)$/],
  ["rate", /^(?:rate|gang|marche|fractional frequency|fractional freq|frac freq|y)$/],
  ["period_s", /^(?:periods?|periode|periodo|periodendauer|periodo?s|per|tick period)$/],
  ["frequency_hz", /^(?:freq|frequency|frequenz|frequence|frecuencia|frequenza|f)$/],
  [
    "stamp",
    /^(?:t|time|times|timestamp|time stamp|stamp|datetime|date|date time|date and time|day|day number|elapsed|elapsed time|local time|local|utc|time utc|utc time|when|logged|clock time|zeit|uhrzeit|datum|datum zeit|datum uhrzeit|zeitstempel|zeitpunkt|heure|temps|horodatage|hora|fecha|fecha hora|tiempo|ora|data|tijd|mjd|jd|unix|epoch|unix time|unixtime|posix)$/,
  ],
  ["temperature", /^(?:temp|temperature|temperatur|temperatura|ambient|ambient temperature|tc)$/],
  ["cycles", /^cycles$/],
  ["flag", /^flag$/],
];
const fillers =
  /^(?:mean|avg|average|measured|reading|readings|value|of|the|in|counter|signal|input|ch|channel|raw|messwert|gemessene?)$/;

/** Roles by which a unit without any other word is meant. */
const dayNames = /^(?:date|mjd|jd|day|day number|datum)$/;
const day: Unit = { of: "time", power: 0, factor: 86400 };

/**
 * Understands the name of a column: "Period [ms]", "f / kHz", "freq_hz", "Periode in µs".
 *
 * @param name - as written
 * @returns its role and unit
 *
 * Exact case: "rate ppm" is a rate in 1e-6.
 */
export function readColumnName(name: string): ColumnName {
  const { rest, unit } = withoutUnit(name.trim());
  const words = columnKey(rest)
    .replaceAll("_", " ")
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .split(" ")
    .filter((word) => word !== "");
  const plain = words.filter((word) => !fillers.test(word) && !/^(?:ch)?\d+$/.test(word));
  // A capital T may be a period, a time, or a temperature.
  const role = rest.trim() === "T" ? null : (roleOf(words.join(" ")) ?? roleOf(plain.join(" ")));
  if (role === "stamp" && unit === null && dayNames.test(words.join(" "))) {
    return { role, unit: day };
  }
  // A unit that belongs to another quantity (gate of a frequency, phase in degrees) makes it another column.
  if (unit?.of === "temperature") return { role: "temperature", unit };
  if (role !== null && unit !== null && !fits(role, unit)) {
    const isRatio = unit.of === "ratio" && (role === "frequency_hz" || role === "time_error_s");
    return { role: isRatio ? "rate" : "other", unit };
  }
  if (role === null && plain.length > 0) {
    // Words that are not understood: a gate time or an uncertainty in s is no reading.
    return {
      role: words.some((w) =>
        /^(?:gate|dead|std|sigma|unc|uncertainty|error|dev|deviation|resolution|min|max|n|nr|no|num|number|index|idx|count|sample)$/.test(
          w,
        ),
      )
        ? "other"
        : null,
      unit,
    };
  }
  return { role, unit };
}

function roleOf(words: string): Role | null {
  return roles.find(([, pattern]) => pattern.test(words))?.[0] ?? null;
}

function fits(role: Role, { of }: Unit): boolean {
  if (role === "frequency_hz") return of === "frequency";
  if (role === "rate") return of === "ratio";
  if (role === "temperature") return of === "temperature";
  if (role === "cycles" || role === "flag") return false;
  return of === "time";
}

/** Takes the unit off: in brackets, after a stroke or "in", or the last part of the name. */
function withoutUnit(name: string): { rest: string; unit: Unit | null } {
  for (const pattern of [
    /^(.*?)\s*[([{<]\s*([^)\]}>]+?)\s*[)\]}>]\s*$/u,
    /^(.*?)[\s_.-]+(\S+\/d(?:ay)?)$/u,
    /^(.+?)\s*\/\s*(\S+)$/u,
    /^(.*?)(?:\s+|_)in\s+(\S+)$/iu,
    /^(.*?)[\s_.-]+([\p{L}µμ°]+_(?:per_)?d(?:ay)?)$/u,
    /^(.*?)[\s_.-]+([\p{L}µμ°℃]+)$/u,
    /^()(.+)$/u,
  ]) {
    const match = pattern.exec(name);
    // In names with underscores "hz" and "c" stand in small letters.
    const unit = match && (readUnit(match[2]!) ?? readUnit(match[2]!.toLowerCase()));
    if (unit && (match[1] !== "" || unit.of !== "other")) return { rest: match[1]!, unit };
  }
  return { rest: name, unit: null };
}

/**
 * The form in which column names are compared.
 *
 * @param name - as written
 * @returns lower case, with one underscore for every run of other characters than letters and digits
 *
 * Exact case: "Period [s]" gives period_s.
 */
export function columnKey(name: string): string {
  return name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "_")
    .replace(/^_|_$/g, "");
}
