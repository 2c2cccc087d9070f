import type { Pose } from '../geometry/pose.ts';
import { NEARLY_PARALLEL_SINE } from '../geometry/tolerance.ts';
import { along, cross, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import type { Fold } from '../model/part.ts';

/**
 * The open side of a folded piece: the plane through a free edge square to its panel, and the panels
 * that end in that plane, in order round the opening.
 */
export interface Opening {
  /** Right along the named edge, up into the opening, and out of the piece; at the named edge. */
  readonly frame: Pose;
  /** Counter-clockwise seen from outside, the panel that was named first. */
  readonly sides: readonly Side[];
  /** How each side goes on to the next; the last one to the first. */
  readonly joints: readonly Joint[];
}

/** A panel that ends in the plane. */
export interface Side {
  readonly panel: string;
  /** From its upper or lower face: inwards, in the plane and across it, a unit vector of the frame. */
  readonly inward: Vec2;
  readonly lean: number;
  /** Where its faces on the side of the opening and away from it meet the plane. */
  readonly inside: Line;
  readonly outside: Line;
}

/** A line in the plane that has the opening on its left, and where the metal begins and ends. */
export interface Line {
  readonly from: Vec2;
  readonly to: Vec2;
}

export type Joint =
  /** A bend; how far its axis is from square to the plane, as the cosine. */
  | { readonly kind: 'bend'; readonly fold: Fold; readonly square: number }
  /** Two panels that touch there without a fold. */
  | { readonly kind: 'corner' }
  | { readonly kind: 'open' };

/** A side, and which edge of its panel it is. */
export interface Candidate extends Side {
  readonly edge: number;
}

/** Where two lines cross; nothing where they run side by side. */
export const meeting = (one: Line, other: Line): Vec2 | undefined => {
  const [d, e] = [unit(sub(one.to, one.from)), unit(sub(other.to, other.from))];
  const sine = cross(d, e);
  return Math.abs(sine) < NEARLY_PARALLEL_SINE
    ? undefined
    : along(one.from, d, cross(sub(other.from, one.from), e) / sine);
};

/** The direction of a side with the opening on its left, and its place by how far it is set in. */
export const lineOf = (
  side: Side,
  face: 'inside' | 'outside',
  inMm: number,
  depthMm: number,
): Line => {
  const { from, to } = side[face];
  // Square to a leaning face a distance is longer in the plane; behind the plane the face lies
  // further in, or further out.
  const by = inMm * Math.hypot(1, side.lean) + depthMm * side.lean;
  return { from: along(from, side.inward, by), to: along(to, side.inward, by) };
};
