import { cosDeg, cross3, dot3, length3, sinDeg, sub3 } from '../../src/template.ts';
import type { Vec2, Vec3 } from '../../src/template.ts';

/**
 * A transition from a rectangle to a circle in a plane `lengthMm` above it, on the middle of its
 * sheet. In plan x runs from left to right, y from front to back, and the middle of the rectangle
 * is the origin.
 */
export interface Transition {
  readonly widthMm: number;
  readonly depthMm: number;
  readonly diameterMm: number;
  readonly lengthMm: number;
  /** Centre of the circle in plan. */
  readonly centre: Vec2;
  /** Number of equal parts into which the circle is divided, a multiple of 4. */
  readonly divisions: number;
  /** Whether the chords add up to the circumference of the circle, or join points on it. */
  readonly rim: RimEdge;
}

export type RimEdge = 'circumference' | 'chords';

/** Kind of a facet's edge: an end of the duct, or the line to the facet before or after it. */
export type FacetEdge = 'base' | 'rim' | 'entry' | 'exit';

/**
 * A flat facet of a duct, here a triangle. Its points run counter-clockwise as seen from inside the
 * duct; edge i runs from point i to the next. Facets follow each other counter-clockwise in plan,
 * each `exit` being the next one's `entry`. It is convex, and its first three points are no line.
 */
export interface Facet {
  readonly id: string;
  readonly points: readonly Vec3[];
  readonly edges: readonly FacetEdge[];
}

export const SIDES = ['front', 'right', 'back', 'left'] as const;
export type Side = (typeof SIDES)[number];

const CORNERS = ['front-right', 'back-right', 'back-left', 'front-left'] as const;

export interface Seams {
  /** Number of seams: one, or two on opposite sides. */
  readonly blanks: 'whole' | 'halves';
  /**
   * Place of the seams: up the middle of a side, or up the edge of its flat triangle from its
   * left-hand corner, seen from outside.
   */
  readonly at: 'middle' | 'corner';
  readonly side: Side;
}

/**
 * Radius of the circle on which the division points lie. n chords of a circle are together shorter
 * than it, by 1.14 percent at 12 and 0.29 at 24; n chords of pi D / n each stand on a circle of
 * radius pi D / (2 n sin(pi / n)).
 */
export const rimRadiusMm = ({ diameterMm, divisions, rim }: Transition): number =>
  rim === 'chords'
    ? diameterMm / 2
    : (Math.PI * diameterMm) / (2 * divisions * Math.sin(Math.PI / divisions));

/** The i-th division point; number 0 is the foremost, and a quarter further is the rightmost. */
export const rimPoint = (t: Transition, i: number): Vec3 => {
  const turn = (360 * i) / t.divisions - 90;
  const radius = rimRadiusMm(t);
  return [t.centre[0] + radius * cosDeg(turn), t.centre[1] + radius * sinDeg(turn), t.lengthMm];
};

/** The corner of the rectangle after side `side` (0 front), counter-clockwise in plan. */
export const rectangleCorner = ({ widthMm, depthMm }: Transition, side: number): Vec3 => {
  const at = ((side % 4) + 4) % 4;
  return [(at < 2 ? widthMm : -widthMm) / 2, (at === 1 || at === 2 ? depthMm : -depthMm) / 2, 0];
};

/**
 * The transition as chains of facets, one chain a blank. It is the hull of the two ends: a flat
 * triangle on each side of the rectangle, with its tip where the circle runs along that side, and
 * between two of them an oblique cone from the corner to the quarter of the circle that faces it,
 * here as facets (triangulation; Coey, Pattern Development: Sheet Metal Level 1, ch. 24).
 */
export const facetChains = (t: Transition, seams: Seams): Facet[][] => {
  const first = SIDES.indexOf(seams.side);
  const groups = [0, 1, 2, 3].map((i) => {
    const side = (first + i) % 4;
    return { flat: flatFacet(t, side), halves: halfFacets(t, side), fan: fanFacets(t, side) };
  });
  const run = (from: number, count: number): Facet[] =>
    Array.from(
      { length: count },
      (_, i) => groups[(from + i) % 4] as (typeof groups)[number],
    ).flatMap(({ flat, halves, fan }, i) =>
      i === 0 && seams.at === 'middle' ? [halves[1], ...fan] : [flat, ...fan],
    );
  const blank = (from: number, count: number): Facet[] => {
    const last = groups[(from + count) % 4] as (typeof groups)[number];
    return seams.at === 'middle' ? [...run(from, count), last.halves[0]] : run(from, count);
  };
  return seams.blanks === 'whole' ? [blank(0, 4)] : [blank(0, 2), blank(2, 2)];
};

const FLAT_EDGES = ['base', 'entry', 'exit'] as const;

const flatFacet = (t: Transition, side: number): Facet => ({
  id: SIDES[side] as Side,
  points: [
    rectangleCorner(t, side),
    rectangleCorner(t, side - 1),
    rimPoint(t, (side * t.divisions) / 4),
  ],
  edges: FLAT_EDGES,
});

/**
 * The flat triangle of a side, cut from the middle of the side to its tip: the part before the cut,
 * and that after it.
 */
const halfFacets = (t: Transition, side: number): readonly [Facet, Facet] => {
  const { id, points } = flatFacet(t, side);
  const [end, start, tip] = points as [Vec3, Vec3, Vec3];
  const middle: Vec3 = [(start[0] + end[0]) / 2, (start[1] + end[1]) / 2, 0];
  return [
    { id: `${id} 1`, points: [middle, start, tip], edges: FLAT_EDGES },
    { id: `${id} 2`, points: [end, middle, tip], edges: FLAT_EDGES },
  ];
};

const fanFacets = (t: Transition, side: number): Facet[] => {
  const steps = t.divisions / 4;
  return Array.from({ length: steps }, (_, i) => ({
    id: `${CORNERS[side] as string} ${i + 1}`,
    points: [
      rectangleCorner(t, side),
      rimPoint(t, side * steps + i),
      rimPoint(t, side * steps + i + 1),
    ],
    edges: ['entry', 'rim', 'exit'],
  }));
};

/** Length of a facet's edge of one kind, mm. */
export const edgeLengthMm = ({ points, edges }: Facet, edge: FacetEdge): number => {
  const i = edges.indexOf(edge);
  return length3(sub3(points[(i + 1) % points.length] as Vec3, points[i] as Vec3));
};

/**
 * Angle by which a facet is turned against the one before it, degrees, from their normals: positive
 * towards the inside of the duct.
 */
export const foldAngleDeg = (before: Facet, after: Facet): number => {
  const [n, m] = [normalOf(before), normalOf(after)];
  const size = Math.atan2(length3(cross3(n, m)), dot3(n, m));
  const [on] = before.points as [Vec3];
  const tip = after.points.reduce((sum, p) => sum + dot3(n, sub3(p, on)), 0);
  return ((tip < 0 ? -size : size) * 180) / Math.PI;
};

/** Normal that points towards the inside of the duct. */
const normalOf = ({ points }: Facet): Vec3 => {
  const [a, b, c] = points as [Vec3, Vec3, Vec3];
  return cross3(sub3(b, a), sub3(c, a));
};
