import { edge, wish } from '../../src/template.ts';
import type { Vec2, Wish } from '../../src/template.ts';
import type { TankSections } from './inputs.ts';
import { after, turnedRound } from './sections.ts';
import type { SectionAt } from './surface.ts';

/** A side that is level in two sections: its height in the first, and how it rises on its way. */
interface Level {
  readonly heightMm: number;
  readonly slope: number;
}

const levelSide = (near: SectionAt, far: SectionAt, which: 'floor' | 'top'): Level | undefined => {
  const heights = near.corners.map(([, y]) => y);
  const heightMm = which === 'floor' ? Math.min(...heights) : Math.max(...heights);
  const isLevel = ({ corners }: SectionAt, i: number): boolean =>
    (corners[i] as Vec2)[1] === after(corners, i)[1];
  const side = near.corners.findIndex(([, y], i) => y === heightMm && isLevel(near, i));
  if (side < 0 || !isLevel(far, side)) return undefined;
  const rise = (far.corners[side] as Vec2)[1] - heightMm;
  return { heightMm, slope: rise / Math.abs(far.atMm - near.atMm) };
};

/**
 * The height of an end whose floor and top are level: as both were measured where it stands, less
 * clearance square to each, and what it stands back. Of more than two sections the wall of one bay
 * may give way to that of the next, and nothing is stated.
 */
export const endWishes = (v: TankSections, which: 'first' | 'last', backMm: number): Wish[] => {
  const [one, other] = turnedRound(v.sections) as [SectionAt, SectionAt];
  const [near, far] = which === 'first' ? [one, other] : [other, one];
  const [floor, top] = (['floor', 'top'] as const).map((face) => levelSide(near, far, face));
  if (v.sections.length !== 2 || floor === undefined || top === undefined) return [];
  const isOutside = v.measure === 'outside';
  const depthMm = v.clearance + (isOutside ? v.thicknessMm : 0);
  const inMm = v.clearance - (isOutside ? 0 : v.thicknessMm);
  const taken = ({ slope }: Level): number => inMm * Math.hypot(1, slope) + backMm;
  const apart = top.heightMm - floor.heightMm + (top.slope - floor.slope) * depthMm;
  const name = `${which} end`;
  return [
    wish(
      'sections less clearance and setback',
      apart - taken(floor) - taken(top),
      edge(name, 'down'),
      edge(name, 'up'),
    ),
  ];
};
