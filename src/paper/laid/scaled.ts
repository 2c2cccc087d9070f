import { type Extents, loopExtents } from '../../geometry/extents.ts';
import type { Loop } from '../../geometry/loop.ts';
import { type Piece, piecesOf } from '../../geometry/piece.ts';
import type { Vec2 } from '../../geometry/vec2.ts';

/** How a sheet lies on paper: its own 0,0 at a point, so many millimetres of paper for one of it. */
export interface OnPaper {
  readonly scale: number;
  readonly origin: Vec2;
}

/** Sheets are not drawn larger; the others after ISO 5455, with more between, so that a sheet fills its page. */
const ONE_TO = [
  1, 1.5, 2, 2.5, 3, 4, 5, 6, 7.5, 10, 12.5, 15, 20, 25, 30, 40, 50, 75, 100,
] as const;

/** The largest scale in which something finds room, and what a title block says of it. */
export const scaleIn = (
  [wide, high]: Vec2,
  room: Vec2,
): { readonly scale: number; readonly text: string } => {
  const one =
    ONE_TO.find((n) => wide / n <= room[0] && high / n <= room[1]) ?? (ONE_TO.at(-1) as number);
  return { scale: 1 / one, text: `1:${one}` };
};

export const pointOnPaper = ([x, y]: Vec2, { scale, origin }: OnPaper): Vec2 => [
  origin[0] + x * scale,
  origin[1] + y * scale,
];

export const piecesOnPaper = (loop: Loop, on: OnPaper): Piece[] =>
  piecesOf(loop).map(({ from, to, bulge }) => ({
    from: pointOnPaper(from, on),
    to: pointOnPaper(to, on),
    bulge,
  }));

export const boxOnPaper = (box: Extents, on: OnPaper): Extents => {
  const [minX, minY] = pointOnPaper([box.minX, box.minY], on);
  const [maxX, maxY] = pointOnPaper([box.maxX, box.maxY], on);
  return { minX, minY, maxX, maxY };
};

export const loopBox = (loop: Loop): Extents =>
  loopExtents(loop) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
