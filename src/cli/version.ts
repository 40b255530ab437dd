import { readFileSync } from "node:fs";

/** Version of the program, as in its package. */
export const version: string = JSON.parse(
  readFileSync(new URL("../../package.json", import.meta.url), "utf8"),
).version;
