import { fileURLToPath } from "node:url";

/** A file or folder that is installed with the program, by its place beside this folder. */
const installed = (place: string) => fileURLToPath(new URL(place, import.meta.url));

// All in one place, and here: the build bundles the program into files of this folder.

/** The folder of demo scenarios. */
export const demoFolder = installed("../../scenarios/");

/** The program's package. */
export const packageFile = installed("../../package.json");

/** The lesson's page without a scenario, as the build has made it. */
export const lessonTemplate = installed("../lab/lesson-template.html");

/** The program of a worker thread. */
export const ensembleWorker = installed("../cli/ensemble/ensemble-worker.js");
