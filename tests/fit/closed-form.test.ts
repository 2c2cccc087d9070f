import { describe, expect, test } from 'vitest';
import { fitShort } from '../../src/fit/short.ts';
import type { ShopBend } from '../../src/model/shop.ts';
import { fitted, measureOf } from '../helpers/fitted.ts';
import { publishedFile } from '../helpers/published.ts';
import { SENDS_OUT } from '../helpers/unplanned.ts';

/** Legs 60 and 40, 3 mm, inside radius 3, K 0.42; 60 degrees, where no definition changes. */
const L = {
  legA: 60,
  legB: 40,
  width: 80,
  material: 's275',
  thickness: 3,
  radius: 3,
  rule: 'k:0.42',
  bendAngle: 60,
};
const A = Math.PI / 3;

interface Row {
  readonly tables: Readonly<
    Record<string, { readonly rows: readonly (readonly (number | string | null)[])[] }>
  >;
}
const { tables } = publishedFile<Row>('tolerances');
const figure = (
  table: string,
  isRow: (row: readonly (number | string | null)[]) => boolean,
  column: number,
): number => {
  const row = tables[table]?.rows.find(isRow);
  return row?.[column] as number;
};

/** EN 10051, category A, over 2.5 to 3 mm, 1200 to 1500 mm wide. */
const THICKNESS = figure('en10051', (r) => r[0] === 'category A' && r[2] === 3, 4);
/** ISO 9013, class 1 (of a laser), 1 to 3.15 mm thick, 35 up to 125 mm long. */
const CUT = figure('iso9013_class1', (r) => r[1] === 3.15, 5);

describe('an angle by hand', () => {
  /**
   * Leg = flat length to the tangent line + setback. Flat length = edge to fold line - half the
   * allowance. So with s = (r + t) tan(A/2) and BA = A (r + K t), worked out on paper: d/dt =
   * tan(A/2) - A K / 2; d/dr = tan(A/2) - A / 2; d/dK = - A t / 2; d/d(line) = 1; d/d(edge) = 1;
   * d/dA = (r + t) / (2 cos^2(A/2)) - (r + K t) / 2.
   */
  test('what each cause does to a leg', async () => {
    const { fit } = await fitted('bracket-angle', L);
    const mark = Math.hypot(CUT / Math.SQRT2, 0.3);
    const kerf = 0.1 * 0.15;
    const effects = {
      'sheet thickness': THICKNESS * (Math.tan(A / 2) - (A * 0.42) / 2),
      'the K factor': 0.03 * ((A * 3) / 2),
      'the inside radius': 0.3 * (Math.tan(A / 2) - A / 2),
      'where the fold lands': mark,
      'the bend angle': (Math.PI / 180) * (6 / (2 * Math.cos(A / 2) ** 2) - (3 + 0.42 * 3) / 2),
      cutting: CUT / Math.SQRT2,
      'the width of the cut': kerf / 2,
    };
    const leg = measureOf(fit, 'leg A');
    const likely = Math.hypot(...Object.values(effects));
    expect(leg.likely).toBeCloseTo(likely, 4);
    expect(leg.worst).toBeCloseTo(
      Object.values(effects).reduce((sum, v) => sum + Math.abs(v), 0),
      4,
    );
    expect(leg.expected).toBe(60);
    for (const [cause, by] of Object.entries(effects)) {
      expect([cause, leg.causes.find((c) => c.cause === cause)?.share]).toEqual([
        cause,
        expect.closeTo((by / likely) ** 2, 4),
      ]);
    }
    expect(leg.causes.map((c) => c.share)).toEqual(
      leg.causes.map((c) => c.share).toSorted((a, b) => b - a),
    );
    expect(leg.causes.reduce((sum, c) => sum + c.share, 0)).toBeCloseTo(1, 5);
    // Leg B is the same with its own edge.
    expect(measureOf(fit, 'leg B').likely).toBeCloseTo(likely, 4);
  });

  test('a width is cut, both edges of it; the angle is bent', async () => {
    const { fit } = await fitted('bracket-angle', L);
    expect(measureOf(fit, 'width of leg A').likely).toBeCloseTo(Math.hypot(CUT, 0.1 * 0.15), 6);
    expect(measureOf(fit, 'angle at A')).toMatchObject({
      unit: 'deg',
      asked: 120,
      likely: 1,
      causes: [{ cause: 'the bend angle', share: 1 }],
    });
  });

  test('holes 80.00 apart are told', async () => {
    const { fit } = await fitted('bracket-angle', {
      ...L,
      width: 120,
      holesA: '30,20,M8; 30,100,M8',
    });
    expect(measureOf(fit, 'hole holesA 1 to hole holesA 2')).toMatchObject({
      asked: 80,
      likely: expect.closeTo(CUT, 6),
      causes: [{ cause: 'cutting', share: 1 }],
    });
  });
});

