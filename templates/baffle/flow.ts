import {
  add,
  distance,
  dot,
  isInside,
  leftOf,
  loopExtents,
  pointGap,
  sub,
  unit,
  SAME_LENGTH_MM,
} from '../../src/template.ts';
import type { Loop, Vec2, Vertex } from '../../src/template.ts';

/** Room for flow holes. Lengths in mm. */
export interface FlowRoom {
  /** Convex outline of the room, counter-clockwise. */
  readonly region: Loop;
  /** Smallest strip of metal from the edge of a hole to the edge of the region. */
  readonly edgeGapMm: number;
  /** Smallest strip of metal between two holes, and from a hole to an obstacle. */
  readonly holeGapMm: number;
  readonly inTheWay: readonly Loop[];
}

/** Most flow holes: more make a sieve, not a baffle; larger holes let the same amount through. */
export const MOST_FLOW_HOLES = 500;

/**
 * Centres of `count` holes in a staggered grid, one grid in each room: every hole has the same
 * distance to its six neighbours, in level or in upright rows, as far apart as the rooms allow.
 * When the grids hold a few more than asked for, those farthest from the centre of their room are
 * left out. `undefined` when that many do not fit.
 */
export const flowHoles = (
  rooms: readonly FlowRoom[],
  diameterMm: number,
  count: number,
): readonly Vec2[] | undefined => {
  if (count === 0) return [];
  for (const grids of gridsOf(rooms, diameterMm)) {
    if (total(grids) >= count) return innermost(rooms, grids, count);
  }
  return undefined;
};

/** The largest number of holes of this size that fit, up to `MOST_FLOW_HOLES`. */
export const mostFlowHoles = (rooms: readonly FlowRoom[], diameterMm: number): number => {
  let most = 0;
  for (const grids of gridsOf(rooms, diameterMm)) most = Math.max(most, total(grids));
  return Math.min(most, MOST_FLOW_HOLES);
};

const total = (grids: readonly (readonly Vec2[])[]): number =>
  grids.reduce((sum, g) => sum + g.length, 0);

/**
 * Ratio of one pitch to the next; finer steps would move no hole by more than a fiftieth of its
 * distance.
 */
const PITCH_STEP = 1.02;

/** The fullest grid of each room, for every pitch from wide to narrow. */
function* gridsOf(
  rooms: readonly FlowRoom[],
  diameterMm: number,
): Generator<readonly (readonly Vec2[])[]> {
  const narrowest = diameterMm + Math.max(...rooms.map((r) => r.holeGapMm));
  const widest = Math.max(...rooms.map(({ region }) => 2 * Math.hypot(...boxOf(region).half)));
  const tests = rooms.map((room) => placeTest(room, diameterMm / 2));
  // The search runs from a pitch at which a second hole lies outside every room down to the
  // narrowest.
  for (
    let k = Math.max(0, Math.ceil(Math.log((2 * widest) / narrowest) / Math.log(PITCH_STEP)));
    k >= 0;
    k--
  ) {
    const pitch = narrowest * PITCH_STEP ** k;
    const grids = rooms.map(({ region }, i) =>
      fullest(LAYOUTS.map((layout) => grid(region, pitch, layout, tests[i] as PlaceTest))),
    );
    yield grids;
    // Narrower pitches only hold more.
    if (total(grids) > 2 * MOST_FLOW_HOLES) return;
  }
}

const fullest = (grids: readonly (readonly Vec2[])[]): readonly Vec2[] =>
  grids.reduce((best, g) => (g.length > best.length ? g : best));

/**
 * A grid in level or upright rows. It is shifted against the centre of the region along its rows
 * and across them, in pitches and rows.
 */
interface Layout {
  readonly isUpright: boolean;
  readonly shift: Vec2;
}

const SHIFTS: readonly Vec2[] = [
  [0, 0],
  [0.5, 0],
  [0, 0.5],
  [0.25, 0.5],
];
const LAYOUTS: readonly Layout[] = [false, true].flatMap((isUpright) =>
  SHIFTS.map((shift) => ({ isUpright, shift })),
);

const grid = (
  region: Loop,
  pitchMm: number,
  { isUpright, shift }: Layout,
  fits: PlaceTest,
): Vec2[] => {
  const { middle, half } = boxOf(region);
  const rowMm = (pitchMm * Math.sqrt(3)) / 2;
  const [long, wide] = isUpright ? [half[1], half[0]] : half;
  const [places, rows] = [Math.ceil(long / pitchMm) + 1, Math.ceil(wide / rowMm) + 1];
  const found: Vec2[] = [];
  for (let j = -rows; j <= rows; j++) {
    for (let i = -places; i <= places; i++) {
      const [u, v] = [(i + shift[0] + (j % 2 === 0 ? 0 : 0.5)) * pitchMm, (j + shift[1]) * rowMm];
      const p = add(middle, isUpright ? [v, u] : [u, v]);
      if (fits(p)) found.push(p);
    }
  }
  return found;
};

type PlaceTest = (centre: Vec2) => boolean;

/** Whether a hole of that radius may have its centre at a point. */
const placeTest = (room: FlowRoom, radiusMm: number): PlaceTest => {
  const { region } = room;
  const walls = region.flatMap((v, i): { into: Vec2; level: number }[] => {
    const next = region[(i + 1) % region.length] as Vertex;
    const into = leftOf(unit(sub([next.x, next.y], [v.x, v.y])));
    return v.bulge === 0
      ? [{ into, level: dot(into, [v.x, v.y]) + radiusMm + room.edgeGapMm }]
      : [];
  });
  const hasArcs = region.some((v) => v.bulge !== 0);
  return (p) =>
    walls.every(({ into, level }) => dot(into, p) >= level - SAME_LENGTH_MM) &&
    // Beyond a rounded corner a point can be on the right side of every edge.
    (!hasArcs ||
      (isInside(region, p) && pointGap(p, region) >= radiusMm + room.edgeGapMm - SAME_LENGTH_MM)) &&
    room.inTheWay.every(
      (loop) =>
        !isInside(loop, p) && pointGap(p, loop) >= radiusMm + room.holeGapMm - SAME_LENGTH_MM,
    );
};

const innermost = (
  rooms: readonly FlowRoom[],
  grids: readonly (readonly Vec2[])[],
  count: number,
): Vec2[] => {
  const placed = grids.flatMap((g, i) => {
    const { middle } = boxOf((rooms[i] as FlowRoom).region);
    return g.map((p) => ({ p, far: distance(p, middle) }));
  });
  const kept = new Set(placed.toSorted((a, b) => a.far - b.far).slice(0, count));
  return placed.filter((place) => kept.has(place)).map(({ p }) => p);
};

const boxOf = (region: Loop): { readonly middle: Vec2; readonly half: Vec2 } => {
  const { minX, minY, maxX, maxY } = loopExtents(region) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  return {
    middle: [(minX + maxX) / 2, (minY + maxY) / 2],
    half: [(maxX - minX) / 2, (maxY - minY) / 2],
  };
};
