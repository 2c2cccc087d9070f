import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import {
  leftBehind,
  litresBelow,
  pairLevel,
  pairLitres,
} from '../../templates/tank-plan/levels.ts';
import {
  bodyOf,
  planesOf,
  planeThrough,
  type Room,
  shapeOf,
} from '../../templates/tank-plan/planes.ts';
import { litresTilted } from '../../templates/tank-plan/pools.ts';
import {
  levelAt,
  levelOfMm,
  rodAt,
  volumeBelowMm3,
  volumeMm3,
} from '../../templates/tank-plan/solid.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { anyRoom, bodyOfRoom } from '../helpers/tank-room.ts';

const rectangle = (w: number, d: number): Vec2[] => [
  [0, 0],
  [w, 0],
  [w, d],
  [0, d],
];
const level = (heightMm: number): Room['floor'] => ({ heightMm, alongX: 0, alongY: 0 });
const room = (given: Partial<Room>): Room => ({
  corners: rectangle(600, 400),
  outlineAtMm: 0,
  leanDeg: [],
  floor: level(0),
  top: level(300),
  steps: [],
  ...given,
});

/** What lies left of a line through a point, of a polygon. */
const cut = (points: readonly Vec2[], leftOf: (p: Vec2) => number): Vec2[] =>
  points.flatMap((a, i) => {
    const b = points[(i + 1) % points.length] as Vec2;
    const [u, v] = [leftOf(a), leftOf(b)];
    const crossing: Vec2[] =
      u >= 0 === v >= 0
        ? []
        : [[a[0] + (u / (u - v)) * (b[0] - a[0]), a[1] + (u / (u - v)) * (b[1] - a[1])]];
    return [...(u >= 0 ? [a] : []), ...crossing];
  });
const areaOf = (points: readonly Vec2[]): number =>
  points.reduce((sum, [x, y], i) => {
    const [nx, ny] = points[(i + 1) % points.length] as Vec2;
    return sum + (x * ny - nx * y) / 2;
  }, 0);

/** Section of a room at a height, by half planes of the plan alone: its sides, floor and top there. */
const sectionAt = ({ corners, outlineAtMm, leanDeg, floor, top }: Room, z: number): number => {
  const fall = ({ heightMm, alongX, alongY }: Room['floor'], [x, y]: Vec2): number =>
    heightMm + alongX * x + alongY * y;
  const isPlumb = leanDeg.every((deg) => deg === 0);
  let points: Vec2[] = isPlumb
    ? [...corners]
    : rectangle(4000, 4000).map(([x, y]): Vec2 => [x - 1500, y - 1500]);
  if (!isPlumb)
    for (const [i, [x, y]] of corners.entries()) {
      const [nx, ny] = corners[(i + 1) % corners.length] as Vec2;
      const size = Math.hypot(nx - x, ny - y);
      const out = (z - outlineAtMm) * Math.tan(((leanDeg[i] as number) * Math.PI) / 180);
      points = cut(points, ([px, py]) => ((nx - x) * (py - y) - (ny - y) * (px - x)) / size + out);
    }
  return areaOf(
    cut(
      cut(points, (p) => z - fall(floor, p)),
      (p) => fall(top, p) - z,
    ),
  );
};

/**
 * Volume up to a level: between the heights of two neighbouring corners a section is a quadratic in
 * the height, for which Simpson's rule, the prismoidal formula h (A0 + 4 Am + A1) / 6 of any
 * engineer's handbook, is exact.
 */
const prismoids = (from: Room, to: number): number => {
  const heights = [...new Set(bodyOfRoom(from).flatMap(({ points }) => points.map((p) => p[2])))];
  const stops = [...heights.filter((h) => h < to), to].sort((a, b) => a - b);
  return stops.slice(1).reduce((sum, high, i) => {
    const low = stops[i] as number;
    if (high - low < 1e-6) return sum;
    // A step in from both ends: a section that only touches an edge there is of neither side.
    const at = (share: number): number => sectionAt(from, low + (high - low) * share);
    const tiny = 1e-9;
    return sum + ((high - low) / 6) * (at(tiny) + 4 * at(0.5) + at(1 - tiny));
  }, 0);
};

