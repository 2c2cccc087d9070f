import { type Layout, overlapAt, type Room, roomFor, shapesOn } from './layout.ts';
import { isAround, lookAround, overlapNear } from './near.ts';
import { EDGE } from './no-fit.ts';
import type { Random } from './random.ts';
import type { Shape } from './shapes.ts';

/** A place for an item, and the weighted overlap there. */
export interface Place {
  shape: number;
  sheet: number;
  x: number;
  y: number;
  overlap: number;
}

/** How many places are tried anywhere, at corners of no-fit polygons, and near where it lies. */
const TRIED = { anywhere: 10, corners: 14, near: 6 };

/** So many of the best places tried are refined. */
const REFINED = 3;

/** Lengths of the first and last steps in refining, as shares of the item's size. */
const STEPS = { first: 1 / 20, middle: 1 / 400, last: 1e-5 };

/** A place with more than so many times the overlap that is asked for is not refined to the end. */
const HOPELESS = 1.5;

/**
 * The best place for an item among some tried at random, each refined by steps along one axis at a
 * time; `undefined` where none has less overlap than `limit`.
 */
export const bestPlace = (
  layout: Layout,
  i: number,
  random: Random,
  limit: number,
): Place | undefined => {
  const best: Place[] = [];
  tryPlaces(layout, i, random, best);
  const size = sizeOf(layout, i);
  for (const place of best)
    refine(layout, i, place, random, size * STEPS.first, size * STEPS.middle);
  best.sort((a, b) => a.overlap - b.overlap);
  const [first] = best;
  if (first === undefined || first.overlap >= HOPELESS * limit) return undefined;
  refine(layout, i, first, random, size * STEPS.middle, size * STEPS.last);
  return first.overlap < limit ? first : undefined;
};

const sizeOf = ({ task, shape }: Layout, i: number): number => {
  const { minX, minY, maxX, maxY } = task.shapes[shape[i] as number] as Shape;
  return Math.max(maxX - minX, maxY - minY);
};

/** Puts a place among the best ones, moved into the sheet, if it is one of them. */
const consider = (
  layout: Layout,
  i: number,
  best: Place[],
  { shape, sheet }: { readonly shape: number; readonly sheet: number },
  atX: number,
  atY: number,
): void => {
  const room = roomFor(layout, shape, sheet);
  if (room.maxX < room.minX || room.maxY < room.minY) return;
  const x = clamp(atX, room.minX, room.maxX);
  const y = clamp(atY, room.minY, room.maxY);
  const worst = best.length < REFINED ? Infinity : (best.at(-1) as Place).overlap;
  const overlap = overlapAt(layout, i, shape, sheet, x, y, worst);
  if (overlap >= worst) return;
  if (best.length === REFINED) best.pop();
  const at = best.findIndex((b) => b.overlap > overlap);
  best.splice(at < 0 ? best.length : at, 0, { shape, sheet, x, y, overlap });
};

const clamp = (value: number, least: number, most: number): number =>
  value < least ? least : value > most ? most : value;

/** Tries places until some are tried, or one is free. */
const tryPlaces = (layout: Layout, i: number, random: Random, best: Place[]): void => {
  const { open } = layout;
  const own = layout.sheet[i] as number;
  const isTied = layout.task.groups?.[i] !== undefined;
  const anyAs = (): { readonly shape: number; readonly sheet: number } => {
    const chance = random.next();
    const any = open[random.below(open.length)] as number;
    const there = isTied ? [] : shapesOn(layout, i, any);
    // Where it may not lie, it is tried on its own sheet.
    const sheet = there.length > 0 ? any : own;
    const shapes = there.length > 0 ? there : shapesOn(layout, i, own);
    return { shape: shapes[Math.floor(chance * shapes.length)] as number, sheet };
  };
  const isFound = (): boolean => best[0]?.overlap === 0;
  for (let k = 0; k < TRIED.corners && !isFound(); k++) {
    const as = anyAs();
    const [x, y] = cornerPlace(layout, as.shape, as.sheet, random);
    consider(layout, i, best, as, x, y);
  }
  for (let k = 0; k < TRIED.anywhere && !isFound(); k++) {
    const as = anyAs();
    const { minX, maxX, minY, maxY } = roomFor(layout, as.shape, as.sheet);
    const [x, y] = [random.next() * (maxX - minX), random.next() * (maxY - minY)];
    consider(layout, i, best, as, minX + x, minY + y);
  }
  const reach = sizeOf(layout, i) / 2;
  const sheet = own;
  const turns = shapesOn(layout, i, own);
  const anyOn = (): number => turns[random.below(turns.length)] as number;
  for (let k = 0; k < TRIED.near && !isFound(); k++) {
    const shape = k % 3 === 0 ? (layout.shape[i] as number) : anyOn();
    const [dx, dy] = [2 * random.next() - 1, 2 * random.next() - 1];
    const [x, y] = [layout.x[i] as number, layout.y[i] as number];
    consider(layout, i, best, { shape, sheet }, x + dx * reach, y + dy * reach);
  }
};

