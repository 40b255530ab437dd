import type { Column } from "./column.ts";
import type { Provenance } from "./provenance.ts";
import type { SweepProvenance } from "./sweep-provenance.ts";

/** A CSV file of the package, already written. */
export interface DataFile {
  /** Short name, unique in the package: lower-case letters, digits, `.`, `_`, `-`. */
  readonly name: string;
  /** File name, relative to the descriptor. */
  readonly path: string;
  readonly title: string;
  readonly description: string;
  readonly columns: readonly Column[];
  /** Columns whose values together name a row. */
  readonly primaryKey: readonly string[];
  /** Length of the file; bytes, >= 0. */
  readonly bytes: number;
  /** SHA-256 of the file; 64 hexadecimal digits. */
  readonly sha256: string;
}

/** What a descriptor is made of. */
export interface DataPackageInput {
  /** Short name: lower-case letters, digits, `.`, `_`, `-`. */
  readonly name: string;
  readonly title: string;
  readonly description: string;
  /** Moment of writing, RFC 3339 in UTC; this and the command line alone differ between equal runs. */
  readonly created: string;
  /** The command line, word by word. */
  readonly command: readonly string[];
  readonly files: readonly DataFile[];
  readonly provenance: Provenance | SweepProvenance;
}

/** Key of what differs between equal runs: when it was made, and by which words. */
export const madeKey = "tickwright:made";

const profile = (kind: string) => `https://datapackage.org/profiles/2.0/${kind}.json`;

/**
 * The descriptor of a folder of results, by Frictionless Data Package v2.
 *
 * The standard has no property for the unit of a column; it stands in the title, for people, and as a
 * UCUM code in the custom property `tickwright:unit`. How the data came about is `tickwright:provenance`.
 *
 * @param input - names, files and provenance
 * @returns a plain object, ready for `jsonText`; the same input gives the same object, key by key
 * @throws RangeError if a name, size, digest, key or moment is not of the form above, or names repeat
 *
 * Source: Frictionless Data Package v2 (Data Package, Data Resource, Table Dialect, Table Schema); UCUM.
 */
export function dataPackage(input: DataPackageInput) {
  requireMatch(input.name, namePattern, "name");
  requireMatch(input.created, momentPattern, "created");
  if (input.files.length === 0) {
    throw new RangeError("dataPackage: files must be one or more, got none");
  }
  const names = new Set(input.files.map((file) => file.name));
  if (names.size !== input.files.length) {
    throw new RangeError("dataPackage: files must have different names");
  }
  return {
    $schema: profile("datapackage"),
    name: input.name,
    title: input.title,
    description: input.description,
    [madeKey]: { created: input.created, command: input.command },
    resources: input.files.map(resource),
    "tickwright:provenance": input.provenance,
  };
}

const namePattern = /^[a-z0-9._-]+$/;
const momentPattern = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/;
const digestPattern = /^[0-9a-f]{64}$/;

function requireMatch(value: string, pattern: RegExp, what: string): void {
  if (!pattern.test(value)) {
    throw new RangeError(
      `dataPackage: ${what} must match ${pattern}, got ${JSON.stringify(value)}`,
    );
  }
}

function resource(file: DataFile) {
  requireMatch(file.name, namePattern, "name of a file");
  requireMatch(file.sha256, digestPattern, `sha256 of ${file.name}`);
  if (!Number.isSafeInteger(file.bytes) || file.bytes < 0) {
    throw new RangeError(
      `dataPackage: bytes of ${file.name} must be an integer >= 0, got ${file.bytes}`,
    );
  }
  const stray = file.primaryKey.find((key) => !file.columns.some((column) => column.name === key));
  if (stray !== undefined) {
    throw new RangeError(`dataPackage: primaryKey of ${file.name} must name columns, got ${stray}`);
  }
  return {
    name: file.name,
    path: file.path,
    type: "table",
    title: file.title,
    description: file.description,
    format: "csv",
    mediatype: "text/csv",
    encoding: "utf-8",
    bytes: file.bytes,
    hash: `sha256:${file.sha256}`,
    dialect: {
      $schema: profile("tabledialect"),
      header: true,
      delimiter: ",",
      lineTerminator: "\r\n",
      quoteChar: '"',
      doubleQuote: true,
    },
    schema: {
      $schema: profile("tableschema"),
      fields: file.columns.map(field),
      missingValues: [""],
      primaryKey: [...file.primaryKey],
    },
  };
}

function field(column: Column) {
  return {
    name: column.name,
    type: column.type,
    title: column.title,
    description: column.description,
    ...(column.required || column.words
      ? {
          constraints: {
            ...(column.required ? { required: true } : {}),
            ...(column.words ? { enum: [...column.words] } : {}),
          },
        }
      : {}),
    ...(column.unit === null ? {} : { "tickwright:unit": column.unit }),
  };
}
