import { loopExtents } from '../../geometry/extents.ts';
import { isInside } from '../../geometry/inside.ts';
import type { Loop } from '../../geometry/loop.ts';
import { middle, type Vec2 } from '../../geometry/vec2.ts';
import type { DrawingItem } from '../../model/drawing.ts';
import { textBox } from '../../model/drawing-extents.ts';
import { formMarks } from '../../model/formed.ts';
import type { FlatPattern } from '../../model/flat.ts';
import { boxGround, type Ground, type Line2, runsThrough, turnedGround } from './ground.ts';
import { type Candidate, NO_BOUNDS, Placer } from './placer.ts';

export type TextItem = DrawingItem & { readonly kind: 'text' };

/**
 * Heights of letters to choose from, mm: the nominal sizes of ISO 3098 from 10 down, and two
 * smaller ones for very small parts (from memory).
 */
export const HEIGHTS = [10, 7, 5, 3.5, 2.5, 1.8, 1.3, 1] as const;

/** The width of a line of text, mm. */
export const textWidth = (text: string, heightMm: number): number => textBox(text, heightMm).maxX;

/** Texts that are placed together. */
interface TextPlace extends Candidate {
  readonly texts: readonly TextItem[];
}

/**
 * Where on the blank there is room for texts: on the metal, clear of holes, of fold lines and of
 * texts that were placed before.
 */
export class BlankTextRoom {
  readonly #outline: Loop;
  readonly #folds: readonly Line2[];
  readonly #placer = new Placer(NO_BOUNDS, { across: 0, crossing: 0 });

  constructor(flat: FlatPattern) {
    this.#outline = flat.outline;
    this.#folds = [
      ...flat.bends.map((bend) => bend.centreLine),
      ...formMarks(flat).map(({ from, to }): Line2 => [from, to]),
    ];
    this.#placer.take(
      ...flat.cutouts.map((hole) => {
        if (hole.kind === 'loop')
          return boxGround(loopExtents(hole.loop) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 });
        const [[x, y], r] = [hole.centre, hole.diameterMm / 2];
        return boxGround({ minX: x - r, minY: y - r, maxX: x + r, maxY: y + r });
      }),
    );
  }

  /** The first of several texts that has room, or of several blocks of texts; taken. */
  place<Texts extends readonly TextItem[]>(choices: readonly Texts[]): Texts | undefined {
    const places = choices.map((texts): TextPlace & { readonly texts: Texts } => ({
      texts,
      grounds: texts.map((text) => levelGround(text)),
      more: () => (texts.every((text) => this.#liesOnMetal(text)) ? 0 : Infinity),
    }));
    return this.#placer.place(places)?.texts;
  }

  /** Takes texts where they stand. */
  take(...texts: readonly TextItem[]): void {
    this.#placer.take(...texts.map((text) => levelGround(text)));
  }

  #liesOnMetal(text: TextItem): boolean {
    const ground = groundOf(text);
    return (
      this.#folds.every((line) => !runsThrough(ground, line)) &&
      outlineOf(ground).every((point) => isInside(this.#outline, point))
    );
  }
}

const groundOf = ({ at, heightMm, angleDeg, text }: TextItem): Ground =>
  turnedGround(textBox(text, heightMm), at, angleDeg);

/** The level box round a text, however it is turned. */
const levelGround = (text: TextItem): Ground => boxGround(groundOf(text).box);

/** The corners of a text, and the middles of its long sides. */
const outlineOf = ({ corners }: Ground): Vec2[] => {
  const [a, b, c, d] = corners as readonly [Vec2, Vec2, Vec2, Vec2];
  return [a, b, c, d, middle(a, b), middle(c, d)];
};
