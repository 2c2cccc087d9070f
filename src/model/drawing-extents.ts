import { jointExtents, loopExtents, pointExtents, type Extents } from '../geometry/extents.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { DrawingItem } from './drawing.ts';

/** The rectangle round the lines of a drawing, mm; undefined if it has none. Texts do not count. */
export const lineExtents = (items: readonly DrawingItem[]): Extents | undefined =>
  jointExtents(items.flatMap((item) => (item.kind === 'text' ? [] : (itemExtents(item) ?? []))));

/** The rectangle round everything on a drawing, mm, with texts as wide as they may become. */
export const drawingExtents = (items: readonly DrawingItem[]): Extents | undefined =>
  jointExtents(items.flatMap((item) => itemExtents(item) ?? []));

const itemExtents = (item: DrawingItem): Extents | undefined => {
  switch (item.kind) {
    case 'loop':
      return loopExtents(item.loop);
    case 'circle': {
      const [x, y] = item.centre;
      const r = item.radius;
      return { minX: x - r, minY: y - r, maxX: x + r, maxY: y + r };
    }
    case 'line':
      return pointExtents([item.from, item.to]);
    case 'text':
      return pointExtents(textCorners(item));
  }
};

/**
 * A text is set in whatever font the reader has. A letter of a sans-serif font is seldom wider than
 * 0.9 of the height of a capital and seldom hangs more than 0.3 of it below the base line (measured
 * by eye, generous on purpose).
 */
const LETTER_WIDTH = 0.9;
const DESCENT = 0.3;

/** The most that a line of text takes up, mm, from the left end of its base line, level. */
export const textBox = (text: string, heightMm: number): Extents =>
  pointExtents(
    textCorners({ kind: 'text', role: 'note', at: [0, 0], heightMm, angleDeg: 0, text }),
  ) as Extents;

const textCorners = (item: DrawingItem & { readonly kind: 'text' }): Vec2[] => {
  const angle = (item.angleDeg * Math.PI) / 180;
  const c = Math.cos(angle) * item.heightMm;
  const s = Math.sin(angle) * item.heightMm;
  const width = [...item.text].length * LETTER_WIDTH;
  const corner = (u: number, v: number): Vec2 => [
    item.at[0] + c * u - s * v,
    item.at[1] + s * u + c * v,
  ];
  return [corner(0, -DESCENT), corner(width, -DESCENT), corner(width, 1), corner(0, 1)];
};
