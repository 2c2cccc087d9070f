import type { Vec2 } from '../../geometry/vec2.ts';
import type { DrawingItem } from '../../model/drawing.ts';
import { piecesOf } from '../../geometry/piece.ts';
import type { Picture, PictureItem } from '../../model/picture.ts';
import type { Patterns } from '../../tube/cope/coped-tube.ts';
import { CAPITAL } from '../draw/card-lines.ts';
import { CENTRE, EDGE, HOLE } from '../draw/line-types.ts';
import { line } from '../draw/strokes.ts';

/** Lines of patterns as they are inked, at true size. */
export const patternItems = ({ drawing }: Pick<Patterns, 'drawing'>, scale = 1): PictureItem[] =>
  drawing.items.map((item) => inked(item, scale));

/** Patterns to be looked at: at true size, or as large as a box takes them. */
export const patternPicture = (
  patterns: Patterns,
  most: { readonly widthMm: number; readonly heightMm: number },
): Picture => {
  const scale = Math.min(1, most.widthMm / patterns.widthMm, most.heightMm / patterns.heightMm);
  return {
    widthMm: patterns.widthMm * scale,
    heightMm: patterns.heightMm * scale,
    items: patternItems(patterns, scale),
  };
};

const inked = (item: DrawingItem, scale: number): PictureItem => {
  const at = ([x, y]: Vec2): Vec2 => [scale * x, scale * y];
  switch (item.kind) {
    case 'loop':
      return {
        kind: 'area',
        rims: [
          piecesOf(item.loop).map(({ from, to, bulge }) => ({ from: at(from), to: at(to), bulge })),
        ],
        stroke: item.role === 'outline' ? EDGE : HOLE,
      };
    case 'circle':
      return {
        kind: 'round',
        centre: at(item.centre),
        radiusMm: scale * item.radius,
        stroke: HOLE,
      };
    case 'line':
      return line(at(item.from), at(item.to), CENTRE);
    case 'text':
      return {
        kind: 'label',
        at: at(item.at),
        sizeMm: (scale * item.heightMm) / CAPITAL,
        angleDeg: item.angleDeg,
        text: item.text,
      };
  }
};
