import {
  assemble,
  diameterWish,
  figure,
  isOver,
  orMore,
  rectangle,
  refuse,
  wholeUp,
} from '../../src/template.ts';
import type { Cutout, Finding, Part } from '../../src/template.ts';
import { askedLipMm, ductBend } from './ends.ts';
import { reachAt, type Shell, type ShellWall } from './shell.ts';
import type { DuctBox } from './inputs.ts';
import { LEAST_EDGE_MM } from './wall.ts';

/** One side of the ring: how far its window and its outer edge are from the axis. */
interface Side {
  readonly innerMm: number;
  readonly outerMm: number;
}

/**
 * The lips as a flat ring round the walls, its front in the plane of the aperture. It reaches as far
 * out as folded lips would, and its window clears the outsides of the walls by the gap wherever they
 * pass through its thickness.
 */
const sideOf = (v: DuctBox, wall: ShellWall): Side => {
  const inside = wall.reachMm - v.thicknessMm / wall.cos;
  return {
    innerMm: Math.max(wall.reachMm, reachAt(wall, v.thicknessMm)) + v.cornerGapMm,
    outerMm: inside + askedLipMm(v, 'aperture', ductBend(v, 90 - wall.taperDeg)),
  };
};

const sidesOf = (v: DuctBox, shell: Shell): readonly [Side, Side, Side, Side] =>
  shell.walls.map((wall) => sideOf(v, wall)) as [Side, Side, Side, Side];

/** Whether the lips are a piece of their own. */
export const hasRing = ({ lip, lipForm }: DuctBox): boolean => lip > 0 && lipForm === 'ring';

/** The width of metal at the narrowest side of the ring. */
export const ringMm = (v: DuctBox, shell: Shell): number =>
  Math.min(...sidesOf(v, shell).map(({ innerMm, outerMm }) => outerMm - innerMm));

/** A ring that has nothing left beside the walls. */
export const narrowRing = (v: DuctBox, shell: Shell): Finding[] => {
  const short = LEAST_EDGE_MM - ringMm(v, shell);
  return hasRing(v) && isOver(short, 0)
    ? [
        refuse('lip-too-short', ['lip'], `lip ${figure(v.lip)} leaves no ring beside the walls`, [
          orMore('lip', v.lip + short),
        ]),
      ]
    : [];
};

/** The ring as seen looking into the aperture. */
export const lipRing = (v: DuctBox, shell: Shell): Part => {
  const sides = sidesOf(v, shell);
  const [bottom, right, top, left] = sides;
  const around = (at: (side: Side) => number) =>
    rectangle(-at(left), -at(bottom), at(left) + at(right), at(bottom) + at(top));
  const window: Cutout = {
    kind: 'loop',
    from: 'aperture',
    inputs: ['width', 'height'],
    loop: around(({ innerMm }) => innerMm),
  };
  const holes = sides.flatMap((side, i) => sideHoles(v, sides, side, i));
  const panel = {
    id: 'lip ring',
    outline: around(({ outerMm }) => outerMm),
    cutouts: [window, ...holes],
  };
  const wishes =
    v.lipHole === undefined
      ? []
      : holes
          .slice(0, 1)
          .map(({ from }) => diameterWish('lipHole', v.lipHole ?? 0, 'lip ring', from));
  return assemble(v, { root: 'lip ring', panels: [panel], folds: [], wishes });
};

/** Holes along the middle of one side, as far from its ends as from its edges. */
const sideHoles = (v: DuctBox, sides: readonly Side[], side: Side, i: number): Cutout[] => {
  const { lipHole: diameterMm } = v;
  if (diameterMm === undefined) return [];
  const middle = (side.innerMm + side.outerMm) / 2;
  // Seen looking into the aperture the sides follow each other counter-clockwise.
  const [before, after] = [sides[(i + 3) % 4], sides[(i + 1) % 4]] as [Side, Side];
  const [low, high] = [-before.innerMm, after.innerMm];
  const inset = Math.max((side.outerMm - side.innerMm) / 2, diameterMm);
  const span = Math.max(0, high - low - 2 * inset);
  const count = span === 0 ? 1 : 1 + wholeUp(span / v.lipPitch);
  return Array.from({ length: count }, (_, k): Cutout => {
    const along = count === 1 ? (low + high) / 2 : low + inset + (span * k) / (count - 1);
    const centre = [
      [along, -middle],
      [middle, along],
      [-along, middle],
      [-middle, -along],
    ][i] as [number, number];
    return {
      kind: 'round',
      from: `lipHole ${i + 1}.${k + 1}`,
      inputs: ['lipHole', 'lipPitch'],
      centre,
      diameterMm,
    };
  });
};
