import { describe, expect, test } from 'vitest';
import { calibrate } from '../../src/calibrate/calibrate.ts';
import { fitBends, isFit } from '../../src/calibrate/fit.ts';
import type { MeasuredStrip } from '../../src/calibrate/strip.ts';
import { chiSquare99 } from '../../src/statistics/chi-square.ts';
import { foldedStrips, lostMm, type OwnBends } from '../helpers/folded-strips.ts';

const SHOPS: readonly OwnBends[] = [
  { k: 0.42, r: 3, t: 3 },
  { k: 0.42, r: 3, t: 1.5 },
  { k: 0.35, r: 1, t: 2 },
];
const MIX = [90, 90, 90, 45, 45, 120, 120, 120];
const WIDE = [30, 30, 60, 60, 90, 90, 120, 120, 150, 150];

type Verdict =
  'named' | 'named with others' | 'refused' | 'scatter told' | 'missed' | 'another named';

/** What becomes of one leg that was read wrong. */
const verdict = (strips: readonly MeasuredStrip[], at: number, by: number): Verdict => {
  const found = fitBends(strips.map((s, i) => (i === at ? { ...s, legAMm: s.legAMm + by } : s)));
  if (!isFit(found)) return 'refused';
  const names = found.outliers.map((o) => o.strip);
  if (names.includes(at + 1)) return names.length === 1 ? 'named' : 'named with others';
  if (found.unsure.flat().some((o) => o.strip === at + 1)) return 'named with others';
  if (names.length + found.unsure.length > 0) return 'another named';
  return found.isMisfit ? 'scatter told' : 'missed';
};

const countOf = (mix: readonly number[], withRadius: boolean, size: number) => {
  const count: Record<Verdict, number> = {
    named: 0,
    'named with others': 0,
    refused: 0,
    'scatter told': 0,
    missed: 0,
    'another named': 0,
  };
  let all = 0;
  for (const [i, own] of SHOPS.entries()) {
    for (let seed = 1; seed <= 8; seed += 1) {
      const strips = foldedStrips(own, mix, 7919 * seed + 101 * i, withRadius);
      for (const angle of new Set(mix)) {
        for (const by of [size, -size]) {
          count[verdict(strips, mix.indexOf(angle), by)] += 1;
          all += 1;
        }
      }
    }
  }
  return { ...count, all };
};

describe('one leg read wrong among strips measured as usual', () => {
  test.each([
    [MIX, true],
    [WIDE, true],
    [MIX, false],
    [WIDE, false],
  ] as const)('%j, radii read: %s', (mix, withRadius) => {
    for (const size of [2, 3, 5]) {
      const { named, missed, all, 'another named': wrong } = countOf(mix, withRadius, size);
      expect([size, missed, wrong]).toEqual([size, 0, 0]);
      expect(named / all).toBeGreaterThan(size === 2 ? 0.85 : 0.96);
    }
    const { named, missed, all, 'another named': wrong } = countOf(mix, withRadius, 1);
    expect(named / all).toBeGreaterThan(withRadius ? 0.6 : 0.4);
    expect((missed + wrong) / all).toBeLessThan(0.2);
  });

  test('strips measured as usual are seldom blamed', () => {
    let [blamed, all] = [0, 0];
    for (const [i, own] of SHOPS.entries()) {
      for (const mix of [MIX, WIDE]) {
        for (const withRadius of [true, false]) {
          for (let seed = 1; seed <= 30; seed += 1, all += 1) {
            const found = fitBends(foldedStrips(own, mix, 6007 * seed + 31 * i, withRadius));
            if (!isFit(found) || found.outliers.length + found.unsure.length > 0) blamed += 1;
          }
        }
      }
    }
    expect(blamed / all).toBeLessThan(0.03);
  });

  test('of several wrong ones each is named', () => {
    const strips = foldedStrips({ k: 0.42, r: 3, t: 3, noise: 0.3 }, [...WIDE, ...WIDE], 12, true);
    const bad = strips.map((s) =>
      s.number === 3
        ? { ...s, legAMm: s.legAMm + 2 }
        : s.number === 10
          ? { ...s, flatMm: s.flatMm + 3 }
          : s.number === 14
            ? { ...s, legBMm: s.legBMm - 4 }
            : s,
    );
    const found = fitBends(bad);
    expect(isFit(found) && found.outliers.map((o) => o.strip)).toEqual([3, 10, 14]);
  });

  test('two strips alike that contradict each other are both left out, and with too few beside them nothing is said', () => {
    const four = foldedStrips({ k: 0.42, r: 3, t: 3, noise: 0.1 }, [90, 90, 45, 120], 5, true).map(
      (s) => ({ ...s, ...(s.number === 1 && { legAMm: s.legAMm + 4 }) }),
    );
    const found = fitBends(four);
    expect(isFit(found) && found.outliers.map((o) => o.strip)).toEqual([1]);
    const three = foldedStrips({ k: 0.42, r: 3, t: 3, noise: 0.1 }, [90, 90, 45], 5).map((s) => ({
      ...s,
      ...(s.number === 1 && { legAMm: s.legAMm + 4 }),
    }));
    expect(fitBends(three)).toEqual({ why: 'contradiction', strips: [1, 2, 3] });
  });

  test('a radius that was misread does not spoil its legs', () => {
    const strips = foldedStrips({ k: 0.42, r: 3, t: 3, noise: 0.5 }, MIX, 3, true).map((s) =>
      s.number === 2 ? { ...s, insideRadiusMm: 5 } : s,
    );
    const found = fitBends(strips);
    if (!isFit(found)) throw new Error(found.why);
    expect(found.outliers).toMatchObject([{ strip: 2, of: 'radius' }]);
    expect(found.used).toBe(MIX.length);
    expect(found.kFactor.value).toBeCloseTo(0.42, 1);
  });

  test('an angle of the stop that was mistyped is named, and springback goes by the others', () => {
    const strips = foldedStrips({ k: 0.42, r: 3, t: 3, noise: 0 }, MIX, 3).map((s) => ({
      ...s,
      stopAtDeg: s.number === 6 ? 12.3 : s.angleDeg / 0.97,
    }));
    const found = fitBends(strips);
    if (!isFit(found)) throw new Error(found.why);
    expect(found.springback?.value).toBeCloseTo(0.97, 9);
    expect(found.outliers).toEqual([
      { strip: 6, of: 'stop', offMm: expect.closeTo(120 / 0.97 - 12.3, 6) },
    ]);
  });
});

