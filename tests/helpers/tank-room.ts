import fc from 'fast-check';
import { vertexAt } from '../../src/geometry/loop.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import type { Vec3 } from '../../src/geometry/vec3.ts';
import {
  bodyOf,
  crossedSides,
  planesOf,
  type Room,
  shapeOf,
} from '../../templates/tank-plan/planes.ts';
import { type Body, meet } from '../../templates/tank-plan/solid.ts';
import { cornerOn, floorFacets, ridersOf } from '../../templates/tank-plan/steps.ts';
import type { Solid, Solids } from './solid.ts';

/** Rooms as vehicles leave them, and the same made of blocks by the kernel. */

const tenths = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: min * 10, max: max * 10 }).map((n) => n / 10);

/** A box, one with a corner cut off, a taper, or one with a notch, which leans nowhere. */
const plan: fc.Arbitrary<{ readonly corners: readonly Vec2[]; readonly isConvex: boolean }> = fc
  .record({
    w: tenths(250, 900),
    d: tenths(200, 600),
    cut: tenths(30, 90),
    less: tenths(0, 80),
    kind: fc.constantFrom('box', 'cut', 'taper', 'notch'),
  })
  .map(({ w, d, cut, less, kind }) => {
    const corners: Record<string, Vec2[]> = {
      box: [
        [0, 0],
        [w, 0],
        [w, d],
        [0, d],
      ],
      cut: [
        [0, 0],
        [w, 0],
        [w, d - cut],
        [w - cut - less, d],
        [0, d],
      ],
      taper: [
        [0, 0],
        [w, less / 2],
        [w - less, d],
        [less / 3, d - less],
      ],
      notch: [
        [0, 0],
        [w, 0],
        [w, d - cut],
        [w - cut - less, d - cut],
        [w - cut - less, d],
        [0, d],
      ],
    };
    return { corners: corners[kind] as Vec2[], isConvex: kind !== 'notch' };
  });

const slope = fc.integer({ min: -150, max: 150 }).map((n) => n / 1000);

/** A room of at least 80 mm everywhere, and sides of 25 and more. */
export const anyRoom: fc.Arbitrary<Room> = fc
  .record({
    plan,
    slopes: fc.tuple(slope, slope, slope, slope),
    depth: tenths(320, 500),
    at: tenths(0, 300),
    leans: fc.array(fc.constantFrom(0, 0, -4, 3, 7.5), { minLength: 6, maxLength: 6 }),
  })
  .map(({ plan: { corners, isConvex }, slopes: [a, b, c, d], depth, at, leans }) => ({
    corners,
    outlineAtMm: at,
    leanDeg: corners.map((_, i) => (isConvex ? (leans[i] as number) : 0)),
    floor: { heightMm: 0, alongX: a, alongY: b },
    top: { heightMm: depth, alongX: c / 4, alongY: d / 4 },
    steps: [],
  }))
  .filter((room) => {
    const shape = shapeOf(planesOf(room, 0));
    const { low, high } = shape;
    return (
      low.every((p, i) => (high[i] as Vec3)[2] - p[2] > 80) && crossedSides(shape, 25).length === 0
    );
  });

/** A room as somebody would type it, its floor and top by heights at three places. */
export const inputsOfRoom = (room: Room): Readonly<Record<string, string | number>> => {
  const heights = ({ heightMm, alongX, alongY }: Room['floor']): string =>
    [
      [0, 0],
      [200, 10],
      [30, 170],
    ]
      .map(([x = 0, y = 0]) => `${x},${y}: ${heightMm + alongX * x + alongY * y}`)
      .join('; ');
  return {
    outline: room.corners.map((c) => c.join(',')).join('; '),
    outlineAt: room.outlineAtMm,
    floor: heights(room.floor),
    top: heights(room.top),
    lean: room.leanDeg.map((deg, i) => `${i + 1}: ${deg}`).join('; '),
  };
};

export const bodyOfRoom = (room: Room): Body => bodyOf(shapeOf(planesOf(room, 0)));

/** More than any room here reaches, mm. */
const FAR = 3000;