describe('the volume below a level', () => {
  test('is that of box, wedge, frustum and cut corner by their formulas', () => {
    const below = (given: Partial<Room>, at: number): number =>
      volumeBelowMm3(bodyOfRoom(room(given)), levelAt(at));
    expect(below({}, 100)).toBeCloseTo(600 * 400 * 100, 4);
    // A floor that rises 120 over 600: wet so far as the level reaches up it, a triangle.
    const wedge = { floor: { heightMm: 0, alongX: 0.2, alongY: 0 } };
    expect(below(wedge, 60)).toBeCloseTo((60 * 300 * 400) / 2, 4);
    expect(below(wedge, 300)).toBeCloseTo(((300 + 180) / 2) * 600 * 400, 4);
    // A floor that falls two ways, up to its highest corner: a prism below the mean of its corners.
    const both = { floor: { heightMm: 0, alongX: 0.1, alongY: 0.2 } };
    expect(below(both, 200)).toBeCloseTo(600 * 400 * (200 - (0 + 60 + 140 + 80) / 4), 4);
    // Below the lowest two corners a pyramid: level 40 cuts 400 along x and 200 along y.
    expect(below(both, 40)).toBeCloseTo((40 * ((400 * 200) / 2)) / 3, 4);
    // All sides lean outwards: a frustum, h (A + sqrt(A B) + B) / 3 for similar ends.
    const out = 200 * Math.tan((5 * Math.PI) / 180);
    const square = { corners: rectangle(400, 400), leanDeg: [5, 5, 5, 5] };
    const [a, b] = [400 ** 2, (400 + 2 * out) ** 2];
    expect(below(square, 200)).toBeCloseTo((200 * (a + Math.sqrt(a * b) + b)) / 3, 3);
    const corner: Vec2[] = [
      [0, 0],
      [600, 0],
      [600, 320],
      [520, 400],
      [0, 400],
    ];
    expect(below({ corners: corner }, 300)).toBeCloseTo((600 * 400 - (80 * 80) / 2) * 300, 4);
  });

  test('is that of its sections by the prismoidal formula, in any room', () => {
    let worst = 0;
    fc.assert(
      fc.property(anyRoom, fc.integer({ min: 2, max: 100 }), (any, percent) => {
        const body = bodyOfRoom(any);
        const whole = volumeMm3(body);
        const heights = body.flatMap(({ points }) => points.map((p) => p[2]));
        const [low, high] = [Math.min(...heights), Math.max(...heights)];
        const at = low + ((high - low) * percent) / 100;
        const off = Math.abs(volumeBelowMm3(body, levelAt(at)) - prismoids(any, at)) / whole;
        expect(off).toBeLessThan(1e-6);
        worst = Math.max(worst, off);
        const held = volumeBelowMm3(body, levelAt(at));
        expect(volumeBelowMm3(body, levelAt(levelOfMm(body, held))) / whole).toBeCloseTo(
          held / whole,
          12,
        );
      }),
      { numRuns: fuzzRuns(900, 30) },
    );
    expect(worst).toBeLessThan(1e-6);
  });

  test('is more when a tank leans towards its pick-up, by the wedge', () => {
    const shape = shapeOf(planesOf(room({}), 0));
    const box = { body: bodyOf(shape), planes: shape.planes };
    // The pick-up in the left wall, 10 up: level, 10 x 600 x 400; the left side down by 5 degrees, a
    // wedge of 10 / tan 5 along.
    expect(litresTilted(box, [0, 200, 10], 0, [-1, 0])).toBeCloseTo(2.4, 9);
    const along = 10 / Math.tan((5 * Math.PI) / 180);
    expect(litresTilted(box, [0, 200, 10], 5, [-1, 0])).toBeCloseTo(
      (10 * along * 400) / 2 / 1e6,
      9,
    );
    // The right side down: 10 at the left and more towards the right.
    const deep = 10 + 600 * Math.tan((5 * Math.PI) / 180);
    expect(litresTilted(box, [0, 200, 10], 5, [1, 0])).toBeCloseTo(
      (((10 + deep) / 2) * 600 * 400) / 1e6,
      9,
    );
  });

  test('a plumb line meets floor and top where they are', () => {
    const body = bodyOfRoom(room({ floor: { heightMm: 5, alongX: 0.01, alongY: 0.02 } }));
    expect(rodAt(body, [100, 50])).toEqual({
      lowMm: expect.closeTo(7, 9) as number,
      highMm: expect.closeTo(300, 9) as number,
    });
    expect(rodAt(body, [700, 50])).toBeUndefined();
  });
});

