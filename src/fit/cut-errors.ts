import type { Loop, Vertex } from '../geometry/loop.ts';
import { vertexAt } from '../geometry/loop.ts';
import { pieceOf } from '../geometry/piece.ts';
import { distance, dot, leftOf, middle, scale, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import type { AskedMeasure, Place } from '../contract/asked.ts';
import type { Contour } from '../measure/contours.ts';
import type { FoldedFile } from '../measure/folded-file.ts';
import { nearestPiece } from '../measure/distances.ts';

/** A body with one cut line off by some millimetres. */
export type Moved = (byMm: number) => FoldedFile;

/**
 * How the cut lines that a measure lies between may be off. `single`: each by itself. `wider`: all
 * at once, when the cut is wider than was allowed for by a given amount; each edge then moves into
 * the metal by half of it.
 */
export interface CutMoves {
  readonly single: readonly Moved[];
  readonly wider: Moved | undefined;
}

export const cutMoves = (body: FoldedFile, { between }: AskedMeasure): CutMoves => {
  const moves = between.flatMap((place) => movesOf(body, place));
  const shrinking = moves.flatMap((m) => (m.into === undefined ? [] : [m.into]));
  return {
    single: moves.map(
      ({ of, change }): Moved =>
        (by) =>
          withContour(body, of, change(by)),
    ),
    wider:
      shrinking.length === 0
        ? undefined
        : (by) =>
            moves.reduce(
              (b, { of, into }) => (into === undefined ? b : withContour(b, of, into(b, by / 2))),
              body,
            ),
  };
};

interface Move {
  readonly of: number;
  readonly change: (byMm: number) => Contour;
  /** The contour moved into the metal, on top of what another move did. */
  readonly into?: (body: FoldedFile, byMm: number) => Contour;
}

const contourAt = ({ outline, holes }: FoldedFile, of: number): Contour | undefined =>
  of < 0 ? outline : holes[of];

const withContour = (body: FoldedFile, of: number, contour: Contour): FoldedFile =>
  of < 0
    ? { ...body, outline: contour }
    : { ...body, holes: body.holes.map((h, i) => (i === of ? contour : h)) };

const movesOf = (body: FoldedFile, place: Place): Move[] => {
  if (place.kind === 'edge') return edgeMove(body, place);
  if (place.kind === 'corner') return cornerMoves(body, place.at);
  if (place.kind === 'centre' && place.of >= 0) return centreMoves(body, place.of);
  return [];
};

/**
 * Moves an edge into the metal. The metal of an outline lies on the left of its edges, the metal
 * round a hole on the right of the hole's edges.
 */
const edgeMove = (body: FoldedFile, { of, from, to }: Extract<Place, { kind: 'edge' }>): Move[] => {
  const loop = contourAt(body, of)?.loop ?? [];
  const piece = nearestPiece(loop, middle(from, to), unit(sub(to, from)));
  const at =
    piece === undefined
      ? -1
      : loop.findIndex((v) => v.x === piece.from[0] && v.y === piece.from[1]);
  if (piece === undefined || at < 0) return [];
  const left = leftOf(unit(sub(piece.to, piece.from)));
  const into = of < 0 ? left : scale(left, -1);
  const shift = (l: Loop, by: number): Contour => ({
    loop: shifted(shifted(l, at, scale(into, by)), (at + 1) % l.length, scale(into, by)),
  });
  return [
    {
      of,
      change: (by) => shift(loop, by),
      into: (b, by) => shift(contourAt(b, of)?.loop ?? loop, by),
    },
  ];
};

const cornerMoves = (body: FoldedFile, at: Vec2): Move[] => {
  const { loop } = body.outline;
  const i = loop.reduce(
    (best, v, j) =>
      distance([v.x, v.y], at) < distance([loop[best]?.x ?? 0, loop[best]?.y ?? 0], at) ? j : best,
    0,
  );
  const bisector = intoCorner(loop, i);
  return (
    [
      [1, 0],
      [0, 1],
    ] as const
  ).map((dir, k): Move => ({
    of: -1,
    change: (by) => ({ loop: shifted(loop, i, scale(dir, by)) }),
    ...(k === 0 && {
      into: (b, by) => ({ loop: shifted(b.outline.loop, i, scale(bisector, by)) }),
    }),
  }));
};

/** The way that a corner moves when both its edges move 1 mm into the metal. */
const intoCorner = (loop: Loop, i: number): Vec2 => {
  const [before, after] = [pieceOf(loop, i - 1), pieceOf(loop, i)].map(({ from, to }) =>
    leftOf(unit(sub(to, from))),
  ) as [Vec2, Vec2];
  const open = 1 + dot(before, after);
  return open < 0.1 ? before : scale([before[0] + after[0], before[1] + after[1]], 1 / open);
};

const centreMoves = (body: FoldedFile, of: number): Move[] => {
  const hole = contourAt(body, of);
  if (hole === undefined) return [];
  return (
    [
      [1, 0],
      [0, 1],
    ] as const
  ).map((dir): Move => ({ of, change: (by) => movedHole(hole, scale(dir, by)) }));
};

export const movedHole = ({ loop, circle }: Contour, [x, y]: Vec2): Contour => ({
  loop: loop.map((v) => ({ ...v, x: v.x + x, y: v.y + y })),
  ...(circle !== undefined && {
    circle: { ...circle, centre: [circle.centre[0] + x, circle.centre[1] + y] },
  }),
});

const shifted = (loop: Loop, i: number, [x, y]: Vec2): Loop =>
  loop.map((v, j): Vertex => (j === i ? { ...vertexAt(loop, i), x: v.x + x, y: v.y + y } : v));
