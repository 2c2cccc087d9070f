import {
  atMost,
  distance,
  dot,
  figure,
  isOver,
  length3,
  note,
  orLess,
  refuse,
  sub,
  sub3,
} from '../../src/template.ts';
import type { Finding, Vec2 } from '../../src/template.ts';
import { firstCrossing } from '../duct-between/crossing.ts';
import type { Facet } from '../duct-transition/surface.ts';
import { bendReachMm } from '../tank-plan/panels.ts';
import type { TankSections } from './inputs.ts';
import { HALVINGS } from './limits.ts';
import { after, EVEN_MM } from './sections.ts';
import {
  type Bay,
  diagonalsOf,
  onRuling,
  type SectionAt,
  turnAtDeg,
  type WallFacet,
  wallFacets,
} from './surface.ts';
import { jointAt, type Strip, turnBefore } from './wall.ts';

/** What a crease that is made by eye turns at most, degrees (common practice). */
export const MOST_CREASE_DEG = 30;

/** Walls lean so far along the stations at most, degrees; a limit of this program. */
const STEEPEST_DEG = 60;

/** Findings on the walls between the sections as they were measured. */
export const impossibleWalls = (
  v: TankSections,
  sections: readonly SectionAt[],
  bays: readonly Bay[],
): Finding[] => {
  const turned = bays.flatMap((_, k) =>
    turnedOver(sections[k] as SectionAt, sections[k + 1] as SectionAt),
  );
  if (turned.length > 0) return turned;
  const steep = bays.flatMap((bay) => bay.facets.flatMap((facet) => tooSteep(bay, facet)));
  if (steep.length > 0) return steep.slice(0, 1);
  const warped = bays.flatMap((_, k) =>
    tooWarped(v, sections[k] as SectionAt, sections[k + 1] as SectionAt),
  );
  if (warped.length > 0) return warped;
  return bays.flatMap((bay) => {
    const at = firstCrossing(bay.facets.map(asFacet));
    return at === undefined
      ? []
      : [
          refuse(
            'walls-cross',
            ['sections'],
            `walls of sections between stations ${figure(bay.fromMm)} and ${figure(bay.toMm)} run through each other, near station ${figure(at[0], 0)} at ${figure(at[1], 0)},${figure(at[2], 0)}`,
            [],
            'begin both sections at the same corner, or give a section between them',
          ),
        ];
  });
};

/** Sides that run against each other at two sections: the wall between them would cross itself. */
const turnedOver = (near: SectionAt, far: SectionAt): Finding[] => {
  const side = near.corners.findIndex((p, i) => {
    const [to, from, end] = [after(near.corners, i), far.corners[i] as Vec2, after(far.corners, i)];
    return dot(sub(to, p), sub(end, from)) <= 0;
  });
  return side < 0
    ? []
    : [
        refuse(
          'walls-cross',
          ['sections'],
          `side ${side + 1} of sections runs at station ${figure(far.atMm)} square to how it does at ${figure(near.atMm)}, or against that`,
          [],
          'begin both sections at the same corner of the space',
        ),
      ];
};

const asFacet = ({ side, entry, exit }: WallFacet): Facet => ({
  id: String(side),
  points: [...new Set([entry.near, entry.far, exit.far, exit.near])],
  edges: [],
});

const tooSteep = ({ fromMm, toMm }: Bay, { side, plane }: WallFacet): Finding[] => {
  const deg = (Math.asin(Math.abs(plane.normal[0])) * 180) / Math.PI;
  if (!isOver(deg, STEEPEST_DEG)) return [];
  const run =
    ((toMm - fromMm) * Math.tan((deg * Math.PI) / 180)) / Math.tan((STEEPEST_DEG * Math.PI) / 180);
  return [
    refuse(
      'wall-leans-along',
      ['sections'],
      `wall ${side + 1} of sections between stations ${figure(fromMm)} and ${figure(toMm)} leans by ${figure(deg)} degrees along them, and ${STEEPEST_DEG} is the most`,
      [],
      `give stations ${figure(run + 0.005)} or more apart`,
    ),
  ];
};

/** Walls whose crease would be more than one that is made by eye, with the warp that passes. */
const tooWarped = (v: TankSections, near: SectionAt, far: SectionAt): Finding[] =>
  near.corners.flatMap((_, side) => {
    const creaseDeg = (of: SectionAt): number => {
      const diagonal = diagonalsOf(near, of, v.crease)[side];
      const [one, other] = wallFacets(near, of, side, diagonal) as [WallFacet, WallFacet?];
      return other === undefined ? 0 : Math.abs(turnAtDeg(one, other));
    };
    const deg = creaseDeg(far);
    if (!isOver(deg, MOST_CREASE_DEG)) return [];
    const next = (side + 1) % near.corners.length;
    let [low, high] = [0, 1];
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (low + high) / 2;
      if (creaseDeg(turnedTo(near, far, side, middle)) > MOST_CREASE_DEG) high = middle;
      else low = middle;
    }
    const [x, y] = turnedTo(near, far, side, low).corners[next] as Vec2;
    return [
      refuse(
        'wall-too-warped',
        ['sections'],
        `wall ${side + 1} of sections between stations ${figure(near.atMm)} and ${figure(far.atMm)} is warped so far that its crease turns ${figure(deg)} degrees, and ${MOST_CREASE_DEG} is the most that is made by eye`,
        [],
        `measure a section between them, or give corner ${next + 1} at station ${figure(far.atMm)} ${figure(x)},${figure(y)} or nearer to how it runs at the other`,
      ),
    ];
  });

