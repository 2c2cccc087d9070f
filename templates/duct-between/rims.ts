import {
  arcOf,
  cosDeg,
  NOISE_DEG,
  pieceOf,
  piecesOf,
  pointOn,
  sinDeg,
  wholeUp,
  EXACT_MM,
} from '../../src/template.ts';
import type { OutlinePiece, Vec2, Vec3 } from '../../src/template.ts';
import { type DuctEnd, type DuctEnds, type EndName, placedAt } from './ends.ts';
import type { DuctBetween } from './inputs.ts';
import { withLevelQuads } from './level-quads.ts';
import { around, SLIVER, type Span, spansOf, stepDeg } from './spans.ts';

/** The corners of an end between which its walls are flat, counter-clockwise. */
export interface Rim {
  readonly end: DuctEnd;
  readonly flat: readonly Vec2[];
  readonly points: readonly Vec3[];
  /** Whether the edge from each corner to the next is a straight side, not a chord of a round. */
  readonly isSide: readonly boolean[];
}

/**
 * Both ends as polygons. Rounds are divided where they face as the other end does, so that chords
 * of both lie in one plane and one facet goes from the one to the other.
 */
export const rimsOf = (v: DuctBetween, ends: DuctEnds): Readonly<Record<EndName, Rim>> => {
  const evenly = spansOf(v, ends);
  let rims = rimsBy(v, ends, evenly, NOT_GROWN);
  // A circle grows with its chords, and its divisions are moved with it.
  for (let turn = 0; turn < MOST_TURNS; turn++) {
    const grown = { near: rims.near.radius, far: rims.far.radius };
    const spans = evenly.map((span) => withLevelQuads(ends, span, grown));
    rims = rimsBy(v, ends, spans, grown);
    const isSettled = (name: EndName): boolean =>
      Math.abs((rims[name].radius ?? 0) - (grown[name] ?? 0)) < EXACT_MM;
    if (isSettled('near') && isSettled('far')) break;
  }
  return rims;
};

const NOT_GROWN = { near: undefined, far: undefined };

/** Each turn leaves a small share of what a circle still lacks. */
const MOST_TURNS = 12;

/** A rim, with the radius on which a whole circle stands. */
type GrownRim = Rim & { readonly radius?: number };

const rimsBy = (
  v: DuctBetween,
  ends: DuctEnds,
  spans: readonly Span[],
  grown: Readonly<Record<EndName, number | undefined>>,
): Readonly<Record<EndName, GrownRim>> => {
  const rim = (name: EndName): GrownRim => {
    const end = ends[name];
    const facing = spans
      .flatMap((span) => span[name].slice(0, -1).map(around))
      .toSorted((a, b) => a - b);
    const made = end.isRound ? roundRim(v, end, facing, grown[name]) : outlineRim(v, end, facing);
    return { end, ...made, points: made.flat.map((p) => placedAt(end.pose, p)) };
  };
  return { near: rim('near'), far: rim('far') };
};

/**
 * A circle divided in those directions. n chords are together shorter than it; chords that add up
 * to its circumference stand on a circle somewhat larger.
 */
const roundRim = (
  v: DuctBetween,
  { loop }: DuctEnd,
  facing: readonly number[],
  standing: number | undefined,
): Pick<GrownRim, 'flat' | 'isSide' | 'radius'> => {
  const { from, to, bulge } = pieceOf(loop, 0);
  const { centre, radius } = arcOf(from, to, bulge);
  const least = SLIVER * stepDeg(v, radius);
  const kept = facing.filter((deg, i) => i === 0 || deg - (facing[i - 1] as number) > least);
  const last = 360 + (kept[0] ?? 0) - (kept.at(-1) ?? 0);
  const degs = kept.length > 3 && last < least ? kept.slice(0, -1) : kept;
  const chords = degs.map((deg, i) => sinDeg(((degs[i + 1] ?? (degs[0] ?? 0) + 360) - deg) / 2));
  const grown =
    v.roundEdge === 'chords' ? radius : (Math.PI * radius) / chords.reduce((a, b) => a + b, 0);
  // The divisions were moved for the radius before; what it still lacks is less than rounding.
  const on = standing !== undefined && Math.abs(standing - grown) < EXACT_MM ? standing : grown;
  return {
    flat: degs.map((deg) => [centre[0] + on * cosDeg(deg), centre[1] + on * sinDeg(deg)]),
    isSide: degs.map(() => false),
    radius: on,
  };
};

const outlineRim = (
  v: DuctBetween,
  { loop }: DuctEnd,
  facing: readonly number[],
): Pick<Rim, 'flat' | 'isSide'> => {
  const corners = piecesOf(loop).flatMap((piece) =>
    [piece.from, ...inside(v, piece, facing)].map((at) => ({ at, isSide: piece.bulge === 0 })),
  );
  return { flat: corners.map(({ at }) => at), isSide: corners.map(({ isSide }) => isSide) };
};

/** Points that divide a round. */
const inside = (v: DuctBetween, piece: OutlinePiece, facing: readonly number[]): Vec2[] => {
  if (piece.bulge === 0) return [];
  const { radius, startRad, sweepRad } = arcOf(piece.from, piece.to, piece.bulge);
  const [start, sweep] = [(startRad * 180) / Math.PI, (Math.abs(sweepRad) * 180) / Math.PI];
  const step = stepDeg(v, radius);
  if (piece.bulge < 0) {
    const parts = wholeUp(sweep / step);
    return Array.from({ length: parts - 1 }, (_, k) => pointOn(piece, (k + 1) / parts));
  }
  const least = Math.max(NOISE_DEG, SLIVER * Math.min(step, sweep));
  const kept: number[] = [];
  for (const turn of facing.map((deg) => around(deg - start)).toSorted((a, b) => a - b))
    if (turn - (kept.at(-1) ?? 0) > least && sweep - turn > least) kept.push(turn);
  return kept.map((turn) => pointOn(piece, turn / sweep));
};
