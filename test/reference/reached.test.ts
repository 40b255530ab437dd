import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

interface Check {
  readonly id: string;
}

const root = join(import.meta.dirname, "..");
const { checks } = JSON.parse(
  readFileSync(join(import.meta.dirname, "published.json"), "utf8"),
) as {
  checks: Check[];
};
const texts = new Map(
  readdirSync(root, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts") && !name.endsWith("reached.test.ts"))
    .map((name) => [name, readFileSync(join(root, name), "utf8")]),
);

/** Ids that tests ask for: what stands between the brackets of checksLike, in its two spellings. */
const asked = [...texts.values()].flatMap((text) => [
  ...[...text.matchAll(/checksLike\(\s*\/(.+?)\/[,)\s]/g)].map(
    ([, pattern]) => new RegExp(pattern!),
  ),
  ...[...text.matchAll(/checksLike\(\s*new RegExp\(`(.+?)`\)/g)].map(
    ([, pattern]) =>
      new RegExp(pattern!.replaceAll("\\\\", "\\").replace(/\$\{names\}/, namesIn(text))),
  ),
]);

/** Statistics that a file of tests names: keys of its tables of functions. */
function namesIn(text: string): string {
  return [...text.matchAll(/^ {2,4}(\w+): (?:\(\w|\w+Deviation,)/gm)]
    .map(([, name]) => name)
    .join("|");
}

/** Checks that a test writes out itself: which, in which file, and words that stand there. */
const writtenOut: readonly (readonly [RegExp, string, string])[] = [
  [/^lcg\.n\d$/, "analysis/stability/published-values.test.ts", "395529916, 1209410747, 633705974"],
  [/^fpm_const$/, "noise/relaxation-ladder.test.ts", "1.038"],
  [/^chi\.ex1\./, "analysis/stability/deviation-interval.test.ts", "7.61"],
  [/^chi\.sp1065\./, "analysis/stability/deviation-interval.test.ts", "8.223942e-2"],
  [/^counter\.(Pi|Omega)/, "planning/weighting.test.ts", "0.020406081012141617"],
  [/^counter\.wfm\.(Pi|Omega)/, "planning/weighting.test.ts", "tends to 6/5"],
  [/^telescoping\./, "planning/weighting.test.ts", "2.0e-4 and 2.0e-2"],
  [/^runlength\./, "planning/run-length.test.ts", "the published run lengths under white PM"],
  [/^ig\.(1,1|ou_fpt)/, "prove/receiver/burst-detector.test.ts", "1.003769"],
  [/^pll\.zeta/, "synthesizer/loop-response.test.ts", "0.53033"],
  [/^flicker\.mean\.c$/, "planning/oscillator-noise.test.ts", "0.922784"],
  [/^bridge_2/, "noise/relaxation-step.test.ts", "0.8384655073"],
  [/^gate\.(std|endpoint)/, "planning/beat-noise.test.ts", "T/√12, and T/√6 between two far ends"],
  [/^beat_/, "planning/beat-noise.test.ts", "a fundamental of amplitude T/π"],
];

/** Checks that no test reaches, and why. */
const leftOut: readonly (readonly [RegExp, string])[] = [
  [/^modratio\.limit\./, "limits of the ratios at n = 2 to 6, which are reached (modratio.n)"],
  [/^pvar\.|^lambda2\./, "no parabolic variance and no triangular counter is computed"],
  [/^counter\.(wfm\.)?Lambda/, "no rate is made from means of halves"],
  [/^ig\.disc_/, "errors of a detector in fixed time steps, which this one has not"],
  [/^pll\.slip_/, "the loop is linear and never slips a cycle"],
  [/^pll\.disc_/, "the loop compares continuously and is no sampled one"],
  [
    /^gumH3\.(u1|u2|u_b30|r|s)$/,
    "white residuals of a fit are not what the line's uncertainty is made from",
  ],
  [/^gumG41\./, "the budget states no effective degrees of freedom; t95.19 is the same t"],
  [/^lag1\./, "the noise type comes from the noise model, not from the lag-1 autocorrelation"],
  [/^ar1_/, "no noise here is autoregressive"],
  [/^mask\./, "no telecommunication masks are applied"],
  [/^pend_/, "no pendulum is simulated"],
  [/^osc\.|^fork\./, "sizes that scenarios may take, nothing that is computed"],
  [/^ou\.ripple\.(0\.5|1|1\.5|3|4|5)$/, "the ladder has two processes a decade (ou.ripple.2)"],
  [/^ou\.(edge|practical|ou_example|ibm_example)$/, "worked examples of other ladders"],
  [/^kw/, "noise is made by relaxation processes, not by fractional differences"],
  [/^bridge_[15]/, "the same formulas as bridge_2 at other steps"],
];

describe("published.json", () => {
  it.each(checks)("has its check $id reached by a test, or left out for a reason", ({ id }) => {
    const isAsked = asked.some((pattern) => pattern.test(id));
    const written = writtenOut.find(([pattern]) => pattern.test(id));
    const left = leftOut.find(([pattern]) => pattern.test(id));
    expect([isAsked, written !== undefined, left !== undefined].filter(Boolean)).toHaveLength(1);
    if (written !== undefined) expect(texts.get(written[1])).toContain(written[2]);
  });

  it("is asked for nothing that is not there, and nothing that is there is listed in vain", () => {
    const listed = [
      ...writtenOut.map(([pattern]) => pattern),
      ...leftOut.map(([pattern]) => pattern),
    ];
    for (const pattern of [...asked, ...listed]) {
      expect([pattern, checks.some(({ id }) => pattern.test(id))]).toEqual([pattern, true]);
    }
  });
});
