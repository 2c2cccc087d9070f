import { areaOf } from '../../cutting/cut-piece.ts';
import type { LaidBlank } from '../../cutting/sheet-cuts.ts';
import type { Extents } from '../../geometry/extents.ts';
import { isInside } from '../../geometry/inside.ts';
import { NOISE_MM } from '../../geometry/tolerance.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { LaidSheet } from '../../model/laid.ts';
import type { PictureItem, Stroke } from '../../model/picture.ts';
import type { StockPiece } from '../../model/stock.ts';
import { CENTRE, EDGE, HIDDEN, HOLE, LEAST_LINE_MM } from '../draw/line-types.ts';
import { boxRing, line } from '../draw/strokes.ts';
import { arrow } from '../draw/dimension-line.ts';
import { boxOnPaper, loopBox, type OnPaper, piecesOnPaper, pointOnPaper } from './scaled.ts';

/** Shades of what is there: the parts, and holes that were cut before. */
const PART_SHADE = 0.9;
const GONE_SHADE = 0.72;
const THIN: Stroke = { widthMm: LEAST_LINE_MM };
/** Lines of a hatch are so far apart, mm. */
const HATCH_MM = 4;
const HATCH: Stroke = { widthMm: LEAST_LINE_MM, shade: 0.6 };
/** The dot where a cut begins. */
const START_DOT_MM = 0.7;

/** The piece of stock: its edge, the box round it where it is no rectangle, holes that are in it. */
export const stockItems = ({ outline, holes }: StockPiece, on: OnPaper): PictureItem[] => {
  const box = loopBox(outline);
  const area = (box.maxX - box.minX) * (box.maxY - box.minY);
  const isOdd = Math.abs(areaOf({ loop: outline, item: OUTLINE }) - area) > NOISE_MM * area;
  return [
    ...(isOdd
      ? [{ kind: 'curve', pieces: boxRing(boxOnPaper(box, on)), stroke: CENTRE } as const]
      : []),
    { kind: 'area', rims: [piecesOnPaper(outline, on)], fill: 1, stroke: EDGE },
    ...holes.map(
      (hole) =>
        ({
          kind: 'area',
          rims: [piecesOnPaper(hole, on)],
          fill: GONE_SHADE,
          stroke: EDGE,
        }) as const,
    ),
  ];
};

/** The line up to which clamps hold the lower edge. */
export const clampItems = ({ stock, clampsMm = 0 }: LaidSheet, on: OnPaper): PictureItem[] => {
  if (clampsMm === 0) return [];
  const { minX, maxX, minY } = loopBox(stock.outline);
  const y = minY + clampsMm;
  return [line(pointOnPaper([minX, y], on), pointOnPaper([maxX, y], on), HIDDEN)];
};

/** The parts, the larger ones first, for small ones may lie in their holes. */
export const partItems = (blanks: readonly LaidBlank[], on: OnPaper): PictureItem[] =>
  blanks
    .toSorted((a, b) => areaOf(b.piece.outline) - areaOf(a.piece.outline))
    .flatMap(({ piece: { outline, inner } }): PictureItem[] => {
      const start = outline.loop[0];
      return [
        {
          kind: 'area',
          rims: [outline, ...inner].map(({ loop }) => piecesOnPaper(loop, on)),
          fill: PART_SHADE,
          stroke: HOLE,
        },
        ...(start === undefined
          ? []
          : [
              {
                kind: 'round',
                centre: pointOnPaper([start.x, start.y], on),
                radiusMm: START_DOT_MM,
                fill: 0,
              } as const,
            ]),
        ...cornerItems(outline.loop, on),
      ];
    });

/** Half a corner mark, mm. */
const CORNER_MM = 1.2;

/** A cross at the lower left of the box round a part, where the part has no corner of its own. */
const cornerItems = (loop: LaidBlank['piece']['outline']['loop'], on: OnPaper): PictureItem[] => {
  const { minX, minY } = loopBox(loop);
  const isOwn = loop.some(({ x, y }) => Math.hypot(x - minX, y - minY) * on.scale < CORNER_MM / 2);
  if (isOwn || isInside(loop, [minX, minY])) return [];
  const [x, y] = pointOnPaper([minX, minY], on);
  return [
    line([x - CORNER_MM, y], [x + CORNER_MM, y], THIN),
    line([x, y - CORNER_MM], [x, y + CORNER_MM], THIN),
  ];
};

/** The rectangle that stays clean, hatched; what is written in it comes later. */
export const cleanItems = (clean: Extents, on: OnPaper): PictureItem[] => {
  const box = boxOnPaper(clean, on);
  const [wide, high] = [box.maxX - box.minX, box.maxY - box.minY];
  const count = Math.floor((wide + high) / HATCH_MM);
  const lines = Array.from({ length: count }, (_, i): PictureItem => {
    const at = (i + 1) * HATCH_MM;
    const from: Vec2 = at <= high ? [box.minX, box.minY + at] : [box.minX + at - high, box.maxY];
    const to: Vec2 = at <= wide ? [box.minX + at, box.minY] : [box.maxX, box.minY + at - wide];
    return line(from, to, HATCH);
  });
  return [...lines, { kind: 'curve', pieces: boxRing(box), stroke: { ...CENTRE } }];
};

/** Half the arrow of the grain, mm. */
const GRAIN_MM = 6;

/** The way the grain runs, round a point. */
export const grainItems = (axis: 'x' | 'y', [x, y]: Vec2): PictureItem[] => {
  const way: Vec2 = axis === 'x' ? [1, 0] : [0, 1];
  const [a, b]: [Vec2, Vec2] = [
    [x - GRAIN_MM * way[0], y - GRAIN_MM * way[1]],
    [x + GRAIN_MM * way[0], y + GRAIN_MM * way[1]],
  ];
  return [
    line(a, b, HOLE),
    arrow(a, way, 1),
    arrow(b, way, -1),
    { kind: 'label', at: [x, y - GRAIN_MM - 4], sizeMm: 3, text: 'GRAIN', align: 'middle' },
  ];
};

const OUTLINE = { kind: 'loop', role: 'note', loop: [] } as const;
