import type { Printed } from '../../text/printed.ts';
import type { Extents } from '../../geometry/extents.ts';
import { add, dot, leftOf, scale, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import { dot3, sub3, type Vec3 } from '../../geometry/vec3.ts';
import type { PictureItem } from '../../model/picture.ts';
import type { Camera } from './camera.ts';
import {
  type DimensionLine,
  dimensionChoices,
  dimensionItems,
  dimensionLines,
} from './dimension-line.ts';
import { textGround } from './ground.ts';
import type { Candidate, LineCosts, Placer } from './placer.ts';
import type { SpaceDimension } from './space-dimension.ts';
import { SAME_DIRECTION, SAME_LENGTH_MM } from '../../geometry/tolerance.ts';
import { readableWay } from './readable.ts';

/** A view as it stands on the sheet. */
export interface PlacedView {
  readonly camera: Camera;
  /** Where a point of the part is drawn. */
  readonly at: (p: Vec3) => Vec2;
  /** Round the part, mm of the paper. */
  readonly box: Extents;
  /** The room that the view has for its dimensions. */
  readonly cell: Extents;
}

export interface PlacedDimensions {
  readonly items: readonly PictureItem[];
  /** Those that a view shows; the others are told in words. */
  readonly drawn: ReadonlySet<SpaceDimension>;
}

/** From the view to the first dimension line, and from one to the next, mm. */
const FIRST_MM = 8;
const STEP_MM = 7;
const MOST_LINES = 5;

/**
 * Dimensions beside the views that show them in true length, short ones nearer to the part than
 * long ones, no text on a line or on another text. What finds no room in any view, or is shown in
 * true length in none, is left out.
 */
export const placeDimensions = (
  dimensions: readonly SpaceDimension[],
  views: readonly PlacedView[],
  placer: Placer,
  print: Printed,
): PlacedDimensions => {
  const items: PictureItem[] = [];
  const drawn = new Set<SpaceDimension>();
  const known = new Set<string>();
  const order = dimensions.toSorted(
    (a, b) => Number(a.best === 'face') - Number(b.best === 'face') || a.valueMm - b.valueMm,
  );
  for (const dimension of order) {
    for (const [i, view] of byFitness(dimension, views)) {
      const key = `${i} ${keyOf(dimension, view)}`;
      // The same length between the same places: two flanges that stand behind each other.
      const line = known.has(key) ? undefined : placedLine(dimension, view, placer, print);
      if (line !== undefined) {
        items.push(...dimensionItems(line));
        known.add(key);
      }
      if (!known.has(key)) continue;
      drawn.add(dimension);
      break;
    }
  }
  return { items, drawn };
};

/** Views that show a length true, with their place in the list, the clearest first. */
const byFitness = (
  dimension: SpaceDimension,
  views: readonly PlacedView[],
): [number, PlacedView][] => {
  const ends = [dimension.from, dimension.to].find((e) => e.length === 2);
  const [p, q] = ends ?? [];
  const score = ({ camera: { toward } }: PlacedView): number => {
    if (p === undefined || q === undefined) return 0;
    const line = sub3(q, p);
    const isEndOn = Math.abs(dot3(line, toward)) > 0.99 * Math.hypot(...line);
    const isSquareOn = Math.abs(dot3(line, toward)) < 0.01 * Math.hypot(...line);
    return (dimension.best === 'profile' ? isEndOn : isSquareOn) ? 1 : 0;
  };
  return views
    .map((view, i): [number, PlacedView] => [i, view])
    .filter(([, { camera }]) => Math.abs(dot3(dimension.along, camera.toward)) < SAME_DIRECTION)
    .toSorted((a, b) => score(b[1]) - score(a[1]));
};

const wayIn = ({ along: way }: SpaceDimension, { camera }: PlacedView): Vec2 =>
  readableWay(unit([dot3(way, camera.right), dot3(way, camera.up)]));

const keyOf = (dimension: SpaceDimension, view: PlacedView): string => {
  const way = wayIn(dimension, view);
  const shares = [dimension.from[0], dimension.to[0]]
    .map((p) => dot(view.at(p as Vec3), way).toFixed(1))
    .toSorted();
  return `${way.map((v) => v.toFixed(3)).join(' ')} ${shares.join(' ')}`;
};

/** Clear paper round the texts of a drawing, mm. */
export const CLEAR_MM = { aside: 0.7, over: 0.7 } as const;

/** Nothing is written across a line of a drawing; extension lines and leaders may cross each other. */
export const NEVER_ACROSS: LineCosts = { across: Infinity, crossing: 0 };

/** A dimension at a place that it may have. */
interface DimensionPlace extends Candidate {
  readonly dimension: DimensionLine;
}

const placeOf = (dimension: DimensionLine): DimensionPlace => {
  const lines = dimensionLines(dimension);
  return { dimension, grounds: [textGround(dimension.text, CLEAR_MM)], lines, shaft: lines[0] };
};

const placedLine = (
  dimension: SpaceDimension,
  view: PlacedView,
  placer: Placer,
  { tape }: Printed,
): DimensionLine | undefined => {
  const way = wayIn(dimension, view);
  const out = leftOf(way);
  const feet = [dimension.from.map(view.at), dimension.to.map(view.at)] as const;
  const isSkew = Math.min(Math.abs(way[0]), Math.abs(way[1])) > SAME_DIRECTION;
  if (isSkew && feet.some(isSpread)) return undefined;
  const all = feet.flat().map((p) => dot(p, out));
  const rim = isSkew ? all : boxCorners(view.box).map((p) => dot(p, out));
  const text = tape(dimension.valueMm);
  const places = levelsFor(all, rim).map((level) => ({
    leastCost: 0,
    places: () => lineAt(feet, way, level, text).map(placeOf),
  }));
  return placer.place(places, view.cell)?.dimension;
};

/**
 * Levels of a dimension line, the nearest first: on the side of the view that its feet are nearer to,
 * below and on the left of equal ones, and then on the other.
 */
const levelsFor = (feet: readonly number[], rim: readonly number[]): number[] => {
  const [low, high] = [Math.min(...rim), Math.max(...rim)];
  const mean = feet.reduce((sum, v) => sum + v, 0) / feet.length;
  const sides = high - mean < mean - low - SAME_LENGTH_MM ? [1, -1] : [-1, 1];
  return Array.from({ length: MOST_LINES }, (_, k) => FIRST_MM + k * STEP_MM).flatMap((off) =>
    sides.map((side) => (side > 0 ? high + off : low - off)),
  );
};

/**
 * A line that is seen in its length: askew to the sheet its dimension would lie across the view.
 */
const isSpread = ([a, b]: readonly Vec2[]): boolean =>
  a !== undefined && b !== undefined && Math.hypot(...sub(b, a)) > 0.1;

const boxCorners = ({ minX, minY, maxX, maxY }: Extents): Vec2[] => [
  [minX, minY],
  [maxX, minY],
  [maxX, maxY],
  [minX, maxY],
];

/**
 * A dimension line at a level, its text in the middle, or at either end where there is no room
 * between.
 */
const lineAt = (
  feet: readonly [readonly Vec2[], readonly Vec2[]],
  way: Vec2,
  level: number,
  text: string,
): DimensionLine[] => {
  const out = leftOf(way);
  const nearest = (points: readonly Vec2[]): Vec2 =>
    points.reduce((best, p) =>
      Math.abs(dot(p, out) - level) < Math.abs(dot(best, out) - level) ? p : best,
    );
  const [a, b] = feet.map(nearest).toSorted((p, q) => dot(p, way) - dot(q, way)) as [Vec2, Vec2];
  const onLine = (p: Vec2): Vec2 => add(scale(way, dot(p, way)), scale(out, level));
  return dimensionChoices({ feet: [a, b], ends: [onLine(a), onLine(b)], way }, text);
};
