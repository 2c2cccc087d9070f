import { lay, type Layout, roomFor, shapesOn } from '../layout.ts';
import type { Random } from '../random.ts';
import type { Search } from './search.ts';

/** The numbers of all items. */
export const numbersOf = ({ count }: Layout): number[] =>
  Array.from({ length: count }, (_, i) => i);

/** Lays items anywhere on open sheets; false where one may lie on none. */
export const throwOn = (
  { layout, random }: Search,
  items: readonly number[],
  open: readonly number[],
): boolean => {
  const { groups } = layout.task;
  const isThrown = new Set<number>();
  for (const i of items) {
    if (isThrown.has(i)) continue;
    const group = groups?.[i];
    const all =
      group === undefined
        ? [i]
        : numbersOf(layout).filter(
            (j) => groups?.[j] === group && (j === i || layout.sheet[j] !== -1),
          );
    for (const j of all) isThrown.add(j);
    const sheets = open.filter((k) => all.every((j) => roomyShapes(layout, j, k).length > 0));
    const sheet = sheets[random.below(sheets.length)];
    if (sheet === undefined) return false;
    for (const j of all) throwAt(layout, random, j, sheet);
  }
  return true;
};

/** The shapes of an item that find room on a sheet as large as it is now. */
export const roomyShapes = (layout: Layout, i: number, sheet: number): readonly number[] =>
  shapesOn(layout, i, sheet).filter((shape) => {
    const { minX, maxX, minY, maxY } = roomFor(layout, shape, sheet);
    return minX <= maxX && minY <= maxY;
  });

const throwAt = (layout: Layout, random: Random, i: number, sheet: number): void => {
  const shapes = roomyShapes(layout, i, sheet);
  const shape = shapes[random.below(shapes.length)] as number;
  const { minX, maxX, minY, maxY } = roomFor(layout, shape, sheet);
  const [x, y] = [random.next() * (maxX - minX), random.next() * (maxY - minY)];
  lay(layout, i, shape, sheet, minX + x, minY + y);
};