describe('errors of the inputs', () => {
  test('a leg that was measured to +-1', async () => {
    const [sure, unsure] = [
      await fitted('bracket-angle', L),
      await fitted('bracket-angle', { ...L, legA: '60+-1' }),
    ];
    const [before, after] = [sure, unsure].map(({ fit }) => measureOf(fit, 'leg A').likely) as [
      number,
      number,
    ];
    expect(after).toBeCloseTo(Math.hypot(before, 1), 4);
    expect(measureOf(unsure.fit, 'leg A').causes[0]?.cause).toBe('measuring legA');
    expect(measureOf(unsure.fit, 'leg B').likely).toBe(measureOf(sure.fit, 'leg B').likely);
    expect(unsure.made.files()).toEqual(sure.made.files());
  });

  test('an angle that was measured: the law of cosines', async () => {
    const inputs = { ...L, holesA: '35,40,M8', holesB: '30,40,M8' };
    const [sure, unsure] = [
      await fitted('bracket-angle', inputs),
      await fitted('bracket-angle', { ...inputs, bendAngle: '60+-2' }),
    ];
    const name = 'hole holesA 1 to hole holesB 1';
    // Outside faces: c^2 = a^2 + b^2 - 2 a b cos(120 deg), dc/d(angle) = a b sin(angle) / c.
    const c = Math.sqrt(35 ** 2 + 30 ** 2 + 35 * 30);
    const by = ((2 * Math.PI) / 180) * ((35 * 30 * Math.sin((2 * Math.PI) / 3)) / c);
    expect(measureOf(sure.fit, name).asked).toBeCloseTo(c, 5);
    expect(measureOf(unsure.fit, name).likely).toBeCloseTo(
      Math.hypot(measureOf(sure.fit, name).likely, by),
      3,
    );
    expect(measureOf(unsure.fit, 'angle at A').likely).toBeCloseTo(Math.hypot(1, 2), 6);
  });

  // Common practice for all three: a tape to 1 mm, a rule to 0.5, a calliper to 0.1.
  test.each([
    ['tape', 1],
    ['rule', 0.5],
    ['calliper', 0.1],
  ] as const)('all lengths measured with a %s', async (measuredWith, by) => {
    const [sure, unsure] = [
      await fitted('bracket-angle', L),
      await fitted('bracket-angle', { ...L, legB: '40+-3' }, { measuredWith }),
    ];
    for (const name of ['leg A', 'width of leg A'])
      expect(measureOf(unsure.fit, name).likely).toBeCloseTo(
        Math.hypot(measureOf(sure.fit, name).likely, by),
        4,
      );
    // What an input says of itself goes before.
    expect(measureOf(unsure.fit, 'leg B').likely).toBeCloseTo(
      Math.hypot(measureOf(sure.fit, 'leg B').likely, 3),
      4,
    );
  });

  test('thickness, radius and K that say how sure they are', async () => {
    const { fit } = await fitted('bracket-angle', {
      ...L,
      thickness: '3+-0',
      radius: '3+-0',
      rule: 'k:0.42+-0.1',
    });
    const { causes, likely } = measureOf(fit, 'leg A');
    expect(causes.map((c) => c.cause)).not.toContain('sheet thickness');
    expect(causes.map((c) => c.cause)).not.toContain('the inside radius');
    expect((causes.find((c) => c.cause === 'the K factor')?.share ?? 0) * likely ** 2).toBeCloseTo(
      (0.1 * ((A * 3) / 2)) ** 2,
      5,
    );
  });

  test('at the end of its range an input is tried the other way', async () => {
    const { fit } = await fitted('bracket-angle', { ...L, legA: '6000+-2', width: 40 });
    expect(measureOf(fit, 'leg A').causes[0]).toMatchObject({ cause: 'measuring legA' });
    expect(fit.basis.join(' ')).not.toContain('another shape');
  });
});

