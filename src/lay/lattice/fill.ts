import type { Vec2 } from '../../geometry/vec2.ts';
import { isFree } from '../greedy.ts';
import { type Layout, roomFor, type Room } from '../layout.ts';
import type { Lattice } from './lattice.ts';

/** Where a part of a lattice comes to lie on a sheet. */
export interface LatticePlace {
  readonly shape: number;
  readonly x: number;
  readonly y: number;
  /** Where it ends along the sheet. */
  readonly end: number;
}

/** How a lattice is shifted on a sheet: so many places within a step are tried. */
const SHIFTS = 5;

/**
 * The places of a lattice that are free on a sheet, with the lattice shifted so that they are as many
 * as can be: parts touch the lower left edges of the sheet, or lie a share of a step farther on. The
 * ones farthest to the left come first, so that a part of them leaves a clean end.
 */
export const latticeOn = (
  layout: Layout,
  lattice: Lattice,
  sheet: number,
): readonly LatticePlace[] => {
  const rooms = lattice.shapes.map((shape) => wider(roomFor(layout, shape, sheet)));
  let best: readonly LatticePlace[] = [];
  for (const from of startsOf(lattice, rooms)) {
    const places = placesFrom(layout, lattice, rooms, from);
    if (places.length <= best.length) continue;
    const free = places.filter(({ shape, x, y }) => isFree(layout, shape, sheet, x, y));
    if (free.length > best.length) best = free;
  }
  return best.toSorted((a, b) => a.end - b.end || a.y - b.y);
};

/** Slack adds up over many steps: parts may lie so much over the edge, mm, which nobody measures. */
const OVER_EDGE = 1e-4;

const wider = ({ minX, maxX, minY, maxY }: Room): Room => ({
  minX,
  maxX: maxX + OVER_EDGE,
  minY,
  maxY: maxY + OVER_EDGE,
});

/** Where the first cell may lie: its parts touch an edge each, or lie a share of a step farther on. */
const startsOf = ({ offsets, along, across }: Lattice, rooms: readonly Room[]): readonly Vec2[] =>
  rooms.flatMap(({ minX }, a) =>
    rooms.flatMap(({ minY }, b) =>
      Array.from({ length: SHIFTS ** 2 }, (_, k): Vec2 => {
        const [on, up] = [(k % SHIFTS) / SHIFTS, Math.floor(k / SHIFTS) / SHIFTS];
        return [
          minX - (offsets[a] as Vec2)[0] + on * along[0] + up * across[0],
          minY - (offsets[b] as Vec2)[1] + on * along[1] + up * across[1],
        ];
      }),
    ),
  );

const placesFrom = (
  { task }: Layout,
  { shapes, offsets, along, across }: Lattice,
  rooms: readonly Room[],
  [fromX, fromY]: Vec2,
): readonly LatticePlace[] =>
  shapes.flatMap((shape, n) => {
    const { minX, maxX, minY, maxY } = rooms[n] as Room;
    const [x0, y0] = [fromX + (offsets[n] as Vec2)[0], fromY + (offsets[n] as Vec2)[1]];
    const reach = task.shapes[shape]?.maxX ?? 0;
    const places: LatticePlace[] = [];
    const corners = [
      [minX, minY],
      [maxX, minY],
      [minX, maxY],
      [maxX, maxY],
    ].map(([x = 0, y = 0]) => inSteps([x - x0, y - y0], along, across));
    const [low, high] = spanOf(corners.map(([, v]) => v));
    for (let j = low; j <= high; j++)
      for (const i of rowSpan([x0 + j * across[0], y0 + j * across[1]], along, rooms[n] as Room)) {
        const x = x0 + i * along[0] + j * across[0];
        const y = y0 + i * along[1] + j * across[1];
        places.push({ shape, x, y, end: x + reach });
      }
    return places;
  });

/** Numbers of steps are whole to within this. */
const EDGE_NOISE = 1e-9;

/** A way as numbers of the two steps. */
const inSteps = ([x, y]: Vec2, [ax, ay]: Vec2, [bx, by]: Vec2): Vec2 => {
  const det = ax * by - ay * bx;
  return [(x * by - y * bx) / det, (ax * y - ay * x) / det];
};

const spanOf = (values: readonly number[]): Vec2 => [
  Math.ceil(Math.min(...values) - EDGE_NOISE),
  Math.floor(Math.max(...values) + EDGE_NOISE),
];

/** The numbers of steps along a row that stay within the room. */
const rowSpan = ([x, y]: Vec2, [ax, ay]: Vec2, { minX, maxX, minY, maxY }: Room): number[] => {
  let [low, high] = [-Infinity, Infinity];
  for (const [at, by, from, to] of [
    [x, ax, minX, maxX],
    [y, ay, minY, maxY],
  ] as const) {
    if (Math.abs(by) < EDGE_NOISE) {
      if (at < from - EDGE_NOISE || at > to + EDGE_NOISE) return [];
      continue;
    }
    const [a, b] = [(from - at) / by, (to - at) / by];
    low = Math.max(low, Math.min(a, b));
    high = Math.min(high, Math.max(a, b));
  }
  const first = Math.ceil(low - EDGE_NOISE);
  const count = Math.floor(high + EDGE_NOISE) - first + 1;
  return Array.from({ length: Math.max(0, count) }, (_, k) => first + k);
};