const unit = (v: Vec3): Vec3 => {
  const size = Math.hypot(...v);
  return [v[0] / size, v[1] / size, v[2] / size];
};
const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** All that lies within FAR of a point on the side of a plane to which its normal points. */
export const blockBeyond = (solids: Solids, through: Vec3, normal: Vec3): Solid => {
  const z = unit(normal);
  const x = unit(cross(Math.abs(z[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0], z));
  const square = [
    [-FAR, -FAR],
    [FAR, -FAR],
    [FAR, FAR],
    [-FAR, FAR],
  ].map(([px, py]) => ({ x: px as number, y: py as number, bulge: 0 }));
  return solids.move(solids.prism(square, FAR), { o: through, x, y: cross(z, x), z });
};

/**
 * The inside of a room by the kernel: its plan swept up, wide enough for sides that lean, less what
 * lies beyond each side, below the floor and above the top.
 */
export const roomSolid = (solids: Solids, room: Room): Solid => {
  const { corners, outlineAtMm, leanDeg, floor, top, steps } = room;
  const isPlumb = leanDeg.every((deg) => deg === 0);
  const around: Vec2[] = [
    [-FAR / 3, -FAR / 3],
    [FAR / 2, -FAR / 3],
    [FAR / 2, FAR / 2],
    [-FAR / 3, FAR / 2],
  ];
  const swept = solids.prism(
    (isPlumb ? corners : around).map(([x, y]) => ({ x, y, bulge: 0 })),
    FAR / 2,
  );
  const whole = solids.move(swept, {
    o: [0, 0, -FAR / 6],
    x: [1, 0, 0],
    y: [0, 1, 0],
    z: [0, 0, 1],
  });
  const beyond = isPlumb
    ? []
    : corners.map(([x, y], i) => {
        const next = vertexAt(
          corners.map(([px, py]) => ({ x: px, y: py, bulge: 0 })),
          i + 1,
        );
        const rise = Math.tan(((leanDeg[i] as number) * Math.PI) / 180);
        const [dx, dy] = [next.x - x, next.y - y];
        const size = Math.hypot(dx, dy);
        // Outwards in plan, and down by how fast the side runs outwards.
        return blockBeyond(solids, [x, y, outlineAtMm], [dy / size, -dx / size, -rise]);
      });
  // One after the other: all at once the kernel at times leaves what lies beyond a side.
  return [
    ...beyond,
    ...(steps.length > 0
      ? belowSteps(solids, room)
      : [blockBeyond(solids, [0, 0, floor.heightMm], [floor.alongX, floor.alongY, -1])]),
    blockBeyond(solids, [0, 0, top.heightMm], [-top.alongX, -top.alongY, 1]),
  ].reduce((left, block) => solids.cut(left, [block]), whole);
};

/** Rooms whose floor has one step or two, up or down, clear of the corners of the plan. */
export const anySteppedRoom: fc.Arbitrary<Room> = fc
  .record({
    room: anyRoom,
    axis: fc.constantFrom('x' as const, 'y' as const),
    places: fc.uniqueArray(fc.integer({ min: 12, max: 88 }), { minLength: 1, maxLength: 2 }),
    ups: fc.tuple(tenths(16, 60), tenths(16, 60)),
    ways: fc.tuple(fc.constantFrom(1, -1), fc.constantFrom(1, -1)),
  })
  .map(({ room, axis, places, ups, ways }): Room => {
    const i = axis === 'x' ? 0 : 1;
    const all = room.corners.map((p) => p[i]);
    const [from, to] = [Math.min(...all), Math.max(...all)];
    return {
      ...room,
      steps: places
        .toSorted((a, b) => a - b)
        .map((percent, k) => ({
          axis,
          atMm: Math.round(from + ((to - from) * percent) / 100),
          upMm: (ups[k] as number) * (ways[k] as number),
        })),
    };
  })
  .filter((room) => {
    const shape = shapeOf(planesOf(room, 0));
    const [first, second] = room.steps;
    const isApart = second === undefined || second.atMm - (first?.atMm ?? 0) > 40;
    const clear = room.steps.every(({ axis, atMm }, step) => {
      const i = axis === 'x' ? 0 : 1;
      const isClear = room.corners.every((_, corner) =>
        shape.planes.floors.every(
          (floor) => Math.abs(cornerOn(shape.planes, corner, floor)[i] - atMm) > 30,
        ),
      );
      return isClear && ridersOf(shape.planes, step).length === 2;
    });
    const depth = (p: Vec3): number => meet(shape.planes.top, p, [0, 0, 1])[2] - p[2];
    // Floors have outlines only where each step runs across the plan.
    return (
      isApart &&
      clear &&
      floorFacets(shape.planes).every(({ points }) => points.every((p) => depth(p) > 60))
    );
  });

/** What lies below a stepped floor, from step to step, by the kernel. */
const belowSteps = (solids: Solids, { floor, steps }: Room): Solid[] =>
  [undefined, ...steps].map((step, k) => {
    const up = steps.slice(0, k).reduce((sum, { upMm }) => sum + upMm, 0);
    const block = blockBeyond(
      solids,
      [0, 0, floor.heightMm + up],
      [floor.alongX, floor.alongY, -1],
    );
    const next = steps[k];
    const past = (at: { axis: string; atMm: number }, way: number): Solid =>
      blockBeyond(
        solids,
        at.axis === 'x' ? [at.atMm, 0, 0] : [0, at.atMm, 0],
        at.axis === 'x' ? [way, 0, 0] : [0, way, 0],
      );
    return solids.cut(block, [
      ...(step === undefined ? [] : [past(step, -1)]),
      ...(next === undefined ? [] : [past(next, 1)]),
    ]);
  });
