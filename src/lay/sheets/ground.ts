import { type Extents, loopExtents } from '../../geometry/extents.ts';
import type { Loop } from '../../geometry/loop.ts';
import { NOISE_MM } from '../../geometry/tolerance.ts';
import type { Shears, StockPiece } from '../../model/stock.ts';
import type { Outline } from '../shapes.ts';
import { aroundHoles, aroundMetal } from './grown.ts';
import type { LayRequest } from './request.ts';

/** The rectangle of a piece of stock that parts may reach into, mm, and what they keep off in it. */
export interface Ground {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
  /** In the coordinates of the piece of stock. */
  readonly fixed: readonly Outline[];
  /** Where the piece is sheared first, the parts of that rectangle that are left: by their sizes. */
  readonly rooms: readonly Room[];
}

interface Room {
  readonly length: number;
  readonly width: number;
}

/**
 * The room of a piece of stock; `undefined` when its edges leave none. Parts are grown by half the
 * gap before they are laid, so what is fixed gives way by that less.
 */
export const groundOf = (
  { outline, holes, shears = NO_SHEARS }: StockPiece,
  { gapMm, edgeMm, clampsMm = 0 }: LayRequest,
): Ground | undefined => {
  const box = loopExtents(outline);
  if (box === undefined) return undefined;
  const bottom = Math.max(edgeMm, clampsMm);
  const length = box.maxX - box.minX - 2 * edgeMm;
  const width = box.maxY - box.minY - bottom - edgeMm;
  if (length <= 0 || width <= 0) return undefined;
  const within = (mm: number): number => Math.max(0, mm - gapMm / 2);
  const fixed = isUpright(outline)
    ? aroundHoles(holes, within(edgeMm))
    : aroundMetal({ outline, holes }, within(edgeMm));
  const strips = stripsAlong(shears, box, within(edgeMm), within(bottom));
  return {
    x: box.minX + edgeMm,
    y: box.minY + bottom,
    length,
    width,
    fixed: [...fixed, ...strips],
    rooms: roomsBetween(shears, box, edgeMm, bottom),
  };
};

const NO_SHEARS: Shears = { x: [], y: [] };

/** A shear line is as wide as this at least, mm, so that something is there to be kept off. */
const LEAST_STRIP_MM = 0.01;

/** What parts keep off along shear lines; above one that runs along x clamps may hold. */
const stripsAlong = (
  { x, y }: Shears,
  { minX, minY, maxX, maxY }: Extents,
  edgeMm: number,
  bottomMm: number,
): Outline[] => {
  const [edge, bottom] = [edgeMm, bottomMm].map((mm) => Math.max(LEAST_STRIP_MM, mm)) as [
    number,
    number,
  ];
  const box = (left: number, right: number, low: number, high: number): Outline => ({
    outer: [
      [left, low],
      [right, low],
      [right, high],
      [left, high],
    ],
    holes: [],
  });
  return [
    ...x.map((at) => box(at - edge, at + edge, minY, maxY)),
    ...y.map((at) => box(minX, maxX, at - edge, at + bottom)),
  ];
};

const roomsBetween = (
  { x, y }: Shears,
  { minX, minY, maxX, maxY }: Extents,
  edgeMm: number,
  bottomMm: number,
): Room[] => {
  const between = (levels: readonly number[], lost: number): number[] =>
    levels.slice(1).map((level, k) => level - (levels[k] as number) - lost);
  const widths = between([minY, ...y, maxY], bottomMm + edgeMm);
  return between([minX, ...x, maxX], 2 * edgeMm).flatMap((length) =>
    widths.map((width) => ({ length, width })),
  );
};

/** Whether a loop is a rectangle along the axes. */
const isUpright = (loop: Loop): boolean =>
  loop.length === 4 &&
  loop.every((v, i) => {
    const next = loop[(i + 1) % 4] as Loop[number];
    const isLevel = Math.abs(v.y - next.y) < NOISE_MM;
    return v.bulge === 0 && (isLevel || Math.abs(v.x - next.x) < NOISE_MM);
  });
