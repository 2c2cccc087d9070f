import { figure } from '../text/figures.ts';
import { type GivenFigure, type Limits, PLACE } from './figures.ts';
import type { Spot, Stretch } from './piece.ts';
import { SIZE } from './shape.ts';

/** Two figures for one length, which came by sums, mm. */
const SAME_MM = 1e-4;

/** Reads figures of one flange, each under its key. */
export const readerOf =
  ({ figures, at }: Pick<Spot, 'figures' | 'at'>) =>
  (
    key: string,
    given: GivenFigure,
    otherwise: number | undefined,
    limits: Limits,
  ): number | undefined =>
    given === undefined ? otherwise : figures.read(given, `${at}.${key}`, limits);

export function stretchOf(spot: Spot): Stretch | 'whole' | undefined {
  const { figures, given, at, edgeMm, edge } = spot;
  const read = readerOf(spot);
  const [from, to] = [
    read('from', given.from, undefined, PLACE),
    read('to', given.to, undefined, PLACE),
  ];
  const width = read('width', given.width, undefined, SIZE);
  for (const [key, value] of [
    ['from', from],
    ['to', to],
    ['width', width],
  ] as const)
    if (given[key] !== undefined && value === undefined) return undefined;
  if (from === undefined && to === undefined && width === undefined) return 'whole';
  if (
    from !== undefined &&
    to !== undefined &&
    width !== undefined &&
    Math.abs(to - from - width) > SAME_MM
  )
    return figures.problem(
      `${at}.width`,
      given.width,
      `from, to, or width: two of them. From ${figure(from)} to ${figure(to)} it is ${figure(to - from)} mm wide`,
      'leave it out',
    );
  const stretch = takenOf({ from, to, width, align: given.align ?? 'middle' }, edgeMm);
  if (
    stretch[0] >= -SAME_MM &&
    stretch[1] <= edgeMm + SAME_MM &&
    stretch[1] - stretch[0] >= SIZE.least
  )
    return [Math.max(0, stretch[0]), Math.min(edgeMm, stretch[1])];
  const key =
    width !== undefined && width > edgeMm
      ? 'width'
      : stretch[1] > edgeMm && to !== undefined
        ? 'to'
        : from !== undefined
          ? 'from'
          : to !== undefined
            ? 'to'
            : 'width';
  return figures.problem(
    `${at}.${key}`,
    given[key],
    key === 'width'
      ? `at most ${figure(edgeMm)} mm, which is how long ${edge} is`
      : `a stretch of ${edge}, which is ${figure(edgeMm)} mm long: from 0 to ${figure(edgeMm)}, from before to`,
    `it would run from ${figure(stretch[0])} to ${figure(stretch[1])}`,
  );
}

/** The stretch of the edge below that is as long as what is folded on there. */
export function matching(spot: Spot, footMm: number): Stretch | 'whole' | undefined {
  const { figures, given, at, edgeMm } = spot;
  const isPlaced = given.from !== undefined || given.to !== undefined;
  if (!isPlaced && given.width === undefined && Math.abs(footMm - edgeMm) <= SAME_MM)
    return 'whole';
  const width =
    given.width ?? (given.from !== undefined && given.to !== undefined ? undefined : footMm);
  const stretch = stretchOf({
    ...spot,
    given: { ...given, ...(width !== undefined && { width }) },
  });
  if (stretch === undefined || stretch === 'whole') return stretch;
  return Math.abs(stretch[1] - stretch[0] - footMm) <= SAME_MM
    ? stretch
    : figures.problem(
        `${at}.to`,
        given.to ?? given.width,
        `a stretch as long as the foot of its outline, ${figure(footMm)} mm`,
        `from ${figure(stretch[0])} to ${figure(stretch[0] + footMm)}`,
      );
}

const takenOf = (
  {
    from,
    to,
    width,
    align,
  }: {
    readonly from: number | undefined;
    readonly to: number | undefined;
    readonly width: number | undefined;
    readonly align: 'left' | 'middle' | 'right';
  },
  edgeMm: number,
): Stretch => {
  if (width === undefined) return [from ?? 0, to ?? edgeMm];
  if (from !== undefined) return [from, to ?? from + width];
  if (to !== undefined) return [to - width, to];
  const spare = edgeMm - width;
  const start = align === 'left' ? 0 : align === 'right' ? spare : spare / 2;
  return [start, start + width];
};
