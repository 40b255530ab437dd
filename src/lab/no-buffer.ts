/** Stands in for Node's Buffer, which the CSV writer asks for by name; no value in a browser is one. */
export const Buffer = {
  from: (bytes: readonly number[]) => bytes,
  isBuffer: () => false,
};
