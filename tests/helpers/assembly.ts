import { expect } from 'vitest';
import { movePoint } from '../../src/geometry/motion2.ts';
import { pieceOf, pointOn } from '../../src/geometry/piece.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import type { Part } from '../../src/model/part.ts';
import { folder, type Point } from './folded-points.ts';

/**
 * Pieces put together at their weld seams, by the witness that folds drawings alone: whether their
 * panels stand to each other as on the folded part, and how wide the seams are.
 */

export interface Folded {
  readonly part: Part;
  readonly flat: FlatPattern;
}

/** Where points of the panels come to lie. */
const standing = ({ part: { root }, flat }: Folded) => {
  const place = folder(flat, root);
  return (panelId: string, [x, y]: readonly [number, number], z: number): Point => {
    const own = flat.panels.find(({ id }) => id === panelId);
    if (own === undefined) throw new Error(`no panel ${panelId}`);
    return place(panelId, movePoint(own.placement, [x, y]), z);
  };
};

export const far = (a: Point, b: Point): number =>
  Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** Four points that fix a panel in space, whatever is left of its metal. */
const MARKS = [
  [0, 0, 0],
  [100, 0, 0],
  [0, 100, 0],
  [0, 0, 100],
] as const;

/** The panels of each piece stand to each other as they do on the folded whole. */
export const expectAlike = (whole: Folded, pieces: readonly Folded[]): void => {
  const inWhole = standing(whole);
  for (const piece of pieces) {
    const inPiece = standing(piece);
    const marks = piece.part.panels.flatMap(({ id }) =>
      MARKS.map(([x, y, z]) => [inWhole(id, [x, y], z), inPiece(id, [x, y], z)] as const),
    );
    for (const [a, b] of marks)
      for (const [c, d] of marks) expect(far(b, d)).toBeCloseTo(far(a, c), 6);
  }
};

const SHARES = Array.from({ length: 200 }, (_, i) => i / 200);

/** Points on both faces all round what is left of a panel, where it stands on the whole part. */
export const rimOf = (
  whole: Folded,
  pieces: readonly Folded[],
  panelId: string,
): readonly Point[] => {
  const at = standing(whole);
  const region = pieces.flatMap((p) => p.flat.panels).find(({ id }) => id === panelId)?.region;
  return (region ?? []).flatMap((_, i) =>
    SHARES.flatMap((share) => {
      const on = pointOn(pieceOf(region ?? [], i), share);
      return [at(panelId, on, 0), at(panelId, on, whole.flat.thicknessMm)];
    }),
  );
};

/** The least distance between the rims of two panels. */
export const gapBetween = (
  whole: Folded,
  pieces: readonly Folded[],
  [one, other]: readonly [string, string],
): number => {
  const [a, b] = [rimOf(whole, pieces, one), rimOf(whole, pieces, other)];
  return Math.min(...a.map((p) => Math.min(...b.map((q) => far(p, q)))));
};
