import type { Vec2 } from '../../geometry/vec2.ts';
import type { PictureItem, Stroke } from '../../model/picture.ts';
import { figure } from '../../text/figures.ts';
import { arrow } from './dimension-line.ts';
import type { CellSize } from './fold-cells.ts';
import type { FoldScene } from './fold-scene.ts';
import { boxGround, type Line2, runsThrough } from './ground.ts';
import { line } from './strokes.ts';
import { textWidthMm } from './text-width.ts';

const MOVE_MM = 3.6;
/** From one move to the next below it, mm. */
const MOVE_STEP_MM = 12;
const ARC: Stroke = { widthMm: 0.45 };

/**
 * A turn over with its axis and a turn on the table from above, a line for each: in the corner of the
 * cell in which they lie over the fewest of the lines that are drawn there, the upper left of equals.
 */
export const moveItems = (
  { step }: FoldScene,
  { widthMm, heightMm }: CellSize,
  drawn: readonly Line2[],
): PictureItem[] => {
  if (step === undefined) return [];
  const { flipAbout, turnTo } = step.card;
  const moves = [
    ...(step.flip
      ? [{ text: FLIP_WORDS[flipAbout ?? 'first'], symbol: flipSymbol(flipAbout) }]
      : []),
    ...(step.turnDeg > 0
      ? [{ text: `turn ${figure(step.turnDeg, 1)}\u00b0`, symbol: turnSymbol(turnTo ?? 'left') }]
      : []),
  ];
  const wide = 18 + Math.max(0, ...moves.map(({ text }) => textWidthMm(text, MOVE_MM, true)));
  const high = 2 + MOVE_STEP_MM * moves.length;
  const covers = ([x, y]: Vec2): number => {
    const ground = boxGround({ minX: x, minY: y - high, maxX: x + wide, maxY: y });
    return drawn.filter((l) => runsThrough(ground, l)).length;
  };
  const corners: readonly Vec2[] = [
    [0, heightMm],
    [0, high],
    [widthMm - wide, heightMm],
    [widthMm - wide, high],
  ];
  const [left, top] = corners.reduce((best, one) => (covers(one) < covers(best) ? one : best));
  return moves.flatMap(({ text, symbol }, i): PictureItem[] => {
    const y = top - 7 - MOVE_STEP_MM * i;
    return [
      { kind: 'group', at: [left + 8, y], items: symbol },
      { kind: 'label', at: [left + 16, y - 1.2], sizeMm: MOVE_MM, text, isBold: true },
    ];
  });
};

const FLIP_WORDS = {
  along: 'over, front to back',
  across: 'over, left to right',
  first: 'over, drawing down',
} as const;

/** An arc of three quarters with its head, counter-clockwise to the left. */
const turnSymbol = (to: 'left' | 'right'): PictureItem[] => {
  const side = to === 'left' ? 1 : -1;
  const end: Vec2 = [-4.5 * side, 0];
  return [
    {
      kind: 'curve',
      pieces: [{ from: [0, -4.5], to: end, bulge: side * Math.tan((3 * Math.PI) / 8) }],
      stroke: ARC,
    },
    arrow(end, [0, -1], -1),
  ];
};

/** The axis, and an arrow that jumps over it. */
const flipSymbol = (about: 'along' | 'across' | null): PictureItem[] => {
  const isAlong = about !== 'across';
  const turned = ([x, y]: Vec2): Vec2 => (isAlong ? [x, y] : [y, x]);
  const [from, to] = [turned([0, -4]), turned([0, 4])];
  return [
    line(turned([-5, 0]), turned([5, 0]), { widthMm: 0.2, dashMm: [2, 0.6, 0.4, 0.6] }),
    { kind: 'curve', pieces: [{ from, to, bulge: 0.8 }], stroke: ARC },
    arrow(to, isAlong ? [-0.6, 0.8] : [0.8, 0.6], -1),
  ];
};
