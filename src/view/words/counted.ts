/** A number and what it counts: `1 reading`, `2 readings`, `0 digits`. */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;
