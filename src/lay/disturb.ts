import { boxArea, bySize } from './greedy.ts';
import { type Layout, lay, moveTo, roomFor } from './layout.ts';
import type { Random } from './random.ts';
import type { Shape } from './shapes.ts';

/**
 * Changes a layout on the only sheet by much, so that a search that found no way out of it begins
 * somewhere else: two items change over, or its ends, or one of its ends is turned half round.
 */
export const disturb = (layout: Layout, random: Random): void => {
  const chance = random.next();
  if (chance < SHARES.items) changeItemsOver(layout, random);
  else if (chance < SHARES.items + SHARES.ends) changeEndsOver(layout, random);
  else turnEnd(layout, random);
};

/** How often each is done; an end is turned the rest of the times. */
const SHARES = { items: 0.6, ends: 0.2 };

/** Two of the larger half, of different shape, lie where the other one lay. */
const changeItemsOver = (layout: Layout, random: Random): void => {
  const larger = bySize(layout).slice(0, Math.max(2, Math.ceil(layout.count / 2)));
  const a = larger[random.below(larger.length)] as number;
  const others = larger.filter((i) => Math.abs(boxArea(layout, i) / boxArea(layout, a) - 1) > SAME);
  const b = others[random.below(others.length)];
  if (b === undefined) return;
  const [atA, atB] = [middleOf(layout, a), middleOf(layout, b)];
  moveMiddle(layout, a, atB);
  moveMiddle(layout, b, atA);
};

/** Boxes whose areas differ by less than this share are taken for those of the same shape. */
const SAME = 1e-6;

/** Where the sheet is cut in thought, as shares of its length. */
const CUT = { least: 0.2, most: 0.8 };

const cutOf = ({ lengths }: Layout, random: Random): number =>
  (CUT.least + (CUT.most - CUT.least) * random.next()) * (lengths[0] as number);

/** What lies before a cut comes behind what lies behind it. */
const changeEndsOver = (layout: Layout, random: Random): void => {
  const cut = cutOf(layout, random);
  const behind = (layout.lengths[0] as number) - cut;
  for (let i = 0; i < layout.count; i++) {
    const [x, y] = middleOf(layout, i);
    moveMiddle(layout, i, [x < cut ? x + behind : x - cut, y]);
  }
};

/** What lies before a cut, or behind it, is turned half round; items that may not turn, in place. */
const turnEnd = (layout: Layout, random: Random): void => {
  const cut = cutOf(layout, random);
  const isFirst = random.below(2) === 0;
  const [length, width] = [layout.lengths[0] as number, layout.widths[0] as number];
  const both = isFirst ? cut : length + cut;
  for (let i = 0; i < layout.count; i++) {
    const [x, y] = middleOf(layout, i);
    if (x < cut !== isFirst) continue;
    const turned = halfRound(layout, i);
    if (turned !== undefined)
      lay(layout, i, turned, 0, layout.x[i] as number, layout.y[i] as number);
    moveMiddle(layout, i, [both - x, width - y]);
  }
};

/** An item's shape turned by 180 degrees, where it may lie so. */
const halfRound = ({ task, shape }: Layout, i: number): number | undefined => {
  const { form, turnDeg } = task.shapes[shape[i] as number] as Shape;
  return task.items[i]?.[0]?.find((n) => {
    const other = task.shapes[n] as Shape;
    return other.form === form && (other.turnDeg - turnDeg + 540) % 360 === 0;
  });
};

/** The middle of the box round an item where it lies. */
export const middleOf = ({ boxes }: Layout, i: number): readonly [number, number] => [
  ((boxes[4 * i] as number) + (boxes[4 * i + 2] as number)) / 2,
  ((boxes[4 * i + 1] as number) + (boxes[4 * i + 3] as number)) / 2,
];

/** Moves an item by its middle, as far as the sheet lets it. */
export const moveMiddle = (
  layout: Layout,
  i: number,
  [toX, toY]: readonly [number, number],
): void => {
  const [atX, atY] = middleOf(layout, i);
  const room = roomFor(layout, layout.shape[i] as number, layout.sheet[i] as number);
  const [x, y] = [layout.x[i] as number, layout.y[i] as number];
  const movedX = Math.max(room.minX, Math.min(room.maxX, x + toX - atX));
  const movedY = Math.max(room.minY, Math.min(room.maxY, y + toY - atY));
  moveTo(layout, i, movedX, movedY);
};
