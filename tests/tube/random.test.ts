import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Vec3 } from '../../src/geometry/vec3.ts';
import { type BarAsk, barPlan } from '../../src/tube/bar-plan.ts';
import { type BendSheet, bendSheet, NO_WASTE } from '../../src/tube/bend-sheet.ts';
import { MOST_TURN_DEG, STRAIGHT_ON_DEG, tubeLegs } from '../../src/tube/centre-line.ts';
import { legPoints } from '../../src/tube/described.ts';
import { endErrors } from '../../src/tube/end-errors.ts';
import { type BenderNeeds, pullOrder } from '../../src/tube/pull-order.ts';
import { walkedBackText, walkedOffMm, walkedTube } from '../../src/tube/walk.ts';
import { fuzzRuns } from '../helpers/extent.ts';

const coordinate = fc.double({ min: -2000, max: 2000, noNaN: true });
const place = fc.tuple(coordinate, coordinate, coordinate);
const places = fc.array(place, { minLength: 2, maxLength: 9 });
const springback = fc.record({
  fixedDeg: fc.double({ min: 0, max: 4, noNaN: true }),
  share: fc.double({ min: 0, max: 0.1, noNaN: true }),
});
const bending = fc.record({
  formerMm: fc.double({ min: 10, max: 300, noNaN: true }),
  springback,
  isMeasured: fc.boolean(),
});

