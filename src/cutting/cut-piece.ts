import { isInside } from '../geometry/inside.ts';
import type { Loop } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import type { Region } from '../geometry/region.ts';
import { circle } from '../geometry/shapes.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { DrawingItem } from '../model/drawing.ts';

/** A line that is cut, as the drawing has it and as a curve. A straight cut is there and back. */
export interface CutLine {
  readonly item: DrawingItem;
  readonly loop: Loop;
}

/** What is cut of one part: its outline, and everything within it. */
export interface CutPiece {
  readonly outline: CutLine;
  readonly inner: readonly CutLine[];
}

/**
 * The cuts of a part among its items. The outline is the cut that encloses most, since a drawing of
 * somebody else's may have all on one layer. Undefined where nothing encloses anything.
 */
export const cutPieceOf = (items: readonly DrawingItem[]): CutPiece | undefined => {
  const lines = items.flatMap((item): CutLine[] => {
    const loop = isCutRole(item) ? loopOf(item) : undefined;
    return loop === undefined ? [] : [{ item, loop }];
  });
  const outline = lines.reduce<CutLine | undefined>(
    (most, line) => (most === undefined || areaOf(line) > areaOf(most) ? line : most),
    undefined,
  );
  if (outline === undefined || areaOf(outline) === 0) return undefined;
  return { outline, inner: lines.filter((line) => line !== outline) };
};

const isCutRole = ({ role }: DrawingItem): boolean =>
  role === 'outline' || role === 'hole' || role === 'cut';

const loopOf = (item: DrawingItem): Loop | undefined => {
  switch (item.kind) {
    case 'loop':
      return item.loop;
    case 'circle':
      return circle(item.centre, item.radius);
    case 'line':
      return [item.from, item.to].map(([x, y]) => ({ x, y, bulge: 0 }));
    case 'text':
      return undefined;
  }
};

/** The area that a cut encloses, mm². */
export const areaOf = ({ loop }: CutLine): number => Math.abs(signedArea(loop));

/** Where the tool begins and ends. */
export const startOf = ({ loop }: CutLine): Vec2 => [loop[0]?.x ?? 0, loop[0]?.y ?? 0];

/** Whether a piece lies within a closed line. */
export const liesWithin = (piece: CutPiece, { loop }: CutLine): boolean =>
  isInside(loop, startOf(piece.outline));

/** The metal of a piece that is wanted; a straight cut takes none away. */
export const metalOf = ({ outline, inner }: CutPiece): Region => ({
  outline: outline.loop,
  holes: inner.filter((line) => areaOf(line) > 0).map(({ loop }) => loop),
});
