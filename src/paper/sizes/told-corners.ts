import { figure } from '../../text/figures.ts';
import { distance, type Vec2 } from '../../geometry/vec2.ts';
import type { FlatBend } from '../../model/flat.ts';
import { fromDatum } from './datum.ts';
import type { DrawnBlank } from './drawn-blank.ts';
import { metalBetween } from './metal-between.ts';
import type { OutlineCorner } from './outline-corners.ts';

export interface Overall {
  readonly mm: number;
  readonly isTwice: boolean;
}

/** Nearer to each other than this, mm, two sizes are one. */
export const SAME_TICK_MM = 0.05;
/** An extension line that runs over more metal than this, mm, is not drawn to a corner. */
export const OVER_METAL_MM = 0.5;
const PARALLEL_MM = 0.05;

/** 0: an upright fold, which x tells; 1: a level one. */
export const axisOf = ({ centreLine: [p, q] }: FlatBend): 0 | 1 | undefined =>
  ([0, 1] as const).find((axis) => Math.abs(p[axis] - q[axis]) < PARALLEL_MM);

/** What is known of the places of a drawn blank: its values, and lines out to its sides. */
export interface Teller {
  readonly value: (p: Vec2, axis: 0 | 1) => number;
  /** How far it lies off the datum, and off the far side that the overall size tells, mm. */
  readonly plainGaps: (p: Vec2, axis: 0 | 1) => readonly number[];
  /** Told by the datum itself or by the overall size. */
  readonly isPlain: (p: Vec2, axis: 0 | 1) => boolean;
  readonly overall: (axis: 0 | 1) => Overall;
  /** Within the box round the blank. */
  readonly isWithin: (p: Vec2) => boolean;
  readonly metal: ReturnType<typeof metalBetween>;
}

export const tellerOf = ({ flat, datum }: DrawnBlank): Teller => {
  const value: Teller['value'] = (p, axis) => fromDatum(datum, p)[axis];
  const reach = [flat.widthMm, flat.heightMm] as const;
  const lines = [datum.x, datum.y] as const;
  // The side opposite the datum, where the datum is the outermost line of the other.
  const far = ([0, 1] as const).map((axis): number | undefined => {
    const { at, towards } = lines[axis];
    const low = towards[axis] > 0;
    return Math.abs(at[axis] - (low ? 0 : reach[axis])) < SAME_TICK_MM
      ? low
        ? reach[axis]
        : 0
      : undefined;
  });
  const plainGaps: Teller['plainGaps'] = (p, axis) =>
    [value(p, axis), p[axis] - (far[axis] ?? Infinity)].map(Math.abs);
  return {
    value,
    plainGaps,
    isPlain: (p, axis) => plainGaps(p, axis).some((gap) => gap < SAME_TICK_MM),
    isWithin: (p) =>
      ([0, 1] as const).every(
        (axis) => p[axis] > -SAME_TICK_MM && p[axis] < reach[axis] + SAME_TICK_MM,
      ),
    overall: (axis) => ({ mm: reach[axis], isTwice: far[axis] === undefined }),
    metal: metalBetween(flat.outline),
  };
};

/** The sides to which lines of x and of y run. */
export const SIDES_OF = { 0: ['below', 'above'], 1: ['left', 'right'] } as const;

/**
 * Corners both of whose values can be told by running sizes. Edges of a large rounding may meet far
 * beyond the blank.
 */
export const toldCorners = (corners: readonly OutlineCorner[], teller: Teller): OutlineCorner[] => {
  const own = corners.filter(
    (c) => !c.isRelief && c.arc?.about === undefined && teller.isWithin(c.at),
  );
  const canTell = ({ at }: OutlineCorner, axis: 0 | 1): boolean =>
    teller.isPlain(at, axis) ||
    own.some(
      (other) =>
        Math.abs(other.at[axis] - at[axis]) < SAME_TICK_MM &&
        SIDES_OF[axis].some((side) => teller.metal(other.at, side) <= OVER_METAL_MM),
    );
  const told = own.filter((c) => canTell(c, 0) && canTell(c, 1));
  const radii = told.flatMap((c) => c.roundMm ?? c.arc?.radiusMm ?? []);
  // Of several radii one beside the picture would not say which corner is meant.
  const isClear = new Set(radii.map((r) => figure(r))).size <= 1;
  return isClear ? told : told.filter((c) => c.roundMm === undefined && c.arc === undefined);
};

/** Whether what lies that far off is either the same or so far off that it is seen to be another. */
const isOff =
  (leastMm: number) =>
  (gap: number): boolean =>
    gap < SAME_TICK_MM || gap >= leastMm;

/**
 * Corners whose sizes do not crowd those of others: those of long edges are told first; a size that is
 * there already serves another corner too. None lies on the datum or on the far side to the eye and is
 * elsewhere.
 */
export const apart = (
  corners: readonly OutlineCorner[],
  folds: readonly FlatBend[],
  teller: Teller,
  { closeMm, oneLineMm }: { readonly closeMm: number; readonly oneLineMm: number },
): OutlineCorner[] => {
  const kept = ([0, 1] as const).map((axis) =>
    folds.flatMap((f) => (axisOf(f) === axis ? [f.centreLine[0][axis]] : [])),
  );
  const weight = (c: OutlineCorner): number => {
    const i = corners.indexOf(c);
    return [-1, 1].reduce((sum, step) => {
      const other = corners[(i + step + corners.length) % corners.length] ?? c;
      return sum + distance(other.at, c.at);
    }, 0);
  };
  const isFree = ({ at }: OutlineCorner, axis: 0 | 1): boolean =>
    teller.plainGaps(at, axis).every(isOff(oneLineMm)) &&
    (teller.isPlain(at, axis) ||
      (kept[axis] ?? []).every((mm) => isOff(closeMm)(Math.abs(mm - at[axis]))));
  const told = corners
    .toSorted((a, b) => weight(b) - weight(a))
    .filter((c) => {
      if (!isFree(c, 0) || !isFree(c, 1)) return false;
      for (const axis of [0, 1] as const)
        if (!teller.isPlain(c.at, axis)) kept[axis]?.push(c.at[axis]);
      return true;
    });
  return corners.filter((c) => told.includes(c));
};

/**
 * Upright and level folds whose lines can be told from each other, from the datum and from the far side
 * by eye: of lines that lie on one another on paper nobody could say which figure is whose.
 */
export const seenApart = (
  folds: readonly FlatBend[],
  teller: Teller,
  oneLineMm: number,
): FlatBend[] => {
  const told: FlatBend[] = [];
  for (const fold of folds) {
    const axis = axisOf(fold);
    if (axis === undefined) continue;
    const [at] = fold.centreLine;
    const others = told.filter((other) => axisOf(other) === axis);
    if (
      teller.plainGaps(at, axis).every(isOff(oneLineMm)) &&
      others.every((other) => isOff(oneLineMm)(Math.abs(other.centreLine[0][axis] - at[axis])))
    )
      told.push(fold);
  }
  return told;
};
