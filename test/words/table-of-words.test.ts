import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

/** What is not said any more, and what is said in its stead. */
const terms: readonly (readonly [wrong: RegExp, right: string])[] = [
  // JCGM 100:2008, 7.2.2 and 7.2.4: digits in parentheses are a standard uncertainty.
  [/\d\(\d+\)/, "-1.28 ± 0.90"],
  // NIST SP 1065 tells the members of the family apart.
  [
    /Allan dev\b(?!iation)|\bmod\. Allan|\btime dev\b|(?<!overlapping )Hadamard/,
    "overlapping Allan",
  ],
  [
    /rate of bursts|\brate (?:set|asked for)\b|\bset rate\b|tone against rate/,
    "start phase of the tone",
  ],
  [/\bbeats?\b/, "tone and bursts in step"],
  // ITU-T G.810: jitter is what is faster than 10 Hz.
  [/\bjitters?\b/, "timing noise"],
  [/\bstrays?\b|\bastray\b|\bset apart\b/, "outlier"],
  [/\bfitted lines?\b|\blines? fitted\b|\bmean of the readings\b/, "line fit"],
  [/\boff truth\b|\bheld it\b/, "rms error"],
  [/\btime resolution\b/, "numerical resolution"],
  [/(?<![.\w"])fallback(?![.\w":])/, "own oscillator"],
  // The old name is there to be refused.
  [/--taus(?! <which>)/, "--averaging-times"],
];

const root = join(import.meta.dirname, "../..");

/** Causes in JSON that programs know by an earlier name. */
const keptForPrograms = "view/table/budget-json.ts";

const withoutComments = (text: string) =>
  text.replace(/\/\*[\s\S]*?\*\//g, "").replace(/^\s*\/\/.*$/gm, "");

/** Texts in quotes that hold a space, which no name in the code does; comments apart. */
function proseOf(text: string): string[] {
  const code = withoutComments(text);
  const strings = code.match(/"(?:[^"\\\n]|\\.)*"|`(?:[^`\\]|\\.)*`/g) ?? [];
  // What a caller of a function did wrong begins with its name.
  const shown = strings.map((s) => s.replace(/\$\{[^}]*\}/g, "…").replace(/^(["`])\w+: /, "$1"));
  return shown.filter((s) => / /.test(s));
}

const names = readdirSync(join(root, "src"), { recursive: true, encoding: "utf8" }).filter((name) =>
  /\.(ts|html)$/.test(name),
);
const sources = names
  .filter((name) => name !== keptForPrograms)
  .flatMap((name) => {
    const text = readFileSync(join(root, "src", name), "utf8");
    const prose = name.endsWith(".html") ? text.split("\n") : proseOf(text);
    return prose.map((string) => `${string} (${name.replace(/\W/g, "_")})`);
  });
/** Keys of JSON and of scenarios, codes and columns that programs knew before the table of words; no other may join them. */
const keptKeys =
  "edge_jitter_s estimates_with_strays fallback_takes_over hadamard_deviation rms_jitter_by_cause_s rms_jitter_s stray_effect time_resolution_s";
const notInKeys =
  /jitter|beat|stray|astray|fallback|fitted_line|off_truth|held|time_resolution|(?<!overlapping_)hadamard|rate_of_bursts|rate_set/;
const readme = readFileSync(join(root, "README.md"), "utf8");
const pictures = readdirSync(join(root, "test/charts")).flatMap((name) =>
  readFileSync(join(root, "test/charts", name), "utf8")
    .split("\n")
    .map((line) => `${name}: ${line}`),
);

describe("what people read", () => {
  it.each(terms)("says nothing like %s", (wrong) => {
    const lines = [...sources, ...pictures, ...readme.split("\n")];
    const found = lines.filter((line) => wrong.test(line));
    expect(found).toEqual([]);
  });

  it.each(terms)("for %s says %s", (_, right) => {
    expect([readme, ...sources].some((text) => text.includes(right))).toBe(true);
  });

  it("names no new key by them", () => {
    const code = names.map((name) =>
      withoutComments(readFileSync(join(root, "src", name), "utf8")),
    );
    const keys = new Set(code.join("\n").match(/\b[a-z0-9]+(?:_[a-z0-9]+)+\b/g));
    expect(
      [...keys]
        .filter((key) => notInKeys.test(key))
        .sort()
        .join(" "),
    ).toBe(keptKeys);
  });

  it("finds a term where there is one", () => {
    const found = proseOf('// "no text"\nf("95(68) ms", `two beats`, "stray");');
    expect(found).toEqual(['"95(68) ms"', "`two beats`"]);
  });
});
