import { atLeast, figure } from '../text/figures.ts';
import { acrossLoop } from '../geometry/across.ts';
import { holeBelowLeast } from '../checks/hole-below-least.ts';
import { webTooThin } from '../checks/web-too-thin.ts';
import type { Extents } from '../geometry/extents.ts';
import { gapMiddle, loopGap } from '../geometry/gap.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import type { Piece } from '../geometry/piece.ts';
import { type Finding, stop, warn } from '../model/finding.ts';
import { forNeighbours } from '../dxf/contours/neighbours.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import { listed } from './listed.ts';
import type { Contour } from './nesting.ts';
import type { Places } from './places.ts';
import type { CutLimits, SheetLimits } from './sheet.ts';

/** Whether the drawing lies within the bed, whichever way it is turned. */
export const bedFindings = (extents: Extents, { cutter, isAssumed, bed }: CutLimits): Finding[] => {
  const [width, height] = [extents.maxX - extents.minX, extents.maxY - extents.minY];
  const fits = (l: number, w: number): boolean => width <= l && height <= w;
  if (fits(bed.length, bed.width) || fits(bed.width, bed.length)) return [];
  const message = `The drawing is ${figure(width)} x ${figure(height)} mm; the bed of the ${cutter} takes ${figure(bed.length)} x ${figure(bed.width)} mm${isAssumed ? ' (assumed)' : ''}. Split it, or check its unit.`;
  return [(isAssumed ? warn : stop)('larger-than-bed', message)];
};

/** Holes and webs too small for the sheet. */
export const sheetFindings = (
  contours: readonly Contour[],
  limits: CutLimits,
  place: Places,
): Finding[] => {
  const { sheet } = limits;
  if (sheet === undefined) return [];
  const holes = contours.filter((c) => c.depth % 2 === 1);
  return [
    ...listed(holes.flatMap((hole) => smallHole(hole, limits.cutter, sheet, place))),
    ...listed(thinWebs(contours, limits.cutter, sheet, place)),
  ];
};

/**
 * The most corners of a hole that is measured across, because the time grows with the square of
 * their number.
 */
const MOST_CORNERS = 400;

const smallHole = (
  { loop, box }: Contour,
  cutter: string,
  sheet: SheetLimits,
  place: Places,
): Finding[] => {
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
  const isRound = loop.every((v) => v.bulge !== 0) && Math.abs(width - height) < 0.01;
  const least = isRound ? sheet.leastHole : sheet.leastSlot;
  // A narrow hole is often small. The box of a long narrow slot that lies askew does not show its
  // width.
  const across =
    isRound || loop.length > MOST_CORNERS ? [] : acrossLoop(loop, 'left').map((a) => a.widthMm);
  const size = Math.min(width, height, ...across);
  if (size >= least - NOISE_MM) return [];
  const at: Vec2 = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  const message = `A hole at ${place(at)} is ${figure(size)} mm ${isRound ? 'in diameter' : 'wide'}, under the least of ${figure(least)} mm of the ${cutter} in sheet of ${figure(sheet.thicknessMm)} mm. Make it ${atLeast(least)} or more, or drill it.`;
  return [{ ...warn(holeBelowLeast, message), at }];
};

/** The most pairs of pieces that are measured; more is hatching. */
const MOST_PAIRS = 200_000;

interface Owned extends Piece {
  readonly contour: number;
}

/**
 * Metal between two holes, or between a hole and the edge, measured piece by piece among those that
 * lie near.
 */
const thinWebs = (
  contours: readonly Contour[],
  cutter: string,
  sheet: SheetLimits,
  place: Places,
): Finding[] => {
  const pieces = contours.flatMap(({ chain }, contour): Owned[] =>
    chain.map(({ from, to, bulge }) => ({ from, to, bulge, contour })),
  );
  const webs = new Map<
    string,
    { gap: number; least: number; isEdge: boolean; at: Piece['from'] }
  >();
  let pairs = 0;
  forNeighbours(pieces, Math.max(sheet.leastWeb, sheet.leastEdge), (i, j) => {
    const [p, q] = [pieces[i] as Owned, pieces[j] as Owned];
    if (p.contour === q.contour || ++pairs > MOST_PAIRS) return;
    const isEdge = metalBetween(contours, p.contour, q.contour);
    if (isEdge === undefined) return;
    const least = isEdge ? sheet.leastEdge : sheet.leastWeb;
    const [there, other] = [thereAndBack(p), thereAndBack(q)];
    const gap = loopGap(there, other, least);
    const key = `${Math.min(p.contour, q.contour)},${Math.max(p.contour, q.contour)}`;
    // Contours that meet are reported as touching or crossing.
    if (gap < (webs.get(key)?.gap ?? least - NOISE_MM))
      webs.set(key, { gap, least, isEdge, at: gapMiddle(there, other) });
  });
  return [...webs.values()]
    .filter((w) => w.gap > NOISE_MM)
    .map(({ gap, least, isEdge, at }): Finding => ({
      ...warn(
        webTooThin,
        `${figure(gap)} mm of metal between ${isEdge ? 'a hole and the edge' : 'two holes'} near ${place(at)}; the ${cutter} asks for ${figure(least)} mm in sheet of ${figure(sheet.thicknessMm)} mm. Move them ${atLeast(least - gap)} mm apart, or make the hole smaller.`,
      ),
      at,
    }));
};

/**
 * True for a hole and the edge round it, false for two holes in one part; undefined where there is
 * no metal between.
 */
const metalBetween = (contours: readonly Contour[], i: number, j: number): boolean | undefined => {
  const [a, b] = [contours[i] as Contour, contours[j] as Contour];
  if (a.within === j) return a.depth % 2 === 1 ? true : undefined;
  if (b.within === i) return b.depth % 2 === 1 ? true : undefined;
  return a.within === b.within && a.depth % 2 === 1 ? false : undefined;
};

const thereAndBack = ({ from, to, bulge }: Piece) => [
  { x: from[0], y: from[1], bulge },
  { x: to[0], y: to[1], bulge: -bulge },
];
