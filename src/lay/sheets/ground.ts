import { loopExtents } from '../../geometry/extents.ts';
import type { Loop } from '../../geometry/loop.ts';
import { NOISE_MM } from '../../geometry/tolerance.ts';
import type { StockPiece } from '../../model/stock.ts';
import type { Outline } from '../shapes.ts';
import { aroundHoles, aroundMetal } from './grown.ts';
import type { LayRequest, Margins } from './request.ts';

/** The rectangle of a piece of stock that parts may reach into, mm, and what they keep off in it. */
export interface Ground {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
  /** In the coordinates of the piece of stock. */
  readonly fixed: readonly Outline[];
}

const NONE: Margins = { left: 0, right: 0, bottom: 0, top: 0 };

/**
 * The room of a piece of stock; `undefined` when its edges leave none. Parts are grown by half the
 * gap before they are laid, so what is fixed gives way by that less.
 */
export const groundOf = (
  { outline, holes, isRemnant }: StockPiece,
  { gapMm, edgeMm, margins }: LayRequest,
): Ground | undefined => {
  const box = loopExtents(outline);
  if (box === undefined) return undefined;
  const clamps = isRemnant ? NONE : (margins ?? NONE);
  const [left, right] = [Math.max(edgeMm, clamps.left), Math.max(edgeMm, clamps.right)];
  const [bottom, top] = [Math.max(edgeMm, clamps.bottom), Math.max(edgeMm, clamps.top)];
  const length = box.maxX - box.minX - left - right;
  const width = box.maxY - box.minY - bottom - top;
  if (length <= 0 || width <= 0) return undefined;
  const byMm = Math.max(0, edgeMm - gapMm / 2);
  const fixed = isUpright(outline)
    ? aroundHoles(holes, byMm)
    : aroundMetal({ outline, holes }, byMm);
  return { x: box.minX + left, y: box.minY + bottom, length, width, fixed };
};

/** Whether a loop is a rectangle along the axes. */
const isUpright = (loop: Loop): boolean =>
  loop.length === 4 &&
  loop.every((v, i) => {
    const next = loop[(i + 1) % 4] as Loop[number];
    const isLevel = Math.abs(v.y - next.y) < NOISE_MM;
    return v.bulge === 0 && (isLevel || Math.abs(v.x - next.x) < NOISE_MM);
  });
