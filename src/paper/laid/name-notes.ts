import { loopExtents } from '../../geometry/extents.ts';
import { isInside } from '../../geometry/inside.ts';
import { middle, type Vec2 } from '../../geometry/vec2.ts';
import type { LaidBlank } from '../../cutting/sheet-cuts.ts';
import { textBox } from '../../model/drawing-extents.ts';
import { HEIGHTS, type TextItem } from '../draw/blank-text-room.ts';
import { boxGround, type Ground, turnedGround } from '../draw/ground.ts';
import { type Candidate, NO_BOUNDS, Placer } from '../draw/placer.ts';

/** How many places are tried across a part, each way. */
const TRIES = [0.5, 0.25, 0.75, 0.125, 0.375, 0.625, 0.875] as const;
/** Largest letters of a name on a sheet that is cut, mm. */
const TALLEST_MM = 7;

interface NamePlace extends Candidate {
  readonly item: TextItem;
}

/**
 * Number and name of a part for its sheet's file, on the metal and clear of holes and of the texts
 * that it has already, in the largest letters that find room; without room in the smallest ones
 * across its middle.
 */
export const nameNote = ({ piece, marks, number, name }: LaidBlank): TextItem => {
  const placer = new Placer(NO_BOUNDS, { across: 0, crossing: 0 });
  for (const { loop } of piece.inner) {
    const box = loopExtents(loop);
    if (box !== undefined) placer.take(boxGround(box));
  }
  placer.take(...marks.flatMap((item) => (item.kind === 'text' ? [groundOf(item)] : [])));
  const isOnMetal = (ground: Ground): boolean =>
    pointsOf(ground).every((p) => isInside(piece.outline.loop, p));
  const { minX, minY, maxX, maxY } = loopExtents(piece.outline.loop) ?? NO_BOUNDS;
  const text = `${number} ${name}`;
  const all = HEIGHTS.filter((h) => h <= TALLEST_MM);
  for (const heightMm of all) {
    const places = ([0, 90] as const).flatMap((angleDeg) =>
      TRIES.flatMap((down) =>
        TRIES.map((right): NamePlace => {
          const centre: Vec2 = [minX + right * (maxX - minX), minY + down * (maxY - minY)];
          const item = centred(text, heightMm, angleDeg, centre);
          const ground = groundOf(item);
          return { item, grounds: [ground], more: () => (isOnMetal(ground) ? 0 : Infinity) };
        }),
      ),
    );
    const found = placer.place(places);
    if (found !== undefined) return found.item;
  }
  const smallest = HEIGHTS.at(-1) ?? 1;
  return centred(text, smallest, 0, [(minX + maxX) / 2, (minY + maxY) / 2]);
};

const centred = (text: string, heightMm: number, angleDeg: 0 | 90, [x, y]: Vec2): TextItem => {
  const { maxX: long, maxY: tall } = textBox(text, heightMm);
  const at: Vec2 = angleDeg === 0 ? [x - long / 2, y - tall / 2] : [x + tall / 2, y - long / 2];
  return { kind: 'text', role: 'note', at, heightMm, angleDeg, text };
};

const groundOf = ({ text, heightMm, at, angleDeg }: TextItem): Ground =>
  turnedGround(textBox(text, heightMm), at, angleDeg);

const pointsOf = ({ corners }: Ground): Vec2[] => {
  const [a, b, c, d] = corners as readonly [Vec2, Vec2, Vec2, Vec2];
  return [a, b, c, d, middle(a, b), middle(c, d)];
};
