/**
 * The part of the Frictionless Data Package v2 profiles that a descriptor of this program can touch, as JSON
 * Schema: written from memory of the standard's text (datapackage.org, Data Package, Data Resource, Table
 * Dialect and Table Schema), not copied from its files. Custom properties are allowed, as the standard says.
 */
const moment = "^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}:\\d{2}(\\.\\d+)?(Z|[+-]\\d{2}:\\d{2})$";

const field = {
  type: "object",
  required: ["name"],
  properties: {
    name: { type: "string" },
    title: { type: "string" },
    description: { type: "string" },
    type: {
      enum: [
        "string",
        "number",
        "integer",
        "boolean",
        "object",
        "array",
        "list",
        "date",
        "time",
        "datetime",
        "year",
        "yearmonth",
        "duration",
        "geopoint",
        "geojson",
        "any",
      ],
    },
    constraints: {
      type: "object",
      properties: {
        required: { type: "boolean" },
        unique: { type: "boolean" },
        enum: { type: "array", minItems: 1, uniqueItems: true },
      },
      additionalProperties: false,
    },
  },
};

const resource = {
  type: "object",
  required: ["name", "path"],
  properties: {
    name: { type: "string", pattern: "^[a-z0-9._/-]+$" },
    // A relative path: no leading slash, no way up, no hidden file.
    path: { type: "string", pattern: "^(?!/)(?!.*\\.\\.)(?!\\.)[^\\\\]+$" },
    type: { const: "table" },
    title: { type: "string" },
    description: { type: "string" },
    format: { type: "string" },
    mediatype: { type: "string", pattern: "^.+/.+$" },
    encoding: { type: "string" },
    bytes: { type: "integer", minimum: 0 },
    hash: { type: "string", pattern: "^([^:]+:[a-fA-F0-9]+|[a-fA-F0-9]{32})$" },
    dialect: {
      type: "object",
      required: ["$schema"],
      properties: {
        $schema: { const: "https://datapackage.org/profiles/2.0/tabledialect.json" },
        header: { type: "boolean" },
        delimiter: { type: "string", minLength: 1 },
        lineTerminator: { type: "string", minLength: 1 },
        quoteChar: { type: "string", minLength: 1, maxLength: 1 },
        doubleQuote: { type: "boolean" },
      },
      additionalProperties: false,
    },
    schema: {
      type: "object",
      required: ["fields"],
      properties: {
        $schema: { const: "https://datapackage.org/profiles/2.0/tableschema.json" },
        fields: { type: "array", minItems: 1, items: field },
        missingValues: { type: "array", items: { type: "string" } },
        primaryKey: { type: "array", minItems: 1, uniqueItems: true, items: { type: "string" } },
      },
      additionalProperties: false,
    },
  },
};

/** JSON Schema (draft 7) of a descriptor. */
export const frictionlessProfile = {
  $schema: "http://json-schema.org/draft-07/schema#",
  type: "object",
  required: ["$schema", "resources"],
  properties: {
    $schema: { const: "https://datapackage.org/profiles/2.0/datapackage.json" },
    name: { type: "string", pattern: "^[a-z0-9._/-]+$" },
    title: { type: "string" },
    description: { type: "string" },
    created: { type: "string", pattern: moment },
    resources: { type: "array", minItems: 1, items: resource },
  },
};