/** A wall that its bends use up, with the radius that leaves it flat; the one that asks for the least. */
export const wallsAllBend = (v: TankSections, strips: readonly Strip[]): Finding[] => {
  const short = strips.flatMap((strip) => strip.chain.flatMap((i) => allBend(v, strip, i)));
  const least = Math.min(...short.map(({ mostMm }) => mostMm));
  return short
    .filter(({ mostMm }) => mostMm === least)
    .slice(0, 1)
    .map(({ side, longMm, usedMm, mostMm }) =>
      refuse(
        'side-all-bend',
        ['sections', 'radius'],
        `wall ${side + 1} of sections is ${figure(longMm)} long inside, and its bends of radius ${figure(v.insideRadiusMm)} take ${figure(usedMm)} of it`,
        mostMm > 0 ? [orLess('radius', mostMm)] : [],
        'give blanks plates, or a longer side',
      ),
    );
};

interface ShortWall {
  readonly side: number;
  readonly longMm: number;
  readonly usedMm: number;
  /** The radius at which it is just long enough. */
  readonly mostMm: number;
}

const allBend = (v: TankSections, strip: Strip, i: number): ShortWall[] => {
  const { bay, chain, sheet } = strip;
  const { side, entry, exit } = bay.facets[i] as WallFacet;
  const next = (i + 1) % bay.facets.length;
  const usedBy = (insideRadiusMm: number): number => {
    const reach = (at: number, isSeam: boolean): number =>
      isSeam || jointAt(strip, at) !== 'fold'
        ? sheet.gapMm
        : bendReachMm(turnBefore(bay, at), { ...sheet, insideRadiusMm });
    return reach(i, false) + reach(next, chain.at(-1) === i);
  };
  const longMm = Math.min(
    ...[strip.nearMm, strip.farMm].map((at) =>
      length3(sub3(onRuling(entry, at), onRuling(exit, at))),
    ),
  );
  const room = longMm - v.thicknessMm;
  const [usedMm, fixedMm] = [usedBy(v.insideRadiusMm), usedBy(0)];
  // The tip of a triangle is none of its width.
  if (usedMm <= room || entry.near === exit.near || entry.far === exit.far) return [];
  // Bends take in proportion to their radius.
  const mostMm = ((room - fixedMm) * v.insideRadiusMm) / (usedMm - fixedMm);
  return [{ side, longMm, usedMm, mostMm: Number.isFinite(mostMm) ? mostMm : 0 }];
};

/** What the maker should know of the walls of a tank that can be made. */
export const wallNotes = (bays: readonly Bay[], movedMm: number): Finding[] => {
  const creased = bays.flatMap(({ facets, fromMm }) =>
    facets.flatMap((facet, i) => {
      const other = facets[i + 1];
      return other?.side === facet.side
        ? [
            `wall ${facet.side + 1} from station ${figure(fromMm)} by ${atMost(Math.abs(turnAtDeg(facet, other)), 1)} degrees`,
          ]
        : [];
    }),
  );
  return [
    ...(creased.length === 0
      ? []
      : [
          note(
            'walls-creased',
            `Warped walls are blanks of their own, creased by eye along a diagonal: ${creased.join(', ')}. Try each on its end or the next bay before it is welded.`,
          ),
        ]),
    ...(movedMm === 0
      ? []
      : [
          note(
            'walls-evened',
            `Sides that run at two sections within ${EVEN_MM} mm of alike were evened out, so that the walls between are flat; corners moved ${figure(movedMm, 1)} mm at most.`,
          ),
        ]),
  ];
};

/**
 * A section with the end of one side moved, so that the side is turned about its beginning by a
 * share of what it is turned against that at another section.
 */
const turnedTo = (near: SectionAt, far: SectionAt, side: number, share: number): SectionAt => {
  const next = (side + 1) % far.corners.length;
  const wayOf = ({ corners }: SectionAt): number => {
    const [a, b] = [corners[side], corners[next]] as [Vec2, Vec2];
    return Math.atan2(b[1] - a[1], b[0] - a[0]);
  };
  const [from, to] = [wayOf(near), wayOf(far)];
  const at = from + share * Math.atan2(Math.sin(to - from), Math.cos(to - from));
  const first = far.corners[side] as Vec2;
  const long = distance(first, far.corners[next] as Vec2);
  return {
    ...far,
    corners: far.corners.map((p, i) =>
      i === next ? [first[0] + long * Math.cos(at), first[1] + long * Math.sin(at)] : p,
    ),
  };
};
