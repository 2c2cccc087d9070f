/**
 * The lines that differ between two texts, each with `- ` or `+ ` in front, in their order: what is
 * left over beside the longest run of lines that both have.
 */
export function changedLines(before: string, after: string): readonly string[] {
  const [a, b] = [before, after].map((text) => (text === '' ? [] : text.trimEnd().split('\n'))) as [
    string[],
    string[],
  ];
  // Length of the longest common run of lines from i and j on.
  const common = Array.from({ length: a.length + 1 }, () =>
    Array.from({ length: b.length + 1 }, () => 0),
  );
  const at = (i: number, j: number): number => common[i]?.[j] ?? 0;
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      (common[i] as number[])[j] =
        a[i] === b[j] ? 1 + at(i + 1, j + 1) : Math.max(at(i + 1, j), at(i, j + 1));
  const told: string[] = [];
  let [i, j] = [0, 0];
  while (i < a.length || j < b.length) {
    if (i < a.length && j < b.length && a[i] === b[j]) {
      i += 1;
      j += 1;
    } else if (j >= b.length || (i < a.length && at(i + 1, j) >= at(i, j + 1))) {
      told.push(`- ${a[i] ?? ''}`);
      i += 1;
    } else {
      told.push(`+ ${b[j] ?? ''}`);
      j += 1;
    }
  }
  return told;
}
