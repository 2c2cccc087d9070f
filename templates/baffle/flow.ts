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
  const wanted = Math.min(count, MOST_FLOW_HOLES);
  for (const pitch of pitchesFor(rooms, diameterMm)) {
    if (mostAt(rooms, diameterMm, pitch) < wanted) continue;
    const grids = gridsAt(rooms, diameterMm, pitch);
    if (total(grids) >= count) return innermost(rooms, grids, count);
    // Narrower pitches only hold more.
    if (total(grids) > 2 * MOST_FLOW_HOLES) return undefined;
  }
  return undefined;
};

/** The largest number of holes of this size that fit, up to `MOST_FLOW_HOLES`. */
export const mostFlowHoles = (rooms: readonly FlowRoom[], diameterMm: number): number => {
  let most = 0;
  // The narrowest pitch first: it mostly holds most, and leaves little to be looked for.
  for (const pitch of pitchesFor(rooms, diameterMm).toReversed()) {
    if (most < MOST_FLOW_HOLES && mostAt(rooms, diameterMm, pitch) > most)
      most = Math.max(most, total(gridsAt(rooms, diameterMm, pitch)));
  }
  return Math.min(most, MOST_FLOW_HOLES);
};

const total = (grids: readonly (readonly Vec2[])[]): number =>
  grids.reduce((sum, g) => sum + g.length, 0);

/**
 * Ratio of one pitch to the next; finer steps would move no hole by more than a fiftieth of its
 * distance.
 */
const PITCH_STEP = 1.02;

/** The pitches from one at which a second hole lies outside every room down to the narrowest. */
function pitchesFor(rooms: readonly FlowRoom[], diameterMm: number): number[] {
  const narrowest = diameterMm + Math.max(...rooms.map((r) => r.holeGapMm));
  const widest = Math.max(...rooms.map(({ region }) => 2 * Math.hypot(...boxOf(region).half)));
  const last = Math.ceil(Math.log((2 * widest) / narrowest) / Math.log(PITCH_STEP));
  return Array.from(
    { length: Math.max(0, last) + 1 },
    (_, k) => narrowest * PITCH_STEP ** k,
  ).toReversed();
}

/** The fullest grid of each room. */
const gridsAt = (
  rooms: readonly FlowRoom[],
  diameterMm: number,
  pitchMm: number,
): readonly (readonly Vec2[])[] =>
  rooms.map((room) => {
    const fits = placeTest(room, diameterMm / 2);
    const box = centresBox(room, diameterMm);
    return fullest(LAYOUTS.map((layout) => grid(box, pitchMm, layout, fits)));
  });

/** An upper bound of the holes that fit: what the boxes of their centres take, level or upright. */
const mostAt = (rooms: readonly FlowRoom[], diameterMm: number, pitchMm: number): number => {
  const along = (half: number, step: number): number =>
    half < 0 ? 0 : Math.floor((2 * half) / step) + 1;
  return rooms.reduce((sum, room) => {
    const {
      half: [x, y],
    } = centresBox(room, diameterMm);
    const rowMm = rowOf(pitchMm);
    return sum + Math.max(along(x, pitchMm) * along(y, rowMm), along(y, pitchMm) * along(x, rowMm));
  }, 0);
};

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

/** Distance from row to row of a grid whose places are all as far from their neighbours. */
const rowOf = (pitchMm: number): number => (pitchMm * Math.sqrt(3)) / 2;

const grid = (
  { middle, half }: Box,
  pitchMm: number,
  { isUpright, shift }: Layout,
  fits: PlaceTest,
): Vec2[] => {
  const rowMm = rowOf(pitchMm);
  const [long, wide] = isUpright ? [half[1], half[0]] : half;
  const [places, rows] = [Math.ceil(long / pitchMm) + 1, Math.ceil(wide / rowMm) + 1];
  const found: Vec2[] = [];
  for (let j = -rows; j <= rows; j++) {
    const v = (j + shift[1]) * rowMm;
    if (Math.abs(v) > wide) continue;
    for (let i = -places; i <= places; i++) {
      const u = (i + shift[0] + (j % 2 === 0 ? 0 : 0.5)) * pitchMm;
      if (Math.abs(u) > long) continue;
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

interface Box {
  readonly middle: Vec2;
  readonly half: Vec2;
}

/** The box that all centres of holes lie in, with a little to spare; a half of less than 0: none. */
const centresBox = ({ region, edgeGapMm }: FlowRoom, diameterMm: number): Box => {
  const { middle, half } = boxOf(region);
  const inset = diameterMm / 2 + edgeGapMm - 2 * SAME_LENGTH_MM;
  return { middle, half: [half[0] - inset, half[1] - inset] };
};

const boxOf = (region: Loop): Box => {
  const { minX, minY, maxX, maxY } = loopExtents(region) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  return {
    middle: [(minX + maxX) / 2, (minY + maxY) / 2],
    half: [(maxX - minX) / 2, (maxY - minY) / 2],
  };
};
