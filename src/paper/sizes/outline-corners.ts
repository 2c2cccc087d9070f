import { arcOf } from '../../geometry/arc.ts';
import type { Loop, Vertex } from '../../geometry/loop.ts';
import { endDirection, type Piece, pieceOf, startDirection } from '../../geometry/piece.ts';
import { HALF_CIRCLE_BULGE, SAME_LENGTH_MM } from '../../geometry/tolerance.ts';
import { along, cross, distance, dot, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { Origin } from '../../model/flat.ts';

/** A corner of an outline, as it is marked out. */
export interface OutlineCorner {
  /** `c1`: counter-clockwise round the blank. */
  readonly key: string;
  /** Where its edges meet; of a rounded corner, where they would meet without the rounding. */
  readonly at: Vec2;
  /** Radius that joins its two edges, mm; nothing of a sharp corner. */
  readonly roundMm?: number;
  /** How the outline goes on to the next corner, where that is no straight edge. */
  readonly arc?: CornerArc;
  /** It belongs to a relief at the end of a fold. */
  readonly isRelief: boolean;
}

/** An arc from one corner to the next. */
export interface CornerArc {
  readonly radiusMm: number;
  /** `out`: the metal bulges; `in`: it is hollowed out. */
  readonly side: 'out' | 'in';
  /** More than half of the circle. */
  readonly isLong: boolean;
  /** Its centre, where its ends and its radius do not tell it well: of much of a circle. */
  readonly about?: Vec2;
}

/** A vertex of an outline, or of a cut-out, which has no features of the part behind it. */
type MarkedVertex = Vertex & { readonly origin?: Origin };

/** A point no farther off the line between its neighbours than this, mm, is no corner. */
const STRAIGHT_MM = 0.005;
/** Edges whose directions differ by less than this sine run into an arc without a kink. */
const TANGENT_SINE = 2e-3;
/** Edges of a rounding that turns by more than this, degrees, meet too far off to be marked out. */
const MOST_TURN_DEG = 150;

/**
 * The corners by which an outline is marked out: points on a straight run between others are left
 * out, and an arc that runs into a straight edge at both ends is the rounding of one corner. They
 * begin with the one that is nearest to a point; their names begin with `key`.
 */
export const outlineCorners = (
  outline: Loop<MarkedVertex>,
  near: Vec2,
  key = 'c',
): OutlineCorner[] => {
  const pieces = joinedPieces(outline);
  const n = pieces.length;
  const at = (i: number): Marked => pieces[((i % n) + n) % n] as Marked;
  const rounded = pieces.map((_, i) => roundingAt(at(i - 1).piece, at(i).piece, at(i + 1).piece));
  const corners = pieces.flatMap(({ piece, isRelief }, i): Omit<OutlineCorner, 'key'>[] => {
    const own = rounded[i];
    const marks = { isRelief: isRelief || at(i - 1).isRelief };
    if (own !== undefined)
      return [{ ...own, isRelief: isRelief || (at(i - 1).isRelief && at(i + 1).isRelief) }];
    // Where a rounding ends there is no corner.
    if (rounded[(i - 1 + n) % n] !== undefined) return [];
    return [{ at: piece.from, ...marks, ...(piece.bulge !== 0 && { arc: arcTold(piece) }) }];
  });
  const first = corners.reduce(
    (best, c, i) =>
      distance(c.at, near) < distance((corners[best] as OutlineCorner).at, near) - SAME_LENGTH_MM
        ? i
        : best,
    0,
  );
  return [...corners.slice(first), ...corners.slice(0, first)].map((corner, i) => ({
    key: `${key}${i + 1}`,
    ...corner,
  }));
};

interface Marked {
  readonly piece: Piece;
  readonly isRelief: boolean;
}

/** The pieces of an outline, runs of straight ones on one line as one piece. */
const joinedPieces = (outline: Loop<MarkedVertex>): Marked[] => {
  const offOf = (from: number, i: number): number => {
    const [before, after] = [pieceOf(outline, i - 1), pieceOf(outline, i)];
    return before.bulge === 0 && after.bulge === 0
      ? offLine(pieceOf(outline, from).from, after.to, before.to)
      : Infinity;
  };
  const n = outline.length;
  const offs = outline.map((_, i) => offOf(i - 1, i));
  // It begins at the sharpest corner, since what is measured from must be one itself.
  const start = offs.indexOf(Math.max(...offs));
  const kept = [start];
  for (let i = start + 1; i < start + n; i++)
    // From the corner before, not from the vertex before: small steps would add up.
    if (offOf(kept.at(-1) as number, i) >= STRAIGHT_MM) kept.push(i);
  return kept.map((i, k): Marked => {
    const { bulge, origin } = outline[i % n] as MarkedVertex;
    const { from } = pieceOf(outline, i);
    const { from: to } = pieceOf(outline, kept[(k + 1) % kept.length] as number);
    return { piece: { from, to, bulge }, isRelief: origin?.kind === 'relief' };
  });
};

const offLine = (from: Vec2, to: Vec2, p: Vec2): number => {
  const way = unit(sub(to, from));
  // A spike that turns back on itself is a corner.
  return dot(sub(p, from), way) < 0 || dot(sub(to, p), way) < 0
    ? Infinity
    : Math.abs(cross(way, sub(p, from)));
};

/** Of an arc that turns by more than this, degrees, its centre is told: half a circle hangs on every tenth. */
const MOST_BY_ENDS_DEG = 100;

const arcTold = ({ from, to, bulge }: Piece): CornerArc => {
  const { radius, centre, sweepRad } = arcOf(from, to, bulge);
  return {
    radiusMm: radius,
    side: bulge > 0 ? 'out' : 'in',
    isLong: Math.abs(bulge) > 1 + HALF_CIRCLE_BULGE,
    ...(Math.abs(sweepRad) > (MOST_BY_ENDS_DEG * Math.PI) / 180 && { about: centre }),
  };
};

/** The corner that an arc between two straight edges rounds. */
const roundingAt = (
  before: Piece,
  arc: Piece,
  after: Piece,
): { readonly at: Vec2; readonly roundMm: number } | undefined => {
  if (arc.bulge === 0 || before.bulge !== 0 || after.bulge !== 0) return undefined;
  const { radius, sweepRad } = arcOf(arc.from, arc.to, arc.bulge);
  if (Math.abs(sweepRad) > (MOST_TURN_DEG * Math.PI) / 180) return undefined;
  const [into, out] = [endDirection(before), startDirection(after)];
  const isTangent =
    Math.abs(cross(into, startDirection(arc))) < TANGENT_SINE &&
    Math.abs(cross(endDirection(arc), out)) < TANGENT_SINE;
  if (!isTangent) return undefined;
  return { at: along(arc.from, into, radius * Math.tan(Math.abs(sweepRad) / 2)), roundMm: radius };
};