describe('what is expected', () => {
  test('plate that is thicker on average than ordered', async () => {
    // EN 10029, class A, over 5 to 8 mm: -0.4 and +1.1, so 0.35 more and +-0.75.
    const { fit } = await fitted('bracket-angle', {
      ...L,
      legA: 80,
      legB: 80,
      thickness: 8,
      radius: 12,
    });
    const slope = Math.tan(A / 2) - (A * 0.42) / 2;
    const leg = measureOf(fit, 'leg A');
    expect(leg.expected - leg.asked).toBeCloseTo(0.35 * slope, 4);
    expect(
      (leg.causes.find((c) => c.cause === 'sheet thickness')?.share ?? 0) * leg.likely ** 2,
    ).toBeCloseTo((0.75 * slope) ** 2, 4);
  });

  const MEASURED: ShopBend = {
    material: 's275',
    machine: 'folder',
    tool: 'nose',
    thickness: 3,
    radius: 3,
    k: 0.46,
    kError: 0.02,
    radiusError: 0.1,
    strips: 9,
    angles: { from: 30, to: 120 },
  };
  const shop = { ...SENDS_OUT, bends: [MEASURED] };

  test("a rule that says other than the shop's own bends", async () => {
    const { fit } = await fitted('bracket-angle', L, {}, { shop });
    // A longer neutral line takes more metal: half of A t (0.46 - 0.42) off each leg.
    const leg = measureOf(fit, 'leg A');
    expect(leg.expected - leg.asked).toBeCloseTo((-A * 3 * 0.04) / 2, 5);
    expect(
      (leg.causes.find((c) => c.cause === 'the K factor')?.share ?? 0) * leg.likely ** 2,
    ).toBeCloseTo((1.96 * 0.02 * ((A * 3) / 2)) ** 2, 5);
  });

  test('the rule by the own bends expects what it asks', async () => {
    const { fit } = await fitted('bracket-angle', { ...L, rule: 'measured' }, {}, { shop });
    expect(measureOf(fit, 'leg A')).toMatchObject({ asked: 60, expected: 60 });
  });

  test('rules out of books are as sure as they agree', async () => {
    // r = t: DIN 6935 k = 0.65, K 0.325; Machinery's Handbook, soft steel 0.64 T in a right angle:
    // K = 0.4074; the FAA's formula (0.01743 R + 0.0078 T) a degree: K = 180 (0.01743 + 0.0078) /
    // pi - 1 = 0.44557.
    const { fit } = await fitted('bracket-angle', { ...L, rule: 'din6935' });
    const leg = measureOf(fit, 'leg A');
    expect(
      (leg.causes.find((c) => c.cause === 'the K factor')?.share ?? 0) * leg.likely ** 2,
    ).toBeCloseTo((0.12057 * ((A * 3) / 2)) ** 2, 4);
  });
});

describe('general tolerances', () => {
  test('ISO 2768-1 m of each measure, and the chance to keep to it', async () => {
    const { fit } = await fitted('bracket-angle', { ...L, cornerRadius: 5 }, { tolerance: 'm' });
    const leg = measureOf(fit, 'leg A');
    // Over 30 to 120 mm: 0.3. Chance by the normal distribution, any table: here by the series of
    // erf.
    expect(leg.tolerance).toEqual({
      grade: 'm',
      plusMinus: 0.3,
      chance: expect.closeTo(erf(0.3 / (leg.likely / 1.959964) / Math.SQRT2), 5),
    });
    // Over 3 to 6 mm: 0.5 for a radius. 10 to 50 mm for the shorter leg: half a degree.
    expect(fit.measures.find((m) => m.name.startsWith('radius'))?.tolerance?.plusMinus).toBe(0.5);
    expect(measureOf(fit, 'angle at A').tolerance?.plusMinus).toBe(0.5);
    expect((await fitted('bracket-angle', L)).fit.measures.every((m) => m.tolerance === null)).toBe(
      true,
    );
  });

  const erf = (x: number): number => {
    let [sum, term] = [x, x];
    for (let n = 1; n < 60; n += 1) {
      term *= (-x * x) / n;
      sum += term / (2 * n + 1);
    }
    return (2 / Math.sqrt(Math.PI)) * sum;
  };
});

test('the short form for papers', async () => {
  const { fit } = await fitted('bracket-angle', { ...L, bendAngle: 90, rule: 'din6935' });
  const lines = fitShort(fit);
  expect(lines[0]).toBe('leg A 60 ±0.5, mostly from where the fold lands');
  expect(lines.at(-1)).toBe('what is only cut ±0.3');
});

test('the same inputs give the same figures, and both hands alike', async () => {
  const inputs = { ...L, holesA: '35,20,M8; 35,60,M8', holesB: '22,40,M8' };
  const [first, again, mirrored] = [
    await fitted('bracket-angle', inputs),
    await fitted('bracket-angle', inputs),
    await fitted('bracket-angle', { ...inputs, hand: 'right' }),
  ];
  expect(JSON.stringify(first.fit)).toBe(JSON.stringify(again.fit));
  for (const m of first.fit.measures.filter(
    (f) => !f.name.startsWith('width') && !f.name.startsWith('overall'),
  ))
    expect([m.name, measureOf(mirrored.fit, m.name).likely]).toEqual([
      m.name,
      expect.closeTo(m.likely, 4),
    ]);
});
