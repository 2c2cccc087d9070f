/**
 * The real roots of a polynomial, given from its constant upwards, in rising order; a root that two
 * meet in is told once or not at all. Between two turning points a polynomial runs one way, so that
 * halving finds the root there: its turning points are the roots of its derivative, and so on down
 * to a line. Slower than closed formulas, and without their loss of digits.
 */
export const rootsOf = (coefficients: readonly number[]): number[] => {
  const lead = coefficients.findLastIndex((c) => c !== 0);
  if (lead < 1) return [];
  const [c0, c1] = coefficients as readonly [number, number];
  if (lead === 1) return [-c0 / c1];
  const all = coefficients.slice(0, lead + 1);
  const turns = rootsOf(all.slice(1).map((c, i) => c * (i + 1)));
  const far = farthestRoot(all);
  const ends = [-far, ...turns.filter((t) => Math.abs(t) < far), far];
  return ends.slice(1).flatMap((to, i) => {
    const root = rootBetween(all, ends[i] as number, to);
    return root === undefined ? [] : [root];
  });
};

/** No root lies farther from 0 (A. L. Cauchy's bound: 1 + max |c / lead|; from memory). */
const farthestRoot = (all: readonly number[]): number => {
  const lead = all.at(-1) as number;
  return 1 + Math.max(...all.map((c) => Math.abs(c / lead)));
};

const valueAt = (all: readonly number[], x: number): number =>
  all.reduceRight((sum, c) => sum * x + c, 0);

/** Halving comes to the last digit after so many steps. */
const MOST_HALVINGS = 200;

const rootBetween = (all: readonly number[], from: number, to: number): number | undefined => {
  const before = Math.sign(valueAt(all, from));
  if (before === 0) return from;
  if (Math.sign(valueAt(all, to)) === before) return undefined;
  let [low, high] = [from, to];
  for (let i = 0; i < MOST_HALVINGS; i++) {
    const mid = (low + high) / 2;
    if (mid <= low || mid >= high) break;
    if (Math.sign(valueAt(all, mid)) === before) low = mid;
    else high = mid;
  }
  return (low + high) / 2;
};
