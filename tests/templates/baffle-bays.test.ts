import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bayLitres, baySpacing } from '../../templates/baffle/bays.ts';
import { make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { published } from '../helpers/published.ts';
import { reportOf } from '../helpers/report-of.ts';

/** By hand with K = 0.42, 2 mm, inside radius 2. */
const BY_HAND = {
  width: 400,
  height: 300,
  material: 's235',
  thickness: 2,
  radius: 2,
  rule: 'k:0.42',
};

describe('bays', () => {
  test('904 is three bays of 300 and two baffles of 2', () => {
    expect(baySpacing(904, 300, 2)).toEqual({
      count: 2,
      bayMm: 300,
      stationsMm: [300, 602],
      thicknessMm: 2,
    });
    expect(baySpacing(904.1, 300, 2).count).toBe(3);
    expect(baySpacing(300, 300, 2)).toMatchObject({ count: 0, bayMm: 300 });
  });

  test('are the fewest and no longer than asked, and fill the tank with the baffles', () => {
    const mm = fc.integer({ min: 1, max: 40_000 }).map((n) => n / 10);
    fc.assert(
      fc.property(
        mm,
        fc.integer({ min: 200, max: 20_000 }),
        fc.constantFrom(0.8, 1.5, 2, 3),
        (length, tenths, t) => {
          const longest = tenths / 10;
          const { count, bayMm, stationsMm } = baySpacing(length, longest, t);
          expect(bayMm).toBeLessThanOrEqual(longest + 1e-6);
          if (count > 0) expect((length - (count - 1) * t) / count).toBeGreaterThan(longest);
          expect((count + 1) * bayMm + count * t).toBeCloseTo(length, 6);
          expect(stationsMm).toHaveLength(count);
          if (count > 0) expect((stationsMm.at(-1) ?? NaN) + t + bayMm).toBeCloseTo(length, 6);
        },
      ),
    );
  });

  test('a tank 600 x 400 x 300 holds 72 litres', () => {
    const { given, expect: told, tolerance } = published('tank', 'v1');
    const [length, width, depth] = given['box_mm'] as [number, number, number];
    const [litres] = bayLitres(baySpacing(length, length, 2), () => width * depth);
    expect(Math.abs((litres ?? NaN) - (told['litres'] as number))).toBeLessThanOrEqual(tolerance);
  });

  test('a tank that is one bay by itself is told that it needs no baffle, and gets one in the middle', async () => {
    const [needless] = await make('baffle', { ...BY_HAND, tankLength: 400, longestBay: 400 });
    expect(rulesOf(needless, 'warn')).toContain('no-baffle-needed');
    expect(
      (
        await reportOf('baffle', { ...BY_HAND, tankLength: 400, longestBay: 400 })
      ).tables[0]?.rows.map((r) => r.slice(0, 2)),
    ).toEqual([[1, 199]]);
    expect(
      rulesOf(
        (await make('baffle', { ...BY_HAND, tankLength: 400.1, longestBay: 400 }))[0],
        'warn',
      ),
    ).not.toContain('no-baffle-needed');
  });

  test('a box of 904 is reported as 36 litres a bay, two off', async () => {
    const inputs = { ...BY_HAND, tankLength: 904, longestBay: 300 };
    const report = await reportOf('baffle', inputs);
    expect(report.tables[0]?.rows.map((r) => r.slice(0, 2))).toEqual([
      [1, 300],
      [2, 602],
    ]);
    expect(report.tables[1]?.rows).toEqual(
      [
        [1, 0, 300, 36],
        [2, 302, 300, 36],
        [3, 604, 300, 36],
      ].map((r) => r.map((n) => expect.closeTo(n, 9))),
    );
    expect((await make('baffle', inputs)).map((p) => p.result.quantity)).toEqual([2]);
  });
});

describe('a wedge, 300 deep and 200 at the other end of its 800', () => {
  const WEDGE = { ...BY_HAND, heightShallow: 200, tankLength: 800, longestBay: 400 };

  test('one baffle, measured at its face away from the deep end', async () => {
    // One baffle leaves 399 on either side; its other face stands at 401, where 300 has become 300
    // - 401 / 8.
    const report = await reportOf('baffle', WEDGE);
    expect(report.tables[0]?.rows[0]?.slice(0, 4)).toEqual(
      [1, 399, 249.875, 249.875].map((n) => expect.closeTo(n, 9)),
    );
    // Mean depths 275.0625 and 224.9375.
    expect(report.tables[1]?.rows.map((r) => r[3])).toEqual(
      [43.899975, 35.900025].map((n) => expect.closeTo(n, 9)),
    );
    const { blank, result } = await makeOne('baffle', WEDGE);
    const floor = result.bends.find((b) => b.id === 'A');
    // The floor falls 1 in 8, so 90 - 7.125016; its setback 4 tan(41.4375) = 3.53113 and its
    // allowance 4.10790.
    expect(floor?.angleDeg).toBeCloseTo(82.874984, 6);
    // The clearance square to the floor is sqrt(1 + 1 / 64) of upright.
    expect(blank.heightMm).toBeCloseTo(249.875 - 1 - 1.0077822 + 4.1079 + 20 - 2 * 3.53113, 3);
  });

  test('what stops the shallowest baffle is told of that one alone', async () => {
    // ceil((1500 - 300) / 302) is four baffles.
    const [part, ...more] = await make('baffle', {
      ...WEDGE,
      heightShallow: 50,
      tankLength: 1500,
      longestBay: 300,
      holeCount: 9,
      holeDiameter: 50,
    });
    expect(more).toEqual([]);
    expect(
      part?.result.findings
        .filter((f) => f.severity === 'stop')
        .map((f) => f.message.split(':')[0]),
    ).toEqual(['Baffle 4 from the deep end']);
    expect(part?.files()).toEqual([]);
  });

  test('each baffle has its own depth, and a name of its own', async () => {
    const parts = await make('baffle', { ...WEDGE, name: 'wedge', longestBay: 200 });
    // Four bays less three baffles: 198.5; depths 300 - 200.5 / 8 and 25.0625 less each time.
    expect(parts.map((p) => [p.result.name, p.result.quantity])).toEqual([
      ['wedge-plate-1', 1],
      ['wedge-plate-2', 1],
      ['wedge-plate-3', 1],
    ]);
    const heights = parts.map((p) => p.result.blank?.heightMm ?? NaN);
    expect([1, 2].map((i) => (heights[i - 1] ?? NaN) - (heights[i] ?? NaN))).toEqual(
      [25.0625, 25.0625].map((n) => expect.closeTo(n, 6)),
    );
  });
});
