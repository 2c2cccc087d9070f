import { describe, expect, test } from 'vitest';
import { bendFigures } from '../../src/bending/bend.ts';
import { calibrate, toShopBend, withBends } from '../../src/calibrate/calibrate.ts';
import { readStrips } from '../../src/calibrate/read.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { bendTable } from '../../src/model/shop.ts';

const read = (strips: string) => {
  const found = readStrips(
    `material: dc01\nthickness: 1\nmachine: folder\ntool: nose\nstrips:\n${strips}`,
    'yaml',
  );
  if (!found.ok) throw new Error(JSON.stringify(found.problems));
  return found.strips;
};

/** Four closed hems on 1 mm sheet that each lost 0.5 mm, and one that was misread by 3. */
const CLOSED = `
  - { flat: 100, legA: 80.5, legB: 20, hem: closed }
  - { flat: 100, legA: 80.4, legB: 20.1, hem: closed }
  - { flat: 100.1, legA: 80.6, legB: 20, hem: closed }
  - { flat: 100, legA: 83.5, legB: 20, hem: closed }
  - { flat: 100, legA: 80.45, legB: 20.05, hem: closed }
`;

describe('strips of hems', () => {
  test('a closed hem that loses 0.5 mm on 1 mm: 2 t - pi K t, so K 0.4775', () => {
    const [lot, ...more] = calibrate(read(CLOSED));
    expect(more).toEqual([]);
    expect(lot?.fit?.kFactor.value).toBeCloseTo(1.5 / Math.PI, 9);
    expect(lot?.fit?.deductions).toEqual([
      { angleDeg: 180, deductionMm: expect.closeTo(0.5, 9), strips: 4 },
    ]);
    expect(lot?.fit?.outliers).toEqual([{ strip: 4, of: 'legs', offMm: expect.closeTo(-3, 9) }]);
    expect(lot?.findings.map((f) => f.rule)).toEqual(['strip-left-out']);
  });

  test('bends by them come out as the strips did, by the rule measured; other bends go by other strips', () => {
    const lots = calibrate(
      read(`${CLOSED}
  - { flat: 100, legA: 79.7, legB: 19.7, hem: open, gap: 2 }
  - { flat: 100, legA: 79.7, legB: 19.7, hem: open, gap: 2.2 }
  - { flat: 100, legA: 52, legB: 49.6, angle: 90, radius: 1 }
  - { flat: 100, legA: 51, legB: 50.6, angle: 90, radius: 1 }`),
    );
    expect(lots.map((l) => [l.hem, l.strips])).toEqual([
      ['closed', 5],
      ['open', 2],
      [undefined, 2],
    ]);
    const rows = bendTable(
      { ...DEFAULT_SHOP, bends: lots.flatMap((l) => toShopBend(l) ?? []) },
      'dc01',
    );
    const lost = (insideRadiusMm: number, angleDeg: number) =>
      bendFigures({ id: 'measured', rows }, { thicknessMm: 1, insideRadiusMm, angleDeg }, 'outside')
        .deductionMm;
    expect(lost(0, 180)).toBeCloseTo(0.5, 3);
    // An open hem is longer round its bend than both legs lose there.
    expect(lost(1.05, 180)).toBeCloseTo(-0.6, 3);
    expect(lost(1, 90)).toBeCloseTo(1.6, 3);
    // A shop file keeps one line for each form.
    const [closed, open] = lots.flatMap((l) => toShopBend(l) ?? []);
    if (closed === undefined || open === undefined) throw new Error('both are fitted');
    expect(withBends([{ ...closed, k: 0.3 }, open], [closed])).toEqual([open, closed]);
  });

  test('two hems that contradict each other say nothing', () => {
    const [lot] = calibrate(
      read(
        '  - { flat: 100, legA: 80.5, legB: 20, hem: closed }\n  - { flat: 100, legA: 82.5, legB: 20, hem: closed }\n',
      ),
    );
    expect([lot?.fit, lot?.findings.map((f) => f.rule)]).toEqual([
      undefined,
      ['strips-contradict'],
    ]);
  });

  test('hems that were measured to somewhere else are told', () => {
    const strips = (legB: number) =>
      calibrate(read(`  - { flat: 100, legA: 80.5, legB: ${legB}, hem: closed }\n`)).flatMap((l) =>
        l.findings.map((f) => f.rule),
      );
    expect(strips(20)).toEqual(['strips-unchecked']);
    expect(strips(20.9)).toEqual(['strips-unchecked', 'k-unlikely']);
    expect(strips(23)).toEqual(['k-impossible']);
  });

  test.each([
    ['{ flat: 100, legA: 80, legB: 20 }', 'strips[0].angle'],
    ['{ flat: 100, legA: 80, legB: 20, hem: closed, angle: 90 }', 'strips[0].angle'],
    ['{ flat: 100, legA: 80, legB: 20, hem: open }', 'strips[0].gap'],
    ['{ flat: 100, legA: 80, legB: 20, hem: teardrop }', 'strips[0].radius'],
    ['{ flat: 100, legA: 80, legB: 20, angle: 90, gap: 1 }', 'strips[0].gap'],
    ['{ flat: 100, legA: 80, legB: 20, hem: shut }', 'strips[0].hem'],
  ])('what is wrong with a strip is told: %s', (strip, input) => {
    const found = readStrips(`material: dc01\nthickness: 1\nstrips:\n  - ${strip}\n`, 'yaml');
    expect(found.ok ? [] : found.problems.map((p) => p.input)).toEqual([input]);
  });
});
