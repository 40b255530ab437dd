import { createHash } from "node:crypto";
import { madeKey } from "../view/table/index.ts";

/** Key of a descriptor that holds the digest of all its others, but for what was made when and by which words. */
const sealKey = "tickwright:sha256";

/** A descriptor with its own digest in it. */
export const sealed = (descriptor: Readonly<Record<string, unknown>>) => ({
  ...descriptor,
  [sealKey]: sealOf(descriptor),
});

/** Whether a descriptor is what was written, but for the object that differs between equal runs. */
export const isSealed = (descriptor: Readonly<Record<string, unknown>>): boolean =>
  descriptor[sealKey] === sealOf(descriptor);

/** SHA-256 of a descriptor in a form that neither the order of keys nor blanks change. */
function sealOf(descriptor: Readonly<Record<string, unknown>>): string {
  const { [sealKey]: _, [madeKey]: __, ...rest } = descriptor;
  const text = JSON.stringify(rest, (_key, value) =>
    typeof value === "object" && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
      : value,
  );
  return createHash("sha256").update(text, "utf8").digest("hex");
}
