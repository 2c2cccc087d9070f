/** Whether cards are wanted of what has one of these names; of everything where none is named. */
export const isCardOf = (
  wanted: readonly string[] | undefined,
  names: readonly (string | null)[],
): boolean =>
  wanted === undefined ||
  names.some((name) => name !== null && wanted.includes(name.toLowerCase()));
