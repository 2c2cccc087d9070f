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
  let worst = 0;
  for (const piece of pieces) {
    const inPiece = standing(piece);
    const marks = piece.part.panels.flatMap(({ id }) =>
      MARKS.map(([x, y, z]) => [inWhole(id, [x, y], z), inPiece(id, [x, y], z)] as const),
    );
    for (const [a, b] of marks)
      for (const [c, d] of marks) worst = Math.max(worst, Math.abs(far(b, d) - far(a, c)));
  }
  expect(worst).toBeLessThan(5e-7);
};

/** So many straight lines stand for an arc. */
const CHORDS = 16;

/** The edges of what is left of a panel, both faces and between them, where it stands on the whole. */
const rimOf = (
  whole: Folded,
  pieces: readonly Folded[],
  panelId: string,
): readonly (readonly [Point, Point])[] => {
  const at = standing(whole);
  const region =
    pieces.flatMap((p) => p.flat.panels).find(({ id }) => id === panelId)?.region ?? [];
  const round = region.flatMap(({ bulge }, i) =>
    Array.from({ length: bulge === 0 ? 1 : CHORDS }, (_, k) =>
      pointOn(pieceOf(region, i), bulge === 0 ? 0 : k / CHORDS),
    ),
  );
  const [low, high] = [0, whole.flat.thicknessMm].map((z) => round.map((p) => at(panelId, p, z)));
  return round.flatMap((_, i) => {
    const next = (i + 1) % round.length;
    const [a, b, c, d] = [low?.[i], low?.[next], high?.[i], high?.[next]] as [
      Point,
      Point,
      Point,
      Point,
    ];
    return [
      [a, b],
      [c, d],
      [a, c],
    ] as const;
  });
};

/** Corners of what is left of a panel on both faces, where it stands on the whole part. */
export const cornersOf = (
  whole: Folded,
  pieces: readonly Folded[],
  panelId: string,
): readonly Point[] => rimOf(whole, pieces, panelId).map(([from]) => from);

/** The least distance between the rims of two panels. */
export const gapBetween = (
  whole: Folded,
  pieces: readonly Folded[],
  [one, other]: readonly [string, string],
): number => {
  const [a, b] = [rimOf(whole, pieces, one), rimOf(whole, pieces, other)];
  return Math.min(...a.map((p) => Math.min(...b.map((q) => between(p, q)))));
};

const less = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const times = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const within = (share: number): number => Math.min(1, Math.max(0, share));

/**
 * The distance of two straight lines with ends: where both come nearest to each other, or else from an
 * end of one to the other (Ericson, Real-Time Collision Detection, 5.1.9, from memory).
 */
const between = ([p, q]: readonly [Point, Point], [r, s]: readonly [Point, Point]): number => {
  const [d, e, w] = [less(q, p), less(s, r), less(p, r)];
  const [dd, ee, de, dw, ew] = [times(d, d), times(e, e), times(d, e), times(d, w), times(e, w)];
  const at = (u: number, v: number): number =>
    Math.hypot(w[0] + u * d[0] - v * e[0], w[1] + u * d[1] - v * e[1], w[2] + u * d[2] - v * e[2]);
  const over = dd * ee - de * de;
  const u = over < 1e-9 * dd * ee ? 0 : within((de * ew - ee * dw) / over);
  const v = within((ew + u * de) / ee);
  return Math.min(
    at(within((v * de - dw) / dd), v),
    ...[0, 1].flatMap((end) => [
      at(end, within((ew + end * de) / ee)),
      at(within((end * de - dw) / dd), end),
    ]),
  );
};
