/**
 * Whether two values of plain data are the same: numbers, texts, lists and maps of these. What is
 * `undefined` in a map is not there.
 */
export const isSameValue = (one: unknown, other: unknown): boolean => {
  if (one === other) return true;
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null)
    return false;
  if (Array.isArray(one) || Array.isArray(other))
    return (
      Array.isArray(one) &&
      Array.isArray(other) &&
      one.length === other.length &&
      one.every((item, i) => isSameValue(item, other[i]))
    );
  const [a, b] = [
    one as Readonly<Record<string, unknown>>,
    other as Readonly<Record<string, unknown>>,
  ];
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...keys].every((key) => isSameValue(a[key], b[key]));
};