const rulesOf = (strips: readonly MeasuredStrip[]) =>
  calibrate(strips).flatMap((lot) => lot.findings.map((f) => f.rule));
const messagesOf = (strips: readonly MeasuredStrip[]) =>
  calibrate(strips)
    .flatMap((lot) => lot.findings.map((f) => f.message))
    .join('\n');

describe('what is told', () => {
  test('how well a bend of 90 degrees is known: K and radius together, better than either', () => {
    const own = { k: 0.42, r: 3, t: 3 };
    let within = 0;
    for (let seed = 1; seed <= 200; seed += 1) {
      const found = fitBends(foldedStrips(own, MIX, 331 * seed));
      if (
        isFit(found) &&
        found.squareMm !== undefined &&
        Math.abs(found.squareMm.value - lostMm(90, own)) <= found.squareMm.within95
      )
        within += 1;
    }
    // 95 in 100 of 200 has a standard deviation of 3.
    expect(within).toBeGreaterThan(180);
    const slight = calibrate(foldedStrips({ ...own, noise: 0.5 }, [45, 45, 120, 120, 60], 8));
    expect(slight.flatMap((lot) => lot.findings.map((f) => f.rule))).toContain('square-unsure');
  });

  test('nothing of strips in order', () => {
    expect(rulesOf(foldedStrips({ k: 0.42, r: 3, t: 3, noise: 0.5 }, MIX, 7))).toEqual([]);
  });

  test('legs 76.77 and 78.86 of a strip that is folded in its middle', () => {
    const strips = foldedStrips({ k: 0.42, r: 3, t: 3, noise: 0.2 }, MIX, 7);
    // As much more on one leg as less on the other: their sum says nothing.
    const crooked = strips.map((s) =>
      s.number === 5 ? { ...s, legAMm: s.legAMm - 1.045, legBMm: s.legBMm + 1.045 } : s,
    );
    expect(rulesOf(crooked)).toEqual(['legs-apart']);
    expect(messagesOf(crooked)).toMatch(
      /Strip 5: its legs of .* are 2\.\d+ mm apart, those of the others 0/,
    );
    const one = [
      {
        number: 1,
        material: 'dc01',
        thicknessMm: 3,
        machine: 'f',
        tool: 'n',
        flatMm: 150,
        legAMm: 76.77,
        legBMm: 78.86,
        angleDeg: 90,
        insideRadiusMm: 3,
      },
    ];
    expect(rulesOf(one)).toEqual(['legs-apart', 'strips-unchecked']);
    // Strips that were folded at other marks on purpose are no misreading.
    expect(
      rulesOf(strips.map((s, i) => ({ ...s, legAMm: s.legAMm - 3 * i, legBMm: s.legBMm + 3 * i }))),
    ).toEqual([]);
  });

  test('strips that scatter more than the stated errors of reading explain', () => {
    const strips = foldedStrips(
      { k: 0.42, r: 3, t: 3, noise: 4 },
      [...WIDE, ...WIDE, ...WIDE],
      21,
      true,
    );
    expect(rulesOf(strips)).toContain('strips-scatter');
    expect(messagesOf(strips)).toMatch(/scatter [345](\.\d)? times as much/);
    const [lot] = calibrate(strips);
    expect(lot?.fit?.spreadMm).toBeGreaterThan(0.3);
  });

  test('a K that bends do not have', () => {
    const low = foldedStrips({ k: 0.06, r: 3, t: 3, noise: 0.1 }, [...MIX, ...MIX], 9, true);
    expect(rulesOf(low)).toContain('k-unlikely');
    expect(messagesOf(low)).toMatch(
      /0\.2 to 0\.6 is usual\. Something is measured wrongly in all strips alike/,
    );
    const none = foldedStrips({ k: -0.2, r: 3, t: 3, noise: 0.1 }, [...MIX, ...MIX], 9, true);
    const [lot] = calibrate(none);
    expect([lot?.fit, lot?.findings.map((f) => [f.rule, f.severity])]).toEqual([
      undefined,
      [['k-impossible', 'stop']],
    ]);
  });
});

// The 99 % points of chi-square, any table (NIST/SEMATECH e-Handbook 1.3.6.7.4; from memory).
test.each([
  [1, 6.635],
  [2, 9.21],
  [5, 15.086],
  [10, 23.209],
  [30, 50.892],
])('the sum of %d squares stays under %d', (freedom, expected) => {
  expect(Math.abs(chiSquare99(freedom) / expected - 1)).toBeLessThan(0.01);
});
