import { tanDeg } from '../geometry/degrees.ts';
import { loopExtents } from '../geometry/extents.ts';
import { figure } from '../text/figures.ts';
import { LENGTH } from './figures.ts';
import type { Flange, Spot, Stretch } from './piece.ts';
import {
  edgeOf,
  flangeShape,
  listed,
  NONE_BACKWARDS,
  outlineOf,
  type Shape,
  SIZE,
  straightEdges,
} from './shape.ts';
import { matching, readerOf, stretchOf } from './stretch.ts';

/** What a flange is by itself, and where it stands on its edge. */
export type Standing = Pick<Flange, 'stretch' | 'shape' | 'foot' | 'footStretch'>;

/** The shape of a flange; nothing where that told a problem. */
export const standingOf = (spot: Spot): Standing | undefined =>
  spot.given.outline === undefined ? plain(spot) : outlined(spot);

const LEAN = { kind: 'angle', least: -85, most: 85 } as const;

/** A flange that is a rectangle or a trapezoid. */
function plain(spot: Spot): Pick<Flange, 'stretch' | 'shape' | 'foot' | 'footStretch'> | undefined {
  const { figures, given, at, edgeMm } = spot;
  if (given.height === undefined)
    return figures.problem(
      `${at}.height`,
      undefined,
      'a length from the fold to the end',
      'give it, such as 20',
    );
  const stretch = stretchOf(spot);
  const heightMm = figures.read(given.height, `${at}.height`, SIZE);
  if (stretch === undefined || heightMm === undefined) return undefined;
  const widthMm = stretch === 'whole' ? edgeMm : stretch[1] - stretch[0];
  const sides = sidesOf(spot, widthMm, heightMm);
  if (sides === undefined) return undefined;
  return {
    stretch: stretch === 'whole' ? undefined : stretch,
    shape: flangeShape(given.name, { widthMm, heightMm, ...sides }),
    foot: 'foot',
    footStretch: undefined,
  };
}

function sidesOf(
  spot: Spot,
  widthMm: number,
  heightMm: number,
): { readonly inLeftMm: number; readonly inRightMm: number } | undefined {
  const { figures, given, at } = spot;
  const read = readerOf(spot);
  if (given.endWidth !== undefined) {
    const other = (['taper', 'taperLeft', 'taperRight'] as const).find(
      (k) => given[k] !== undefined,
    );
    if (other !== undefined)
      return figures.problem(`${at}.${other}`, given[other], 'endWidth or a taper, one of them');
    const endMm = figures.read(given.endWidth, `${at}.endWidth`, SIZE);
    return endMm === undefined
      ? undefined
      : { inLeftMm: (widthMm - endMm) / 2, inRightMm: (widthMm - endMm) / 2 };
  }
  const both = read('taper', given.taper, 0, LEAN);
  const [left, right] = [
    read('taperLeft', given.taperLeft, both, LEAN),
    read('taperRight', given.taperRight, both, LEAN),
  ];
  if (left === undefined || right === undefined) return undefined;
  const [inLeftMm, inRightMm] = [heightMm * tanDeg(left), heightMm * tanDeg(right)];
  if (widthMm - inLeftMm - inRightMm >= SIZE.least) return { inLeftMm, inRightMm };
  const key = given.taper !== undefined ? 'taper' : left !== 0 ? 'taperLeft' : 'taperRight';
  const most = (Math.atan(widthMm / heightMm / (key === 'taper' ? 2 : 1)) * 180) / Math.PI;
  return figures.problem(
    `${at}.${key}`,
    given[key],
    `less than ${figure(Math.floor(most * 10) / 10)} degrees: there both sides meet before the end, ${figure(heightMm)} up`,
  );
}

/** A flange with an outline of its own. */
function outlined(
  spot: Spot,
): Pick<Flange, 'stretch' | 'shape' | 'foot' | 'footStretch'> | undefined {
  const { figures, given, at } = spot;
  const spare = (
    ['height', 'taper', 'taperLeft', 'taperRight', 'endWidth', 'joggle'] as const
  ).find((key) => given[key] !== undefined);
  if (spare !== undefined)
    return figures.problem(
      `${at}.${spare}`,
      given[spare],
      'nothing beside outline, which says what shape it is',
      `leave out ${spare} or outline`,
    );
  const outline = outlineOf(figures, given.outline ?? '', `${at}.outline`);
  if (outline === undefined) return undefined;
  const shape: Shape = { id: given.name, outline, backwards: NONE_BACKWARDS, isPlain: false };
  const straight = straightEdges(shape);
  const foot = given.foot ?? straight.find((name) => isLowest(outline, name)) ?? straight[0];
  if (foot === undefined || !straight.includes(foot))
    return figures.problem(
      `${at}.foot`,
      given.foot,
      `a straight edge of its outline: ${listed(straight)}`,
    );
  const read = readerOf(spot);
  const footMm = edgeOf(shape, foot)?.lengthMm ?? 0;
  const own: Stretch = [
    read('footFrom', given.footFrom, 0, LENGTH) ?? 0,
    read('footTo', given.footTo, footMm, LENGTH) ?? footMm,
  ];
  const isWhole = given.footFrom === undefined && given.footTo === undefined;
  const stretch = matching(spot, own[1] - own[0]);
  return stretch === undefined
    ? undefined
    : {
        shape,
        foot,
        footStretch: isWhole ? undefined : own,
        stretch: stretch === 'whole' ? undefined : stretch,
      };
}

/** Both ends of the edge are as low as anything of the outline. */
const isLowest = (outline: Shape['outline'], name: string): boolean => {
  const i = outline.findIndex(({ edge }) => edge === name);
  const { minY } = loopExtents(outline) ?? { minY: 0 };
  const next = outline[(i + 1) % outline.length];
  return (outline[i]?.y ?? Infinity) <= minY && (next?.y ?? Infinity) <= minY;
};
