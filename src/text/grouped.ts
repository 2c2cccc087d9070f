/** Items by the key of each, in the order in which they come. */
export const byKey = <K, T>(items: readonly T[], keyOf: (item: T) => K): Map<K, T[]> => {
  const groups = new Map<K, T[]>();
  for (const item of items) listIn(groups, keyOf(item)).push(item);
  return groups;
};

/** Items grouped by the key of each; groups and items stay in the order in which they come. */
export const grouped = <T>(items: readonly T[], keyOf: (item: T) => string): T[][] => [
  ...byKey(items, keyOf).values(),
];

/** The map of a key in a map of maps; one that is not there yet is put in. */
export const mapIn = <K, L, V>(maps: Map<K, Map<L, V>>, key: K): Map<L, V> => {
  const known = maps.get(key) ?? new Map<L, V>();
  maps.set(key, known);
  return known;
};

/** The list of a key in a map of lists; one that is not there yet is put in. */
export const listIn = <K, V>(lists: Map<K, V[]>, key: K): V[] => {
  const known = lists.get(key) ?? [];
  lists.set(key, known);
  return known;
};
