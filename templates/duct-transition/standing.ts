import { along3, cross3, length3, scale3, sub, sub3, unit, unit3 } from '../../src/template.ts';
import type { Standing, Vec2, Vec3 } from '../../src/template.ts';
import type { LaidFacet } from './develop.ts';
import type { DuctTransition } from './inputs.ts';
import { type Facet, rimPoint, type Transition } from './surface.ts';

/**
 * The duct stands as its surface is given: x from left to right, y from front to back, z up from
 * the rectangle. Facets lie on the middle of the sheet, their upper faces inside.
 */
export const facetStanding = ({ facet, outline }: LaidFacet, thicknessMm: number): Standing => {
  const i = facet.edges.indexOf('entry');
  const [a, b, c] = [0, 1, 2].map((k) => facet.points[(i + k) % facet.points.length]) as [
    Vec3,
    Vec3,
    Vec3,
  ];
  const [from, to] = outline.map(({ x, y }): Vec2 => [x, y]) as [Vec2, Vec2];
  const run = unit3(sub3(b, a));
  const inward = unit3(cross3(sub3(b, a), sub3(c, a)));
  const beside = cross3(inward, run);
  const [u, v] = unit(sub(to, from));
  const x = along3(scale3(run, u), beside, -v);
  const y = along3(scale3(run, v), beside, u);
  const corner = along3(along3(a, x, -from[0]), y, -from[1]);
  return { poses: [{ o: along3(corner, inward, -thicknessMm / 2), x, y, z: inward }] };
};

/**
 * The collar stands on the round end, rolled over as many flats as that has chords, with its seam
 * at the foremost point, or at the one behind where the duct has its own in front. Facets that lean
 * reach above the line that they end at, the most where they lean most; on those the collar stands.
 */
export const collarStanding = (
  v: DuctTransition,
  surface: Transition,
  facets: readonly Facet[],
): Standing => {
  const first = v.seamSide === 'front' ? v.divisions / 2 : 0;
  // Its own length goes round once, however short the chords of the end come out.
  const round = { ...surface, rim: 'circumference' } as const;
  const [from, to] = [rimPoint(round, first), rimPoint(round, first - 1)];
  const up: Vec3 = [0, 0, 1];
  const x = unit3(sub3(to, from));
  const inward = cross3(x, up);
  const rise = Math.max(0, ...facets.map((facet) => riseMm(facet, v.thicknessMm)));
  const start = along3(along3(from, x, v.cornerGapMm / 2), inward, -v.thicknessMm / 2);
  return {
    poses: [{ o: along3(start, up, rise), x, y: up, z: inward }],
    turn: 2,
    rolledOver: v.divisions,
  };
};

/** How far the corner of a facet's edge, square to its sheet, stands above the round end. */
const riseMm = ({ points, edges }: Facet, thicknessMm: number): number => {
  const [a, b, c] = points as [Vec3, Vec3, Vec3];
  if (!edges.includes('rim')) return 0;
  const normal = cross3(sub3(b, a), sub3(c, a));
  return (thicknessMm / 2) * Math.abs(normal[2] / length3(normal));
};