describe('a plane through heights', () => {
  test('goes through three, and between four by least squares', () => {
    const at = (x: number, y: number, heightMm: number) => ({
      at: [x, y] as const,
      heightMm,
      called: '',
    });
    const three = planeThrough([at(0, 0, 1), at(100, 0, 3), at(0, 200, 7)]);
    expect(three?.fall).toEqual({
      heightMm: expect.closeTo(1, 12) as number,
      alongX: expect.closeTo(0.02, 12) as number,
      alongY: expect.closeTo(0.03, 12) as number,
    });
    expect(three?.offMm.every((mm) => Math.abs(mm) < 1e-12)).toBe(true);
    // Of four corners of a rectangle, one 4 too high: each is a quarter of that off, in turns.
    const four = planeThrough([at(0, 0, 0), at(100, 0, 0), at(100, 50, 4), at(0, 50, 0)]);
    expect(four?.offMm.map((mm) => Number(mm.toFixed(9)))).toEqual([-1, 1, -1, 1]);
    expect(planeThrough([at(0, 0, 0), at(100, 0, 0)])).toBeUndefined();
    expect(planeThrough([at(0, 0, 0), at(100, 50, 1), at(200, 100, 5)])).toBeUndefined();
  });
});

describe('two unlike tanks that are linked', () => {
  const drawn = room({ floor: { heightMm: -20, alongX: 0.05, alongY: 0.02 } });
  const other = room({
    corners: [
      [0, 0],
      [400, 0],
      [400, 200],
      [340, 260],
      [0, 260],
    ],
    floor: { heightMm: 10, alongX: 0.03, alongY: -0.02 },
    top: level(270),
  });
  const [mine, theirs] = [bodyOfRoom(drawn), bodyOfRoom(other)];
  const pair = {
    drawn: (at: number): number => litresBelow(mine, at),
    other: (at: number): number => litresBelow(theirs, at),
    kept: (at: number): number => litresBelow(theirs, at),
    pipeMm: 45,
  };

  /** Litres held below levels a tenth of a millimetre apart, by columns of 5 x 5 mm. */
  const columns = ({ corners, floor, top }: Room): ((z: number) => number) => {
    const inside = (x: number, y: number): boolean =>
      corners.every(([ax, ay], i) => {
        const [bx, by] = corners[(i + 1) % corners.length] as Vec2;
        return (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0;
      });
    const floors: number[] = [];
    for (let x = 2.5; x < 700; x += 5)
      for (let y = 2.5; y < 500; y += 5)
        if (inside(x, y)) floors.push(floor.heightMm + floor.alongX * x + floor.alongY * y);
    return (z) =>
      floors.reduce((sum, f) => sum + 25 * Math.max(0, Math.min(z, top.heightMm) - f), 0) / 1e6;
  };
  const levelIn = (held: (z: number) => number, litres: number): number => {
    let [low, high] = [-60, 400];
    while (high - low > 0.02) {
      const middle = (low + high) / 2;
      if (held(middle) < litres) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };

  test('stand as they do when one is drained a little at a time and the other runs after it', () => {
    const [a, b] = [columns(drawn), columns(other)];
    let [inA, inB] = [a(240), b(240)];
    expect(inA + inB).toBeCloseTo(pairLitres(pair, 240), 1);
    for (const to of [150, 60, 30, 5]) {
      for (;;) {
        const [zA, zB] = [levelIn(a, inA), levelIn(b, inB)];
        if (zA <= to && zB - Math.max(zA, pair.pipeMm) < 0.3) break;
        // What runs over in a moment grows with the head over the pipe or over the other level.
        const over = Math.max(0, zB - Math.max(zA, pair.pipeMm)) * 0.012;
        inB -= over;
        inA += over;
        if (zA > to) inA -= Math.min(0.2, 0.04 + (zA - to) * 0.02);
      }
      expect(inA + inB).toBeCloseTo(pairLitres(pair, to), 0);
      expect(inB).toBeCloseTo(leftBehind(pair, to), 0);
    }
  });

  test('have the level of what they hold together, and keep below the pipe what does not run over', () => {
    for (const to of [-5, 20, 45, 100, 250])
      expect(pairLevel(pair, pairLitres(pair, to), [-20, 300])).toBeCloseTo(to, 6);
    expect(leftBehind(pair, 5)).toBe(litresBelow(theirs, 45));
    expect(pairLitres(pair, 100)).toBeCloseTo(litresBelow(mine, 100) + litresBelow(theirs, 100), 9);
  });
});
