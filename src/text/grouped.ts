/** Items by the key of each, in the order in which they come. */
export const byKey = <K, T>(items: readonly T[], keyOf: (item: T) => K): Map<K, T[]> => {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [item]);
    else group.push(item);
  }
  return groups;
};

/** Items grouped by the key of each; groups and items stay in the order in which they come. */
export const grouped = <T>(items: readonly T[], keyOf: (item: T) => string): T[][] => [
  ...byKey(items, keyOf).values(),
];
