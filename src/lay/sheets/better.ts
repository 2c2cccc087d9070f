import type { Aim } from './request.ts';

/** Counts and costs that differ by less are equal. */
export const SAME_COST = 1e-9;
/** Differences of clean areas below this, mm2, and of ways below this, mm, are none. */
const SAME = 1;

/** Figures of an aim in the order in which they count; the lower is the better. */
const figuresOf = (aim: Aim): readonly number[] => [
  aim.firstLeft,
  aim.left,
  aim.cost,
  aim.bought,
  aim.onWholeMm2,
  -aim.cleanMm2,
  aim.travelMm,
];

/** Whether the first of two is the better one, by the first figure in which they differ. */
export const isBetter = (a: Aim, b: Aim): boolean => {
  const [figures, others] = [figuresOf(a), figuresOf(b)];
  const at = figures.findIndex((figure, k) => Math.abs(figure - (others[k] as number)) > sameOf(k));
  return at >= 0 && (figures[at] as number) < (others[at] as number);
};

const sameOf = (k: number): number => (k < 4 ? SAME_COST : SAME);
