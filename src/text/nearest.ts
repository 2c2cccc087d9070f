/**
 * The name that a person most likely meant, or `undefined` when none is near: at most one slip in a
 * short word, two in a longer one, three from ten letters on. A word is also near when exactly one
 * candidate begins with it.
 */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  const sought = plain(word);
  if (sought === '' || sought.length > LONGEST) return undefined;
  const limit = sought.length < 4 ? 1 : sought.length < 10 ? 2 : 3;
  let best: string | undefined;
  let least = limit + 1;
  const begun: string[] = [];
  for (const candidate of candidates) {
    const name = plain(candidate);
    if (sought.length >= 3 && name.startsWith(sought)) begun.push(candidate);
    const slips = editDistance(sought, name, least);
    if (slips < least) [best, least] = [candidate, slips];
  }
  return best ?? (begun.length === 1 ? begun[0] : undefined);
}

/** The `count` names nearest to a word, the nearest first, however far away they are. */
export function nearestFew(word: string, candidates: Iterable<string>, count: number): string[] {
  const sought = plain(word).slice(0, LONGEST);
  return [...candidates]
    .map((candidate) => ({ candidate, slips: editDistance(sought, plain(candidate), Infinity) }))
    .toSorted((a, b) => a.slips - b.slips)
    .slice(0, count)
    .map(({ candidate }) => candidate);
}

const LONGEST = 60;

/**
 * The word without hyphens, underscores, spaces and capitals, which do not count as slips: `leg-a`,
 * `leg_a` and `legA` are one name.
 */
const plain = (word: string): string => word.toLowerCase().replace(/[-_\s]/g, '');

/**
 * Number of letters inserted, left out, replaced, or swapped with their neighbour (the optimal
 * string alignment distance). Counting stops at `limit`.
 */
function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) >= limit) return limit;
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const replaced = (last[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let slips = Math.min(replaced, (last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) slips = Math.min(slips, (beforeLast[j - 2] ?? 0) + 1);
      row.push(slips);
    }
    [beforeLast, last] = [last, row];
  }
  return Math.min(last[b.length] ?? limit, limit);
}
