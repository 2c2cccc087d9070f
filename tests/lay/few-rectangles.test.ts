import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Corner,
  type FewRectangle,
  layFew,
  type Room,
} from '../../src/lay/sheets/few-rectangles.ts';
import { fuzzRuns } from '../helpers/extent.ts';

const rectangles = (...sizes: readonly (readonly [number, number])[]): FewRectangle[] =>
  sizes.map(([length, width]) => ({ length, width, mayTurn: true, rooms: [0, 1] }));

/** Whether whole-numbered rectangles go into whole-numbered rooms, tried in every place there is. */
const bruteForce = (all: readonly FewRectangle[], rooms: readonly Room[]): boolean => {
  const grids = rooms.map(({ length, width }) => new Uint8Array(length * width));
  const put = (n: number): boolean => {
    const one = all[n];
    if (one === undefined) return true;
    for (const r of one.rooms)
      for (const [long, high] of one.mayTurn
        ? [
            [one.length, one.width],
            [one.width, one.length],
          ]
        : [[one.length, one.width]]) {
        const { length, width } = rooms[r] as Room;
        const grid = grids[r] as Uint8Array;
        for (let x = 0; x + (long as number) <= length; x++)
          for (let y = 0; y + (high as number) <= width; y++) {
            const cells = Array.from({ length: (long as number) * (high as number) }, (_, c) => {
              const [dx, dy] = [c % (long as number), Math.floor(c / (long as number))];
              return (y + dy) * length + x + dx;
            });
            if (cells.some((c) => grid[c] === 1)) continue;
            for (const c of cells) grid[c] = 1;
            if (put(n + 1)) return true;
            for (const c of cells) grid[c] = 0;
          }
      }
    return false;
  };
  return put(0);
};

const expectApart = (
  all: readonly FewRectangle[],
  rooms: readonly Room[],
  corners: readonly Corner[],
): void => {
  const boxes = corners.map(({ room, x, y, isTurned }, i) => {
    const { length, width, rooms: allowed, mayTurn } = all[i] as FewRectangle;
    expect(allowed).toContain(room);
    if (!mayTurn) expect(isTurned).toBe(false);
    const [long, high] = isTurned ? [width, length] : [length, width];
    return { room, x, y, endX: x + long, endY: y + high };
  });
  boxes.forEach((a, i) => {
    const { length, width } = rooms[a.room] as Room;
    expect(Math.min(a.x, a.y)).toBeGreaterThanOrEqual(0);
    expect(a.endX).toBeLessThanOrEqual(length);
    expect(a.endY).toBeLessThanOrEqual(width);
    for (const b of boxes.slice(i + 1))
      expect(
        a.room !== b.room || a.endX <= b.x || b.endX <= a.x || a.endY <= b.y || b.endY <= a.y,
      ).toBe(true);
  });
};

describe('a few rectangles, decided exactly', () => {
  test('what is decided is what trying every place says', () => {
    const side = (most: number) => fc.integer({ min: 1, max: most });
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            length: side(4),
            width: side(4),
            mayTurn: fc.boolean(),
            rooms: fc.constantFrom([0], [1], [0, 1]),
          }),
          { minLength: 1, maxLength: 5 },
        ),
        fc.tuple(
          fc.record({ length: side(6), width: side(5) }),
          fc.record({ length: side(4), width: side(4) }),
        ),
        (all, rooms) => {
          const answer = layFew(all, rooms, 1e6);
          if (bruteForce(all, rooms)) {
            expect(answer).not.toBe('no');
            expectApart(all, rooms, answer as readonly Corner[]);
          } else expect(answer).toBe('no');
        },
      ),
      { numRuns: fuzzRuns(300) },
    );
  });

  test('five rectangles round a middle, which no row of straight cuts takes apart', () => {
    // A pinwheel: 3 x 2 four times round 1 x 1 fills 5 x 5.
    const all = rectangles([3, 2], [3, 2], [3, 2], [3, 2], [1, 1]);
    const rooms = [{ length: 5, width: 5 }];
    const answer = layFew(
      all.map((r) => ({ ...r, rooms: [0] })),
      rooms,
      1e6,
    );
    expectApart(all, rooms, answer as readonly Corner[]);
  });

  test('it is left undecided when the steps are over', () => {
    const all = rectangles(...Array.from({ length: 8 }, (_, i) => [3 + i, 4] as const));
    expect(
      layFew(
        all,
        [
          { length: 17, width: 13 },
          { length: 1, width: 1 },
        ],
        50,
      ),
    ).toBe('not decided');
  });
});