/**
 * A place where a shape touches another thing, a corner of the no-fit polygon; sometimes level with
 * such a corner, and touching a third thing or the edge of the sheet.
 */
const cornerPlace = (
  layout: Layout,
  shape: number,
  sheet: number,
  random: Random,
): readonly [number, number] => {
  const [x, y] = anyCorner(layout, shape, sheet, random);
  const way = random.below(MIXED_ONE_IN);
  if (way > 1) return [x, y];
  const [otherX, otherY] = anyCorner(layout, shape, sheet, random);
  return way === 0 ? [otherX, y] : [x, otherY];
};

const MIXED_ONE_IN = 4;

const anyCorner = (
  layout: Layout,
  shape: number,
  sheet: number,
  random: Random,
): readonly [number, number] => {
  const there = layout.on[sheet] as readonly number[];
  const j = there[random.below(there.length + 1)];
  if (j === undefined) {
    const { minX, maxX, minY, maxY } = roomFor(layout, shape, sheet);
    return [random.below(2) === 0 ? minX : maxX, random.below(2) === 0 ? minY : maxY];
  }
  const { edges } = layout.noFits.of(layout.shape[j] as number, shape);
  const at = random.below(edges.length / EDGE) * EDGE;
  return [
    (layout.x[j] as number) + (edges[at] as number),
    (layout.y[j] as number) + (edges[at + 1] as number),
  ];
};

const STEP_LONGER = 1.1;
const STEP_SHORTER = 0.5;

/** Refining looks around for what lies as near as so many of its first steps. */
const AROUND = 3;

/** Steps along x, y or both, longer after a gain and shorter without, until they are too short. */
const refine = (
  layout: Layout,
  i: number,
  place: Place,
  random: Random,
  firstStep: number,
  lastStep: number,
): void => {
  const room = roomFor(layout, place.shape, place.sheet);
  lookAround(layout, i, place.shape, place.sheet, place.x, place.y, AROUND * firstStep);
  let stepX = firstStep;
  let stepY = firstStep;
  while (place.overlap > 0 && (stepX > lastStep || stepY > lastStep)) {
    const way = random.below(4);
    const dx = way === 1 ? 0 : stepX;
    const dy = way === 0 ? 0 : way === 3 ? -stepY : stepY;
    const isBetter = step(layout, i, place, room, dx, dy) || step(layout, i, place, room, -dx, -dy);
    const factor = isBetter ? STEP_LONGER : STEP_SHORTER;
    if (way !== 1) stepX *= factor;
    if (way !== 0) stepY *= factor;
  }
};

/** Moves the place where that makes the overlap less. */
const step = (
  layout: Layout,
  i: number,
  place: Place,
  room: Room,
  dx: number,
  dy: number,
): boolean => {
  const x = clamp(place.x + dx, room.minX, room.maxX);
  const y = clamp(place.y + dy, room.minY, room.maxY);
  const { near } = layout;
  if (!isAround(near, x, y)) lookAround(layout, i, place.shape, place.sheet, x, y, near.margin);
  const overlap = overlapNear(near, x, y, place.overlap);
  if (overlap >= place.overlap) return false;
  place.x = x;
  place.y = y;
  place.overlap = overlap;
  return true;
};
