import type { Piece } from '../../geometry/piece.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { PictureItem } from '../../model/picture.ts';

/**
 * A place turned clockwise by 90 degrees about the origin, then moved up by `widthMm`: a box of
 * that width that stood on the axes stands on them again.
 */
export const quarterTurned = ([x, y]: Vec2, widthMm: number): Vec2 => [y, widthMm - x];

/** Things of a picture turned in the same way, texts with them. */
export const quarterTurn = (items: readonly PictureItem[], widthMm: number): PictureItem[] =>
  items.map((item) => turnItem(item, (p) => quarterTurned(p, widthMm)));

function turnItem(item: PictureItem, turn: (p: Vec2) => Vec2): PictureItem {
  switch (item.kind) {
    case 'curve':
      return { ...item, pieces: turnPieces(item.pieces, turn) };
    case 'area':
      return { ...item, rims: item.rims.map((rim) => turnPieces(rim, turn)) };
    case 'round':
      return { ...item, centre: turn(item.centre) };
    case 'label':
      return { ...item, at: turn(item.at), angleDeg: (item.angleDeg ?? 0) - 90 };
    case 'group': {
      // What is within turns about the group's own origin, which is moved.
      const { clip } = item;
      const within = item.items.map((inner) => turnItem(inner, (p) => quarterTurned(p, 0)));
      return {
        kind: 'group',
        at: turn(item.at),
        items: within,
        ...(clip !== undefined && {
          clip: { minX: clip.minY, minY: -clip.maxX, maxX: clip.maxY, maxY: -clip.minX },
        }),
      };
    }
  }
}

const turnPieces = (pieces: readonly Piece[], turn: (p: Vec2) => Vec2): Piece[] =>
  pieces.map(({ from, to, bulge }) => ({ from: turn(from), to: turn(to), bulge }));
