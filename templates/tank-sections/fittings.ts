import { isInside, refuse } from '../../src/template.ts';
import type { Cutout, Finding, HoleSpec, Vec2 } from '../../src/template.ts';
import { placeHoles, pointGap, reachOf } from '../../src/template.ts';
import { metWall, plumbFrame } from '../tank-plan/fittings.ts';
import { inPlane, type PlacedPanel } from '../tank-plan/panels.ts';
import type { Plane } from '../tank-plan/solid.ts';
import { meet } from '../tank-plan/solid.ts';
import type { TankSections } from './inputs.ts';
import type { WallFacet } from './surface.ts';
import { type Strip, wallPanel } from './wall.ts';

/** Inputs of the holes in the top, in the order in which they are cut, and of those in the floor. */
export const TOP_HOLES = ['filler', 'breather', 'return', 'pickup', 'holesTop'] as const;
const INPUTS = [...TOP_HOLES, 'drain'] as const;

type HoleInput = (typeof INPUTS)[number];

/**
 * Share of a wall's normal by which it looks up or down, where it is top or floor, flatter than 60
 * degrees: holes go plumb through it, and baffles are cut at its corners.
 */
export const LEAST_UP = 0.5;

interface Face {
  readonly strip: Strip;
  readonly facet: number;
  readonly plane: Plane;
  readonly placed: PlacedPanel;
}

/** The walls that look up, the top of the tank, or those that look down. */
const facesOf = (strips: readonly Strip[], which: 'top' | 'floor'): Face[] =>
  strips.flatMap((strip) =>
    strip.chain.flatMap((facet): Face[] => {
      const { plane } = strip.bay.facets[facet] as WallFacet;
      const up = which === 'top' ? -plane.normal[2] : plane.normal[2];
      return up < LEAST_UP ? [] : [{ strip, facet, plane, placed: wallPanel(strip, facet) }];
    }),
  );

/** How far a place of the plan lies inside the edges of a face, mm; below 0 beside it. */
const insideMm = ({ plane, placed }: Face, { acrossMm, alongMm }: HoleSpec): number => {
  const at: Vec2 = inPlane(placed.pose, meet(plane, [acrossMm, alongMm, 0], [0, 0, 1]));
  const gap = pointGap(at, placed.outline);
  return isInside(placed.outline, at) ? gap : -gap;
};

/** The face that a hole lies in: the outermost over or under its place, or the one nearest to it. */
const faceFor = (
  faces: readonly Face[],
  hole: HoleSpec,
  which: 'top' | 'floor',
): Face | undefined => {
  const height = ({ plane }: Face): number =>
    (which === 'top' ? 1 : -1) * meet(plane, [hole.acrossMm, hole.alongMm, 0], [0, 0, 1])[2];
  const over = faces.filter((face) => insideMm(face, hole) > 0);
  return over.length > 0
    ? over.reduce((a, b) => (height(b) > height(a) ? b : a))
    : faces.reduce<Face | undefined>(
        (best, face) =>
          best === undefined || insideMm(face, hole) > insideMm(best, hole) ? face : best,
        undefined,
      );
};

/** The holes of all walls, and those that lie beside their face. */
export interface Fittings {
  readonly cutouts: (strip: Strip, facet: number) => readonly Cutout[];
  readonly findings: readonly Finding[];
}

export const fittingsOf = (v: TankSections, strips: readonly Strip[]): Fittings => {
  const faces = { top: facesOf(strips, 'top'), floor: facesOf(strips, 'floor') };
  const placed = INPUTS.flatMap((input) => {
    const which = input === 'drain' ? ('floor' as const) : ('top' as const);
    return v[input].map((hole) => ({
      input,
      hole,
      which,
      face: faceFor(faces[which], hole, which),
    }));
  });
  return {
    cutouts: (strip, facet) =>
      placed.flatMap(({ input, hole, face }) =>
        face === undefined || face.strip !== strip || face.facet !== facet
          ? []
          : placeHoles(input, [hole], plumbFrame(v, face.plane, face.placed)),
      ),
    findings: placed.flatMap(({ input, hole, which, face }) =>
      face === undefined
        ? [noFace(input, which)]
        : metWall(
            input,
            hole,
            plumbFrame(v, face.plane, face.placed),
            face.placed.outline,
            face.placed.name,
            'give its station, and its place across as the sections have it',
          ),
    ),
  };
};

const noFace = (input: HoleInput, which: 'top' | 'floor'): Finding =>
  refuse(
    'no-face-for-hole',
    [input, 'sections'],
    `${input} is a hole in the ${which}, and no wall of sections lies flatter than 60 degrees there`,
    [],
    'leave it out, and cut it where it is wanted',
  );

/** How far a hole reaches from its middle, mm. */
export const holeReachMm = (v: TankSections, hole: HoleSpec): number =>
  reachOf(hole.shape, v.thicknessMm);
