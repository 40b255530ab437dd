import { join } from "node:path";
import type { StabilityRow } from "../analysis/index.ts";
import {
  type CleanReadings,
  cleanReadings,
  judgeReadings,
  tooMuchApart,
} from "../judgement/index.ts";
import { estimateTruths, runReadings, timeBaseBound } from "../planning/index.ts";
import type { Readings } from "../readings/index.ts";
import type { Scenario } from "../scenario/index.ts";
import { toMarkup } from "../view/chart/index.ts";
import type { PictureContext } from "../view/report/index.ts";
import { type NamedPicture, readingPictureNames, readingPictures } from "../view/report/index.ts";
import { inFolder } from "./output-folder.ts";
import type { ChartLook } from "./picture-options.ts";
import type { RunOutcome } from "./simulate.ts";
import { startOf } from "./span-of.ts";

/** A picture as a file. */
export interface Picture {
  readonly name: string;
  readonly file: string;
  readonly svg: string;
}

/** File name of a picture. */
const pictureFile = (name: string): string => `${name}.svg`;

/** Names of all the pictures that a run may draw. */
export const runPictureFiles: readonly string[] = readingPictureNames.map(pictureFile);

/** Pictures as files. */
export function pictureFiles(pictures: readonly NamedPicture[]): Picture[] {
  return pictures.map(({ name, node }) => ({
    name,
    file: pictureFile(name),
    svg: `<?xml version="1.0" encoding="UTF-8"?>\n${toMarkup(node)}\n`,
  }));
}

/** Pictures of a run: its readings with the truth beside them. */
export function runPictures(
  scenario: Scenario,
  outcome: RunOutcome,
  { title, ...look }: ChartLook & { readonly title?: string | undefined },
): Picture[] {
  const record = outcome.record.read();
  if (record.start.length < 2) return [];
  const readings = runReadings(scenario, record);
  const cleaned = cleanReadings(readings, 1 / scenario.clock.stepsPerTick);
  const fallback = outcome.fallback.map(([from, to]) => ({ from, to }));
  const { stability } = judgeReadings(cleaned.repaired.readings);
  const nodes = recordPictures(readings, cleaned, stability, {
    title: title ?? scenario.title,
    look,
    truth: estimateTruths(scenario, record).end_to_end.rateOverRun,
    systematicBound: timeBaseBound(scenario).bound,
    slips: outcome.slips,
    fallback,
  });
  return pictureFiles(nodes);
}

/**
 * Pictures of readings from a bench, of which nobody knows the truth.
 *
 * @param known - smallest slip, in cycles, and what may shift every reading alike
 */
export function benchNodes(
  title: string,
  readings: Readings,
  { slipUnit, systematicBound }: { readonly slipUnit: number; readonly systematicBound: number },
  stability: readonly StabilityRow[],
  look: ChartLook = {},
): NamedPicture[] {
  const cleaned = cleanReadings(readings, slipUnit);
  const slips = cleaned.repaired.slips.map(({ reading, cycles }) => ({
    at: startOf(readings, reading),
    steps: Math.round(-cycles / slipUnit),
  }));
  const context = { title, look, truth: null, systematicBound, slips, fallback: [] };
  return recordPictures(readings, cleaned, stability, context);
}

/** What a rate is estimated from is drawn without slips and strays, as long as that is most of the record. */
function recordPictures(
  taken: Readings,
  { strays, without }: CleanReadings,
  stability: readonly StabilityRow[],
  context: PictureContext,
): NamedPicture[] {
  const readings = tooMuchApart(taken, without) === "" ? without : taken;
  const jumps = strays.length > 0;
  return readingPictures(taken, readings, stability, { ...context, jumps });
}

/**
 * Writes pictures into a folder, all or none.
 *
 * @param path - the folder
 * @param pictures - what to write
 * @param mayReplace - whether pictures that are there may be replaced
 * @returns their paths, in order
 */
export function writePictures(
  path: string,
  pictures: readonly Picture[],
  mayReplace: boolean,
): string[] {
  if (pictures.length === 0) return [];
  const names = pictures.map(({ file }) => file);
  inFolder(path, names, mayReplace, (folder) => {
    for (const { file, svg } of pictures) folder.write(file, svg);
  });
  return pictures.map(({ file }) => join(path, file));
}
