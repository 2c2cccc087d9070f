import { type Extents, pointExtents } from '../../geometry/extents.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { PictureItem } from '../../model/picture.ts';
import { boxGround, type Line2, textGround } from './ground.ts';
import { led, nameItems, namePlace, type NamePlace } from './name-places.ts';
import { NEVER_ACROSS } from './place-dimensions.ts';
import { type Batch, Placer } from './placer.ts';
import { boxRing } from './strokes.ts';
import { textWidthMm } from './text-width.ts';

/** A name and where it may stand: the best places first. */
export interface Named {
  readonly text: string;
  readonly at: readonly Vec2[];
  /** Whether it may stand on the place itself; otherwise a line leads to it. */
  readonly isOn: boolean;
}

export const LABEL_MM = 3.6;
/** What it costs to write across a line of the picture. */
const ON_LINE = 3;

/**
 * Names in a picture: on what they name where there is room, or beside it with a line to it; one that
 * finds no room is left out. `lines` are better not written across; `taken` is ground of other texts.
 */
export const labelled = (
  names: readonly Named[],
  bounds: Extents,
  lines: readonly Line2[],
  taken: readonly PictureItem[] = [],
): PictureItem[] => {
  const placer = new Placer(bounds, NEVER_ACROSS);
  placer.avoid(...lines.map((line) => ({ line, cost: ON_LINE })));
  for (const item of taken.flatMap(flatItems)) {
    if (item.kind === 'label') placer.take(textGround(item, { aside: 0.8, over: 0.6 }));
    if (item.kind === 'curve')
      placer.avoid(...item.pieces.map((p) => ({ line: [p.from, p.to] as Line2, cost: Infinity })));
    if (item.kind === 'area')
      placer.take(
        ...item.rims.map((rim) =>
          boxGround({
            minX: Math.min(...rim.map((p) => p.from[0])) - 0.3,
            maxX: Math.max(...rim.map((p) => p.from[0])) + 0.3,
            minY: Math.min(...rim.map((p) => p.from[1])) - 0.3,
            maxY: Math.max(...rim.map((p) => p.from[1])) + 0.3,
          }),
        ),
      );
  }
  return names.flatMap((name) => {
    const placed = placer.place(placesOf(name));
    return placed === undefined ? [] : nameItems(placed);
  });
};

/** What a group holds, in its place. */
const flatItems = (item: PictureItem): readonly PictureItem[] => {
  if (item.kind !== 'group') return [item];
  const [dx, dy] = item.at;
  const corners = item.items.flatMap((inner) =>
    inner.kind === 'curve' ? inner.pieces.flatMap((p) => [p.from, p.to]) : [],
  );
  const box = pointExtents(corners);
  if (box === undefined) return [];
  const room = { minX: box.minX - 2, maxX: box.maxX + 2, minY: box.minY - 2, maxY: box.maxY + 2 };
  const moved = {
    minX: room.minX + dx,
    maxX: room.maxX + dx,
    minY: room.minY + dy,
    maxY: room.maxY + dy,
  };
  return [{ kind: 'area', rims: [boxRing(moved)] }];
};

const placesOf = ({ text, at, isOn }: Named): (NamePlace | Batch<NamePlace>)[] =>
  at.flatMap((p, i) => [
    ...(isOn ? [on(p, text, 2 * i)] : []),
    ...led(p, 0.5, text, LABEL_MM, 10 + 4 * i),
  ]);

const on = ([x, y]: Vec2, text: string, cost: number): NamePlace =>
  namePlace(
    {
      kind: 'label',
      at: [x - textWidthMm(text, LABEL_MM, true) / 2, y - 0.36 * LABEL_MM],
      sizeMm: LABEL_MM,
      text,
      isBold: true,
    },
    cost,
  );
