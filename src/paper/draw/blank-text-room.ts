import { type Extents, loopExtents, pointExtents } from '../../geometry/extents.ts';
import { cosDeg, sinDeg } from '../../geometry/degrees.ts';
import { isInside } from '../../geometry/inside.ts';
import type { Loop } from '../../geometry/loop.ts';
import { invert, type Motion2, movePoint } from '../../geometry/motion2.ts';
import { stretchInBox } from '../../geometry/stretch-in-box.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { DrawingItem } from '../../model/drawing.ts';
import { drawingExtents } from '../../model/drawing-extents.ts';
import type { FlatPattern } from '../../model/flat.ts';

export type TextItem = DrawingItem & { readonly kind: 'text' };

/**
 * Heights of letters to choose from, mm: the nominal sizes of ISO 3098 from 10 down, and two
 * smaller ones for very small parts (from memory).
 */
export const HEIGHTS = [10, 7, 5, 3.5, 2.5, 1.8, 1.3, 1] as const;

/** The most a line of text may take up, mm, before it is turned and placed. */
const levelBox = (text: string, heightMm: number): Extents =>
  drawingExtents([
    { kind: 'text', role: 'note', at: [0, 0], heightMm, angleDeg: 0, text },
  ]) as Extents;

/** The width of a line of text, mm. */
export const textWidth = (text: string, heightMm: number): number => levelBox(text, heightMm).maxX;

/** Where on the blank there is room for texts: it remembers what has been placed. */
export class BlankTextRoom {
  readonly #outline: Loop;
  readonly #folds: readonly (readonly [Vec2, Vec2])[];
  readonly #taken: Extents[];

  constructor(flat: FlatPattern) {
    this.#outline = flat.outline;
    this.#folds = flat.bends.map((bend) => bend.centreLine);
    this.#taken = flat.cutouts.map((hole): Extents => {
      if (hole.kind === 'loop')
        return loopExtents(hole.loop) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
      const [[x, y], r] = [hole.centre, hole.diameterMm / 2];
      return { minX: x - r, minY: y - r, maxX: x + r, maxY: y + r };
    });
  }

  /**
   * Whether a text lies on the metal and touches no hole, no text placed before and no fold line.
   */
  isFree(text: TextItem): boolean {
    const box = boxOf(text);
    if (this.#taken.some((other) => doMeet(box, other))) return false;
    if (this.#folds.some((line) => runsThrough(line, text))) return false;
    return outlineOf(text).every((point) => isInside(this.#outline, point));
  }

  take(...texts: readonly TextItem[]): void {
    this.#taken.push(...texts.map(boxOf));
  }
}

const doMeet = (a: Extents, b: Extents): boolean =>
  a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY;

const boxOf = (text: TextItem): Extents => pointExtents(outlineOf(text)) as Extents;

/** Whether a line runs through the box of a text, turned as the text is. */
function runsThrough(
  [from, to]: readonly [Vec2, Vec2],
  { at, heightMm, angleDeg, text }: TextItem,
): boolean {
  const box = levelBox(text, heightMm);
  const home = invert({ c: cosDeg(angleDeg), s: sinDeg(angleDeg), x: at[0], y: at[1] });
  const stretch = stretchInBox(box, movePoint(home, from), movePoint(home, to));
  return stretch !== undefined && stretch[0] < stretch[1];
}

/** The corners of a text, and the middles of its long sides. */
function outlineOf({ at, heightMm, angleDeg, text }: TextItem): Vec2[] {
  const { minY, maxX, maxY } = levelBox(text, heightMm);
  const turned: Motion2 = { c: cosDeg(angleDeg), s: sinDeg(angleDeg), x: at[0], y: at[1] };
  return [0, maxX / 2, maxX].flatMap((x) => [
    movePoint(turned, [x, minY]),
    movePoint(turned, [x, maxY]),
  ]);
}
