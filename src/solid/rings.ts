import { withChords } from '../geometry/chords.ts';
import type { Loop, Vertex } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import {
  endDirection,
  levelCrossings,
  partBulge,
  type Piece,
  pieceOf,
  pointOn,
  startDirection,
} from '../geometry/piece.ts';
import { circle } from '../geometry/shapes.ts';
import { cross, distance, dot, leftOf, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { mirrorLoop } from '../model/mirror.ts';
import type { FlatCutout, FlatPattern } from '../model/flat.ts';

/** A point of a rim, and whether the rim runs on there without a corner. */
export interface RimPoint {
  readonly at: Vec2;
  readonly smooth: boolean;
}

/**
 * The rims of a blank with chords in place of arcs, none farther off than `sagMm`: the outline
 * counter-clockwise, then each hole clockwise, so that the metal is on the left of all of them.
 * Arcs have points where a bend begins or ends.
 */
export const blankRings = (flat: FlatPattern, sagMm: number): RimPoint[][] => {
  const lines = flat.bends.flatMap((b) => [b.parentTangent, b.childTangent]);
  return [flat.outline, ...flat.cutouts.map((c) => clockwise(cutoutLoop(c)))].map((loop) =>
    rimPoints(splitAtLines(loop, lines), sagMm),
  );
};

/**
 * The same loop with its arcs cut where they cross one of the lines, each given from point to
 * point.
 */
const splitAtLines = (loop: Loop, lines: readonly (readonly [Vec2, Vec2])[]): Loop =>
  loop.flatMap((v, i): Vertex[] => {
    const piece = pieceOf(loop, i);
    if (piece.bulge === 0) return [v];
    const shares = lines
      .flatMap((line) => crossingsWith(piece, line))
      .filter((t) => t > LEAST_ARC_SHARE && t < 1 - LEAST_ARC_SHARE);
    const cuts = [0, ...shares.toSorted((a, b) => a - b), 1];
    return cuts.slice(1).flatMap((t, k): Vertex[] => {
      const from = cuts[k] as number;
      if (t - from < LEAST_ARC_SHARE) return [];
      const [x, y] = pointOn(piece, from);
      return [{ x, y, bulge: partBulge(piece.bulge, from, t) }];
    });
  });

/** A smaller share of an arc does not make a piece of its own. */
const LEAST_ARC_SHARE = 1e-6;

const crossingsWith = (piece: Piece, [p, q]: readonly [Vec2, Vec2]): number[] => {
  const dir = unit(sub(q, p));
  const normal = leftOf(dir);
  const long = distance(p, q);
  return levelCrossings(piece, normal, dot(p, normal)).filter((t) => {
    const u = dot(sub(pointOn(piece, t), p), dir);
    return u > 0 && u < long;
  });
};

/** The rim of a hole as a loop. */
export const cutoutLoop = (c: FlatCutout): Loop =>
  c.kind === 'round' ? circle(c.centre, c.diameterMm / 2) : c.loop;

const clockwise = (loop: Loop): Loop => (signedArea(loop) < 0 ? loop : backwardsLoop(loop));

/**
 * The same curve walked the other way. Mirroring reverses it, and each point is then mirrored back.
 */
const backwardsLoop = (loop: Loop): Loop =>
  mirrorLoop(loop).map(({ x, y, bulge }) => ({
    x: x === 0 ? 0 : -x,
    y,
    bulge: bulge === 0 ? 0 : -bulge,
  }));

const rimPoints = (loop: Loop, sagMm: number): RimPoint[] => {
  let next = 0;
  return withChords(loop, sagMm).map(({ x, y }): RimPoint => {
    const given = loop[next] as Vertex | undefined;
    if (given === undefined || given.x !== x || given.y !== y) return { at: [x, y], smooth: true };
    const smooth = runsOn(loop, next);
    next += 1;
    return { at: [x, y], smooth };
  });
};

/** A smaller turn at the end of a piece, as the sine of the angle, is not a corner. */
const LEAST_CORNER_SINE = 0.05;

const runsOn = (loop: Loop, i: number): boolean => {
  const [before, after] = [endDirection(pieceOf(loop, i - 1)), startDirection(pieceOf(loop, i))];
  return dot(before, after) > 0 && Math.abs(cross(before, after)) < LEAST_CORNER_SINE;
};
