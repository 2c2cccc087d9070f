import type { LaidBlank } from '../../cutting/sheet-cuts.ts';
import { withChords } from '../../geometry/chords.ts';
import type { Extents } from '../../geometry/extents.ts';
import { isInside } from '../../geometry/inside.ts';
import type { Loop } from '../../geometry/loop.ts';
import { piecesOf } from '../../geometry/piece.ts';
import { NO_SIZE_MM } from '../../geometry/tolerance.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Label, PictureItem } from '../../model/picture.ts';
import { type Ground, type Line2, textGround } from '../draw/ground.ts';
import { NARROW } from '../draw/line-types.ts';
import { type Candidate, Placer } from '../draw/placer.ts';
import { line } from '../draw/strokes.ts';
import { textWidthMm } from '../draw/text-width.ts';
import { LineGrid } from './line-grid.ts';
import { boxOnPaper, loopBox, type OnPaper, pointOnPaper } from './scaled.ts';

/** Letters that are tried on a part, mm. */
const SIZES_MM = [4, 3.4, 2.8, 2.3] as const;
/** Clear paper round them, mm. */
const CLEAR = { aside: 0.6, over: 0.5 } as const;
/** How many places are tried across a part, each way. */
const TRIES = [0.5, 0.375, 0.625, 0.25, 0.75, 0.125, 0.875] as const;
/** Arcs are asked as chords that leave them by no more, mm of paper. */
const PAPER_CHORD_MM = 0.1;

/** A part with its lines on paper. */
interface Drawn {
  readonly blank: LaidBlank;
  readonly box: Extents;
  readonly outline: Loop;
  readonly inner: readonly Loop[];
  readonly lines: readonly Line2[];
}

interface Place extends Candidate {
  readonly label: Label;
}

/**
 * Number and name of every part: on its metal where there is room, else the number alone there, else
 * the number beside it with a line to it, where there is room for that. All of them stand in the
 * table too.
 */
export const partLabels = (
  blanks: readonly LaidBlank[],
  on: OnPaper,
  bounds: Extents,
): PictureItem[] => {
  const drawn = blanks.map((blank) => drawnOf(blank, on));
  const grid = new LineGrid(drawn.flatMap(({ lines }) => lines));
  const placer = new Placer(bounds, { across: Infinity, crossing: 5 });
  const items: PictureItem[] = [];
  const homeless: Drawn[] = [];
  for (const one of drawn) {
    const label = onMetal(one, grid);
    if (label === undefined) homeless.push(one);
    else {
      items.push(label);
      placer.take(textGround(label, CLEAR));
    }
  }
  return [
    ...items,
    ...homeless.slice(0, MOST_BESIDE).flatMap((one) => beside(one, drawn, grid, placer)),
  ];
};

/** No more numbers than these are put beside their parts: with more of them nobody finds one. */
const MOST_BESIDE = 100;

const drawnOf = (blank: LaidBlank, on: OnPaper): Drawn => {
  const { outline, inner } = blank.piece;
  const paper = (loop: Loop): Loop =>
    withChords(loop, PAPER_CHORD_MM / on.scale).map((v) => {
      const [x, y] = pointOnPaper([v.x, v.y], on);
      return { ...v, x, y };
    });
  const rim = paper(outline.loop);
  const holes = inner.map(({ loop }) => paper(loop));
  return {
    blank,
    box: boxOnPaper(loopBox(outline.loop), on),
    outline: rim,
    inner: holes,
    lines: [rim, ...holes].flatMap((loop) =>
      piecesOf(loop).map(({ from, to }): Line2 => [from, to]),
    ),
  };
};

/** The text on the metal of its part, as large as finds room; the name goes before large letters. */
const onMetal = (one: Drawn, grid: LineGrid): Label | undefined => {
  const { minX, minY, maxX, maxY } = one.box;
  const { number, name } = one.blank;
  const isClear = (ground: Ground): boolean =>
    ground.corners.every((p) => isInside(one.outline, p)) &&
    grid.isClear(ground) &&
    !isInHole(ground, one);
  for (const text of [`${number} ${name}`, String(number)])
    for (const sizeMm of SIZES_MM)
      for (const angleDeg of [0, 90] as const) {
        const wide = textWidthMm(text, sizeMm, true) + 2 * CLEAR.aside;
        if (wide > (angleDeg === 0 ? maxX - minX : maxY - minY)) continue;
        for (const up of TRIES)
          for (const right of TRIES) {
            const middle: Vec2 = [minX + right * (maxX - minX), minY + up * (maxY - minY)];
            const label = labelAt(text, sizeMm, angleDeg, middle);
            if (isClear(textGround(label, CLEAR))) return label;
          }
      }
  return undefined;
};

/** A text whose middle is at a point. */
const labelAt = (text: string, sizeMm: number, angleDeg: 0 | 90, [x, y]: Vec2): Label => {
  const half = 0.36 * sizeMm;
  const at: Vec2 = angleDeg === 0 ? [x, y - half] : [x + half, y];
  return { kind: 'label', at, sizeMm, text, align: 'middle', isBold: true, angleDeg };
};

/** No line runs through it, so it lies in a hole as a whole. */
const isInHole = ({ corners: [p] }: Ground, { inner }: Drawn): boolean =>
  p !== undefined && inner.some((hole) => isInside(hole, p));

/** How far off a part its number is tried, mm, and in how many ways. */
const OFF_MM = [4, 5, 6, 7.5, 9, 11, 13, 15, 18, 21, 25, 30, 35, 42, 50, 60, 70] as const;
const WAYS = 24;
/** On the metal of another part a number would be taken for that part's. */
const ON_OTHER_COST = 50;

/** The number beside its part, a line from it to the part; nothing where there is no room. */
const beside = (
  { blank, box }: Drawn,
  all: readonly Drawn[],
  grid: LineGrid,
  placer: Placer,
): PictureItem[] => {
  const middle: Vec2 = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  const text = String(blank.number);
  const sizeMm = SIZES_MM[3];
  const half: Vec2 = [
    textWidthMm(text, sizeMm, true) / 2 + CLEAR.aside,
    0.36 * sizeMm + CLEAR.over,
  ];
  const places = OFF_MM.flatMap((off, ring) =>
    Array.from({ length: WAYS }, (_, i): Place => {
      const turn = (2 * Math.PI * (i + (ring % 2) / 2)) / WAYS;
      const way: Vec2 = [Math.cos(turn), Math.sin(turn)];
      const at: Vec2 = [middle[0] + off * way[0], middle[1] + off * way[1]];
      const label = labelAt(text, sizeMm, 0, at);
      const ground = textGround(label, CLEAR);
      const reach = Math.min(
        half[0] / Math.max(Math.abs(way[0]), NO_SIZE_MM),
        half[1] / Math.max(Math.abs(way[1]), NO_SIZE_MM),
      );
      const end: Vec2 = [at[0] - reach * way[0], at[1] - reach * way[1]];
      return {
        label,
        grounds: [ground],
        lines: [[middle, end]],
        cost: off,
        more: () => {
          if (!grid.isClear(ground)) return Infinity;
          return all.some(({ outline }) => isInside(outline, at)) ? ON_OTHER_COST : 0;
        },
      };
    }),
  );
  const found = placer.place(places);
  if (found === undefined) return [];
  return [...(found.lines ?? []).map((l) => line(...l, NARROW)), found.label];
};
