import { readFileSync } from "node:fs";
import { packageFile } from "./installed.ts";

/** Version of the program, as in its package. */
export const version: string = JSON.parse(readFileSync(packageFile, "utf8")).version;
