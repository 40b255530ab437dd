/** What is needed of the schema package's inner description of a schema. */
export interface SchemaNode {
  readonly def: {
    readonly type: string;
    readonly innerType?: SchemaNode;
    readonly element?: SchemaNode;
    readonly options?: readonly SchemaNode[];
    readonly discriminator?: string;
    readonly values?: readonly unknown[];
  };
  readonly shape?: Readonly<Record<string, SchemaNode>>;
  readonly meta: () => { readonly description?: string } | undefined;
}

/** The value at a key; undefined where there is none. */
export const valueAt = (value: unknown, key: string | number): unknown =>
  typeof value === "object" && value !== null ? (value as Record<string, unknown>)[key] : undefined;

/**
 * The schema behind optional and default, and of a union the alternative that a value aims at.
 *
 * @param schema - a schema
 * @param value - what stands there
 */
export function unwrapped(schema: SchemaNode, value: unknown): SchemaNode {
  let node = schema;
  while (node.def.innerType !== undefined) node = node.def.innerType;
  if (node.def.type !== "union") return node;
  const { options = [], discriminator } = node.def;
  const chosen =
    discriminator === undefined
      ? options.find((option) => option.def.type === "object")
      : options.find((option) =>
          option.shape?.[discriminator]?.def.values?.includes(valueAt(value, discriminator)),
        );
  return chosen ?? node;
}
