import { arcsAlong, type Stretch } from '../../geometry/arcs-along.ts';
import type { Loop, Vertex } from '../../geometry/loop.ts';
import type { Piece } from '../../geometry/piece.ts';
import { CURVE_ARC_MM } from '../../geometry/tolerance.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import { spanOf } from './cope.ts';

/** What is wrapped round a tube to mark a curve on it. */
export interface WrapAsked {
  readonly diameterMm: number;
  /** Thickness of the paper, which lies round the outside. */
  readonly paperMm: number;
  /** The curve to cut along, from the node. */
  readonly alongMm: (roundDeg: number) => number;
  /** A second line, to which the wall may be ground back. */
  readonly besideMm?: ((roundDeg: number) => number) | undefined;
}

/**
 * A pattern as it lies flat with its printed side up, which is the outside once it is wrapped: x
 * runs round the tube, y along it away from the node. The seam lies at 180 degrees, and 0 degrees in
 * the middle. Millimetres; y is 0 at the node.
 */
export interface Wrap {
  /** From edge to edge: pi (OD + paper). The edges meet when it is printed to scale. */
  readonly lengthMm: number;
  /** The straight edge, a whole number of centimetres from the node. */
  readonly edgeMm: number;
  readonly lowestMm: number;
  readonly highestMm: number;
  /** What is kept: the curve below, the straight edge above. */
  readonly outline: Loop;
  /** The second line, from point to point. */
  readonly beside?: readonly Vec2[];
  /** Where a place round the tube lies; 180 degrees is the left edge, and the right one as well. */
  readonly xOf: (roundDeg: number) => number;
}

/** Paper that is left over the curve, for texts and to wrap by, mm. */
const LEAST_BAND_MM = 30;
const STEP_MM = 10;
/** The seam, and where stretches of the curve end: its corners, where it has any, lie at these. */
const QUARTERS = [-180, -90, 0, 90, 180];

export function wrapOf({ diameterMm, paperMm, alongMm, besideMm }: WrapAsked): Wrap {
  const lengthMm = Math.PI * (diameterMm + paperMm);
  const xOf = (deg: number): number => (deg / 360 + 0.5) * lengthMm;
  const { leastMm: lowestMm, mostMm: highestMm } = spanOf(alongMm);
  const edgeMm = STEP_MM * Math.ceil((highestMm + LEAST_BAND_MM) / STEP_MM);
  const curve = piecesOf(alongMm, xOf);
  const end = curve.at(-1)?.to as Vec2;
  return {
    lengthMm,
    edgeMm,
    lowestMm,
    highestMm,
    outline: [
      ...curve.map(({ from, bulge }): Vertex => ({ x: from[0], y: from[1], bulge })),
      { x: end[0], y: end[1], bulge: 0 },
      { x: lengthMm, y: edgeMm, bulge: 0 },
      { x: 0, y: edgeMm, bulge: 0 },
    ],
    ...(besideMm !== undefined && { beside: pointsOf(besideMm, xOf) }),
    xOf,
  };
}

/** A line that is drawn and not cut has a point every so many degrees. */
const POINT_DEG = 2;

const pointsOf = (alongMm: (roundDeg: number) => number, xOf: (deg: number) => number): Vec2[] =>
  Array.from({ length: 360 / POINT_DEG + 1 }, (_, i) => {
    const deg = i * POINT_DEG - 180;
    return [xOf(deg), alongMm(deg)];
  });

/** How far beside a place the direction of a curve is taken, degrees. */
const NEAR_DEG = 1e-3;

const piecesOf = (alongMm: (roundDeg: number) => number, xOf: (deg: number) => number): Piece[] => {
  const pointAt = (deg: number): Vec2 => [xOf(deg), alongMm(deg)];
  return QUARTERS.slice(1).flatMap((to, i) => {
    const from = QUARTERS[i] as number;
    const at: Stretch['at'] = (deg) => {
      // At a corner between two stretches each has its own direction.
      const [p, q] = [
        pointAt(Math.max(from, deg - NEAR_DEG)),
        pointAt(Math.min(to, deg + NEAR_DEG)),
      ];
      return { at: pointAt(deg), toward: [q[0] - p[0], q[1] - p[1]] };
    };
    return arcsAlong({ from, to, at }, CURVE_ARC_MM);
  });
};
