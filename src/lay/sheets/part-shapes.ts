import { type Extents, loopExtents } from '../../geometry/extents.ts';
import { moveLoop, turnedBy } from '../../geometry/motion2.ts';
import { NOISE_MM } from '../../geometry/tolerance.ts';
import { mirrorLoop } from '../../model/mirror.ts';
import type { GrainAxis, StockPiece } from '../../model/stock.ts';
import { type Outline, type Shape, shapeOf } from '../shapes.ts';
import type { Ground } from './ground.ts';
import { grownPart, type Metal } from './grown.ts';
import type { PartToLay } from './request.ts';

/** A part as it may lie: its shape for the search, and what was done to its drawing. */
export interface Look {
  readonly shape: Shape;
  readonly turnedOver: boolean;
  readonly turnDeg: number;
}

/** Steps of `any` turn, degrees; the next one is taken where there would be too many shapes. */
const ANY_STEPS_DEG = [15, 30, 45, 90];

/** The tables of pairs grow with the square of their number. */
export const MOST_SHAPES = 600;

/** Turns of every part, so that there are not more shapes than the search can hold. */
export const turnsOf = (parts: readonly PartToLay[]): readonly (readonly number[])[] => {
  const withStep = (stepDeg: number): readonly (readonly number[])[] =>
    parts.map(({ turnsDeg }) =>
      turnsDeg === 'any'
        ? Array.from({ length: 360 / stepDeg }, (_, k) => k * stepDeg)
        : turnsDeg.map((deg) => ((deg % 360) + 360) % 360),
    );
  const countOf = (turns: readonly (readonly number[])[]): number =>
    turns.reduce((sum, t, i) => sum + t.length * (parts[i]?.mayTurnOver === true ? 2 : 1), 0);
  const tried = ANY_STEPS_DEG.map(withStep);
  return tried.find((turns) => countOf(turns) <= MOST_SHAPES) ?? (tried.at(-1) as number[][]);
};

/**
 * All looks of a part, its outline grown by half the gap; reach is that of the true outline. What
 * comes out the same in two turns is there once, and the one that is turned less.
 */
export const looksOf = (
  part: PartToLay,
  turnsDeg: readonly number[],
  byMm: number,
  leastMm: number,
  form: (outline: Outline) => number,
): readonly Look[] => {
  const faces: readonly (readonly [Metal, boolean])[] = [
    [part, false],
    ...(part.mayTurnOver ? [[turnedOver(part), true] as const] : []),
  ];
  const looks: Look[] = [];
  const seen = new Set<string>();
  for (const [metal, isOver] of faces) {
    const grown = grownPart(metal, byMm, leastMm);
    const number = form(grown);
    for (const turnDeg of turnsDeg) {
      const turned = moveLoop(turnedBy(turnDeg), metal.outline);
      const reach = loopExtents(turned) as Extents;
      const shape = { ...shapeOf(grown, number, turnDeg), ...reach };
      const mark = `${turnDeg % 180} ${markOf(shape, reach)}`;
      const plain = markOf(shape, reach);
      // A part with a wish for the grain needs the turn a quarter further though it looks the same.
      const key = part.grain === 'free' ? plain : mark;
      if (seen.has(key)) continue;
      seen.add(key);
      looks.push({ shape, turnedOver: isOver, turnDeg });
    }
  }
  return looks;
};

export const turnedOver = ({ outline, holes }: Metal): Metal => ({
  outline: mirrorLoop(outline),
  holes: holes.map(mirrorLoop),
});

/** The corners of a shape from the corner of its box, in an order that hangs on nothing else. */
const markOf = ({ outline: { outer, holes } }: Shape, { minX, minY }: Extents): string =>
  [outer, ...holes]
    .flat()
    .map(([x, y]) => `${rounded(x - minX)},${rounded(y - minY)}`)
    .toSorted()
    .join(' ');

const rounded = (v: number): string => (Math.round(v * 100) / 100 + 0).toFixed(2);

/**
 * The numbers of those looks that may lie on a piece of stock: that fit its box, with the grain
 * where it is wished. The grain of a whole sheet runs along its length where it is not told, as
 * sheet is rolled (common practice); that of a remnant nobody knows then.
 */
export const looksOn = (
  part: PartToLay,
  looks: readonly Look[],
  piece: StockPiece,
  ground: Ground | undefined,
): number[] =>
  ground === undefined
    ? []
    : looks.flatMap(({ shape, turnDeg }, n) => {
        const fits = ground.rooms.some(
          ({ length, width }) =>
            shape.maxX - shape.minX <= length + NOISE_MM &&
            shape.maxY - shape.minY <= width + NOISE_MM,
        );
        return fits && isWithGrain(part, turnDeg, piece) ? [n] : [];
      });

const isWithGrain = ({ grain }: PartToLay, turnDeg: number, piece: StockPiece): boolean => {
  if (grain === 'free') return true;
  const axis: GrainAxis | undefined = piece.grain ?? (piece.isRemnant ? undefined : 'x');
  if (axis === undefined) return false;
  const isAcross = (grain === 'across') !== (axis === 'y');
  return turnDeg % 180 === (isAcross ? 90 : 0);
};