describe('random tubes', () => {
  test('the sheet walked back comes to the points, whatever the bender', () => {
    fc.assert(
      fc.property(places, bending, (points, by) => {
        const legs = tubeLegs(points);
        if ('why' in legs) return;
        const sheet = bendSheet(legs, by, NO_WASTE);
        const asked = [legs.ends[0], ...legs.corners.map((c) => c.at), legs.ends[1]];
        expect(walkedOffMm(asked, walkedTube(sheet).points)).toBeLessThan(1e-6);
        const sum = [...sheet.straightsMm, ...sheet.bends.map((b) => b.arcMm)];
        expect(sheet.cutLengthMm).toBeCloseTo(
          sum.reduce((a, b) => a + b, 0),
          6,
        );
      }),
      { numRuns: fuzzRuns(3000) },
    );
  });

  test('a wrong figure in the sheet is seen by the walk', () => {
    const points: readonly Vec3[] = [
      [0, 0, 0],
      [400, 0, 0],
      [400, 300, 0],
      [400, 300, 350],
    ];
    const legs = tubeLegs(points);
    if ('why' in legs) throw new Error(legs.why);
    const sheet = bendSheet(
      legs,
      { formerMm: 60, springback: { fixedDeg: 1, share: 0.02 }, isMeasured: true },
      NO_WASTE,
    );
    const off = (changed: Partial<BendSheet['bends'][number]>, at: number): number =>
      walkedOffMm(
        points,
        walkedTube({
          ...sheet,
          bends: sheet.bends.map((b, i) => (i === at ? { ...b, ...changed } : b)),
        }).points,
      );
    expect(off({}, 0)).toBeLessThan(1e-9);
    expect(off({ angleDeg: 89.9 }, 0)).toBeGreaterThan(0.3);
    expect(off({ rotateDeg: -90 }, 1)).toBeGreaterThan(100);
    expect(off({ radiusMm: 61 }, 1)).toBeGreaterThan(0.3);
  });

  test('what the walk found is told by what it means at the bench', () => {
    expect(walkedBackText(3e-13)).toBe('walked back, the sheet meets every point asked');
    expect(walkedBackText(4.9e-4)).toBe('walked back, the sheet meets every point asked');
    expect(walkedBackText(0.0121)).toBe(
      'walked back, the sheet is within 0.013 mm of every point asked',
    );
    expect(walkedBackText(5e-4)).toContain('within 0.001 mm');
  });

  test('legs, angles and rotations come back out of their points', () => {
    const turn = fc.record({
      angleDeg: fc.double({ min: 1, max: 170, noNaN: true }),
      rotateDeg: fc.double({ min: -179, max: 180, noNaN: true }),
      legMm: fc.double({ min: 5, max: 2000, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(turn, { minLength: 1, maxLength: 8 }), (turns) => {
        const legs = tubeLegs(legPoints(500, turns));
        if ('why' in legs) throw new Error(legs.why);
        legs.corners.forEach(({ angleDeg, rotateDeg }, i) => {
          const { angleDeg: angle, rotateDeg: rotate, legMm } = turns[i] as (typeof turns)[number];
          expect(angleDeg).toBeCloseTo(angle, 6);
          if (i > 0) expect(Math.abs(((rotateDeg - rotate + 540) % 360) - 180)).toBeLessThan(1e-5);
          expect(legs.legsMm[i + 1]).toBeCloseTo(legMm, 6);
        });
      }),
      { numRuns: fuzzRuns(1000) },
    );
  });

  test('the derivatives are those of the walk, errors one at a time', () => {
    const points: readonly Vec3[] = [
      [0, 0, 0],
      [420, 35, -60],
      [700, 260, 40],
      [980, 240, 390],
      [1250, -60, 420],
    ];
    const legs = tubeLegs(points);
    if ('why' in legs) throw new Error(legs.why);
    const sheet = bendSheet(
      legs,
      { formerMm: 60, springback: { fixedDeg: 0, share: 0 }, isMeasured: false },
      NO_WASTE,
    );
    const end = (s: Pick<BendSheet, 'bends' | 'straightsMm'>): Vec3 =>
      walkedTube(s).points.at(-1) as Vec3;
    const moved = (s: Pick<BendSheet, 'bends' | 'straightsMm'>): number =>
      Math.hypot(...end(s).map((v, k) => v - (end(sheet)[k] as number)));
    const step = 1e-4;
    const { shares, worst } = endErrors(points, sheet, {
      angleDeg: step,
      rotateDeg: step,
      markMm: step,
    });
    const changed = (i: number, by: Partial<Record<'angleDeg' | 'rotateDeg', number>>) =>
      sheet.bends.map((b, k) =>
        k === i
          ? {
              ...b,
              angleDeg: b.angleDeg + (by.angleDeg ?? 0),
              rotateDeg: b.rotateDeg + (by.rotateDeg ?? 0),
            }
          : b,
      );
    const straights = (...by: readonly (readonly [number, number])[]) =>
      sheet.straightsMm.map((mm, k) => mm + (by.find(([at]) => at === k)?.[1] ?? 0));
    const close = (a: number, b: number): void => {
      expect(Math.abs(a - b)).toBeLessThan(1e-5 * Math.max(a, b) + 1e-9);
    };
    shares.forEach((share, i) => {
      // The arc that grows is taken from the straight behind it: the tube is as long as it was.
      const grown = ((step * Math.PI) / 180) * (sheet.bends[i]?.radiusMm ?? 0);
      close(
        share.angleMm,
        moved({ bends: changed(i, { angleDeg: step }), straightsMm: straights([i + 1, -grown]) }),
      );
      if (i > 0)
        close(
          share.rotateMm,
          moved({ bends: changed(i, { rotateDeg: step }), straightsMm: sheet.straightsMm }),
        );
      close(
        share.markMm,
        moved({ bends: sheet.bends, straightsMm: straights([i, step], [i + 1, -step]) }),
      );
    });
    const squares = shares.map((s) => s.angleMm ** 2 + s.rotateMm ** 2 + s.markMm ** 2);
    expect(worst).toBe(squares.indexOf(Math.max(...squares)));
  });

  test('a thousand bends are laid out, walked and put in order at once', () => {
    const turns = Array.from({ length: 1000 }, (_, i) => ({
      angleDeg: 20 + (i % 70),
      rotateDeg: (i * 37) % 180,
      legMm: 200,
    }));
    const points = legPoints(300, turns);
    const legs = tubeLegs(points);
    if ('why' in legs) throw new Error(legs.why);
    const sheet = bendSheet(
      legs,
      { formerMm: 40, springback: { fixedDeg: 1, share: 0.02 }, isMeasured: true },
      NO_WASTE,
    );
    expect(sheet.bends).toHaveLength(1000);
    expect(walkedOffMm(points, walkedTube(sheet).points)).toBeLessThan(1e-6);
    expect(pullOrder(sheet, { clampMm: 80, followerMm: 200 }).pulls).toHaveLength(1000);
  });
});

describe('points that are no tube', () => {
  test.each<[string, readonly Vec3[], string, readonly number[]]>([
    ['none', [], 'too few', []],
    ['one', [[1, 2, 3]], 'too few', []],
    [
      'two in one place',
      [
        [0, 0, 0],
        [10, 0, 0],
        [10, 0, 0],
        [10, 10, 0],
      ],
      'same place',
      [1, 2],
    ],
    [
      'one that turns back',
      [
        [0, 0, 0],
        [100, 0, 0],
        [20, 0, 0],
      ],
      'turns back',
      [1],
    ],
  ])('%s', (_, points, why, at) => {
    expect(tubeLegs(points)).toEqual({ why, points: at });
  });

  test('points in a line are no corners, and are told', () => {
    const legs = tubeLegs([
      [0, 0, 0],
      [100, 0, 0],
      [200, 0, 0],
      [200, 100, 0],
      [200, 250, 0],
    ]);
    if ('why' in legs) throw new Error(legs.why);
    expect(legs.straightOn).toEqual([1, 3]);
    expect(legs.corners.map((c) => c.point)).toEqual([2]);
    expect(legs.legsMm).toEqual([200, 250]);
    expect([STRAIGHT_ON_DEG, MOST_TURN_DEG]).toEqual([0.01, 179]);
  });
});

/** What clamp and follower are short of in all, the least over all orders and both ends. */
const leastShort = (
  { bends, straightsMm }: BendSheet,
  { clampMm, followerMm }: BenderNeeds,
): number => {
  const room = (bend: number, step: 1 | -1, bent: ReadonlySet<number>): number | undefined => {
    let mm = 0;
    for (let i = bend; ; i += step) {
      mm += straightsMm[step < 0 ? i : i + 1] as number;
      if (bends[i + step] === undefined) return undefined;
      if (bent.has(i + step)) return mm;
      mm += (bends[i + step] as BendSheet['bends'][number]).arcMm;
    }
  };
  const search = (bent: ReadonlySet<number>): number =>
    bent.size === bends.length
      ? 0
      : Math.min(
          ...bends.flatMap((_, i) =>
            bent.has(i)
              ? []
              : (
                  [
                    [clampMm, followerMm],
                    [followerMm, clampMm],
                  ] as const
                ).map(([before, behind]) => {
                  const short = (need: number, have: number | undefined): number =>
                    have === undefined ? 0 : Math.max(0, need - have);
                  return (
                    short(before, room(i, -1, bent)) +
                    short(behind, room(i, 1, bent)) +
                    search(new Set([...bent, i]))
                  );
                }),
          ),
        );
  return search(new Set());
};

describe('the order of bends', () => {
  const straights = fc.array(fc.integer({ min: 5, max: 300 }), { minLength: 2, maxLength: 5 });
  test('is short of straight tube by no more than the best of all orders', () => {
    fc.assert(
      fc.property(
        straights,
        fc.integer({ min: 20, max: 200 }),
        fc.integer({ min: 20, max: 200 }),
        (straightsMm, clampMm, followerMm) => {
          const bends = straightsMm
            .slice(1)
            .map(() => ({ arcMm: 400 }) as BendSheet['bends'][number]);
          const sheet = { bends, straightsMm } as unknown as BendSheet;
          const { pulls } = pullOrder(sheet, { clampMm, followerMm });
          const short = pulls.reduce((sum, p) => sum + p.clampShortMm + p.followerShortMm, 0);
          expect(pulls.map((p) => p.bend).toSorted((a, b) => a - b)).toEqual(
            bends.map((_, i) => i),
          );
          expect(short).toBe(leastShort(sheet, { clampMm, followerMm }));
        },
      ),
      { numRuns: fuzzRuns(300) },
    );
  });

  test('where a short straight has no room for the clamp, the bend behind it is made first', () => {
    const bend = { arcMm: 100 } as BendSheet['bends'][number];
    const sheet = { bends: [bend, bend], straightsMm: [500, 60, 500] } as unknown as BendSheet;
    const { pulls, gripMm } = pullOrder(sheet, { clampMm: 100, followerMm: 50 });
    expect(pulls.flatMap((p) => [p.clampShortMm, p.followerShortMm])).toEqual([0, 0, 0, 0]);
    expect(pulls.map(({ bend: i, clampAt }) => [i, clampAt])).toEqual([
      [1, 'lead'],
      [0, 'lead'],
    ]);
    expect(gripMm).toEqual({ lead: 0, tail: 0 });
  });

  test('what the ends are short of is left on', () => {
    const bend = { arcMm: 100 } as BendSheet['bends'][number];
    const sheet = { bends: [bend], straightsMm: [40, 130] } as unknown as BendSheet;
    expect(pullOrder(sheet, { clampMm: 100, followerMm: 150 }).gripMm).toEqual({
      lead: 60,
      tail: 20,
    });
  });
});

/** The least length of bars, found by trying every partition and every length of bar for each part. */
const leastBars = ({ piecesMm, barsMm, kerfMm }: BarAsk): number => {
  const search = (left: readonly number[], open: readonly (readonly number[])[]): number => {
    const [piece, ...rest] = left;
    if (piece === undefined)
      return open.reduce((sum, bar) => {
        const needed = bar.reduce((a, b) => a + b, 0) + kerfMm * (bar.length - 1);
        const fitting = barsMm.filter((mm) => mm >= needed);
        return sum + (fitting.length === 0 ? Infinity : Math.min(...fitting));
      }, 0);
    return Math.min(
      search(rest, [...open, [piece]]),
      ...open.map((bar, i) =>
        search(
          rest,
          open.map((b, k) => (k === i ? [...bar, piece] : b)),
        ),
      ),
    );
  };
  return search(piecesMm, []);
};

describe('tube laid on bars', () => {
  const ask = fc.record({
    piecesMm: fc.array(fc.integer({ min: 50, max: 900 }), { minLength: 1, maxLength: 7 }),
    barsMm: fc.array(fc.integer({ min: 900, max: 2000 }), { minLength: 1, maxLength: 3 }),
    kerfMm: fc.integer({ min: 0, max: 5 }),
  });
  test('takes the least length of bars: held to every way there is', () => {
    fc.assert(
      fc.property(ask, (given) => {
        const { bars, tooLong, isBest } = barPlan(given);
        expect(isBest).toBe(true);
        expect(tooLong).toEqual([]);
        expect(bars.flatMap((b) => b.pieces).toSorted((a, b) => a - b)).toEqual(
          given.piecesMm.map((_, i) => i),
        );
        for (const { barMm, pieces, leftMm } of bars) {
          expect(given.barsMm).toContain(barMm);
          const used =
            pieces.reduce((sum, i) => sum + (given.piecesMm[i] as number), 0) +
            given.kerfMm * (pieces.length - 1);
          expect(used).toBeLessThanOrEqual(barMm);
          expect(leftMm).toBeCloseTo(Math.max(0, barMm - used - given.kerfMm), 6);
        }
        expect(bars.reduce((sum, b) => sum + b.barMm, 0)).toBe(leastBars(given));
      }),
      { numRuns: fuzzRuns(300) },
    );
  });

  test('a piece that takes the whole bar needs no cut; a longer one is told', () => {
    expect(barPlan({ piecesMm: [6000, 6001], barsMm: [6000], kerfMm: 3 })).toEqual({
      bars: [{ barMm: 6000, pieces: [0], leftMm: 0 }],
      tooLong: [1],
      isBest: true,
    });
    expect(barPlan({ piecesMm: [], barsMm: [6000], kerfMm: 3 }).bars).toEqual([]);
    expect(barPlan({ piecesMm: [10], barsMm: [], kerfMm: 3 }).tooLong).toEqual([0]);
  });

  test('a day of forty pieces is planned, as good as it says', () => {
    const piecesMm = Array.from({ length: 40 }, (_, i) => 300 + ((i * 613) % 1900));
    const { bars, tooLong } = barPlan({ piecesMm, barsMm: [6000], kerfMm: 2 });
    const metal = piecesMm.reduce((a, b) => a + b, 0);
    expect(tooLong).toEqual([]);
    expect(bars.length).toBeLessThanOrEqual(Math.ceil((metal + 2 * 40) / 6000) + 1);
  });
});
