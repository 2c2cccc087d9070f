import { cross3, length3, scale3, sub3, unit3 } from '../../src/template.ts';
import type { Vec2, Vec3 } from '../../src/template.ts';
import { edgeLengthMm, type Facet, type FacetEdge } from '../duct-transition/surface.ts';
import type { DuctBetween } from './inputs.ts';

/** How many blanks, or one wall by itself. */
export type Split = Exclude<DuctBetween['blanks'], 'auto'>;

export const COUNTED: readonly Split[] = ['one', 'two', 'three', 'four'];

/** A place where the ring of facets is cut open: up the middle of a facet, or along its entry. */
interface Cut {
  readonly facet: number;
  readonly isMiddle: boolean;
}

/** The facets of each blank in their order; the first begins at the first seam. */
export const chainsOf = (
  ring: readonly Facet[],
  split: Split,
  { seamSide, seamPlace }: Pick<DuctBetween, 'seamSide' | 'seamPlace'>,
): Facet[][] => {
  const first = facingMost(ring, WAYS[seamSide]);
  const cuts =
    split === 'apart'
      ? [first, (first + 1) % ring.length].map((facet): Cut => ({ facet, isMiddle: false }))
      : spread(ring, first, COUNTED.indexOf(split) + 1, seamPlace === 'flat');
  let named = 0;
  return cuts.map((cut, i) =>
    between(ring, cut, cuts[(i + 1) % cuts.length] as Cut).map((facet) => ({
      ...facet,
      id: `wall ${(named += 1)}`,
    })),
  );
};

const WAYS: Readonly<Record<DuctBetween['seamSide'], Vec2>> = {
  right: [1, 0],
  top: [0, 1],
  left: [-1, 0],
  bottom: [0, -1],
};

const doubled = ({ points }: Facet): Vec3 => {
  const [a] = points as [Vec3];
  return points.slice(2).reduce<Vec3>(
    (sum, p, i) => {
      const part = cross3(sub3(points[i + 1] as Vec3, a), sub3(p, a));
      return [sum[0] + part[0], sum[1] + part[1], sum[2] + part[2]];
    },
    [0, 0, 0],
  );
};

export const areaMm2 = (facet: Facet): number => length3(doubled(facet)) / 2;

/** Way out of the duct. */
export const outwardOf = (facet: Facet): Vec3 => unit3(scale3(doubled(facet), -1));

/** The facet that most of a side is: the large one that faces it most squarely. */
const facingMost = (ring: readonly Facet[], [x, y]: Vec2): number => {
  const scores = ring.map((facet) => {
    const n = outwardOf(facet);
    return Math.max(0, n[0] * x + n[1] * y) ** 2 * areaMm2(facet);
  });
  // Of equal ones the first: figures that differ by noise may not choose.
  const most = Math.max(...scores) * (1 - SAME_SCORE);
  return scores.findIndex((score) => score >= most);
};

/** Walls whose scores differ by this share, or places by so many mm, are as good as each other. */
const SAME_SCORE = 1e-6;

const widthMm = (facet: Facet): number => (allMm(facet, 'base') + allMm(facet, 'rim')) / 2;

/** Length of all edges of a facet of one kind. */
export const allMm = ({ points, edges }: Facet, kind: FacetEdge): number =>
  edges.reduce(
    (sum, edge, i) =>
      edge === kind
        ? sum + length3(sub3(points[(i + 1) % points.length] as Vec3, points[i] as Vec3))
        : sum,
    0,
  );

/** Seams that share the way round evenly, each up the widest facet there, or along a fold. */
const spread = (ring: readonly Facet[], first: number, count: number, isMiddle: boolean): Cut[] => {
  const turned = ring.map((_, i) => (first + i) % ring.length);
  const widths = turned.map((i) => widthMm(ring[i] as Facet));
  const whole = widths.reduce((a, b) => a + b, 0);
  let done = isMiddle ? -(widths[0] as number) / 2 : 0;
  const places = widths.map((width) => {
    const place = done + (isMiddle ? width / 2 : 0);
    done += width;
    return place;
  });
  return Array.from({ length: count }, (_, k): Cut => {
    const target = (whole * k) / count;
    // A seam may stand a quarter of a blank's share from its even place, for a wider flat.
    const near = places.flatMap((place, i) =>
      i >= k &&
      i < places.length - (count - 1 - k) &&
      Math.abs(place - target) <= whole / (4 * count)
        ? [i]
        : [],
    );
    const worth = (i: number): number =>
      (isMiddle ? (widths[i] as number) : 0) - Math.abs((places[i] as number) - target) / 4;
    const all = near.length > 0 ? near : [Math.min(k, places.length - 1)];
    const chosen =
      k === 0 ? 0 : all.reduce((best, i) => (worth(i) > worth(best) + SAME_SCORE ? i : best));
    return { facet: turned[chosen] as number, isMiddle };
  });
};

/** The facets from one cut on to another, or all the way round. */
const between = (ring: readonly Facet[], from: Cut, to: Cut): Facet[] => {
  const n = ring.length;
  const steps = (to.facet - from.facet + n) % n || n;
  const whole = Array.from({ length: steps }, (_, i) => ring[(from.facet + i) % n] as Facet);
  const start = from.isMiddle ? [halvesOf(whole[0] as Facet)[1], ...whole.slice(1)] : whole;
  return to.isMiddle ? [...start, halvesOf(ring[to.facet] as Facet)[0]] : start;
};

/** A facet cut from the middle of the one rim to that of the other: before the cut, and after it. */
const halvesOf = (facet: Facet): readonly [Facet, Facet] => {
  const { far, near } = endsOf(facet);
  const [a, b] = [split(near), split(far)];
  return [
    { ...facet, ...facetFrom(a[0], b[0]) },
    { ...facet, ...facetFrom(a[1], b[1]) },
  ];
};

/** The corners of a facet on either rim, in their order round the duct. */
const endsOf = ({ points, edges }: Facet): { readonly near: Vec3[]; readonly far: Vec3[] } => {
  const exit = edges.indexOf('exit');
  return {
    far: points.slice(1, exit + 1),
    near: [points[0] as Vec3, ...points.slice(exit + 1).toReversed()],
  };
};

const split = (corners: readonly Vec3[]): readonly [readonly Vec3[], readonly Vec3[]] => {
  if (corners.length === 1) return [corners, corners];
  const lengths = corners.slice(1).map((p, i) => length3(sub3(p, corners[i] as Vec3)));
  const half = lengths.reduce((a, b) => a + b, 0) / 2;
  let [i, done] = [0, 0];
  while (done + (lengths[i] as number) < half) done += lengths[i++] as number;
  const [p, q] = [corners[i] as Vec3, corners[i + 1] as Vec3];
  const share = (half - done) / (lengths[i] as number);
  const middle = p.map((c, k) => c + share * ((q[k] as number) - c)) as unknown as Vec3;
  return [
    [...corners.slice(0, i + 1), middle],
    [middle, ...corners.slice(i + 1)],
  ];
};

/** Points and edges of the facet between corners of either rim, as seen from inside the duct. */
export const facetFrom = (
  near: readonly Vec3[],
  far: readonly Vec3[],
): Pick<Facet, 'points' | 'edges'> => ({
  points: [...near.slice(0, 1), ...far, ...near.slice(1).toReversed()],
  edges: [
    'entry',
    ...far.slice(1).map((): FacetEdge => 'rim'),
    'exit',
    ...near.slice(1).map((): FacetEdge => 'base'),
  ],
});

export const seamMm = (chain: readonly Facet[]): number => edgeLengthMm(chain[0] as Facet, 'entry');
