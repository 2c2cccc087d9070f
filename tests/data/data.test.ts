import { describe, expect, test } from 'vitest';
import { bendFigures } from '../../src/bending/bend.ts';
import { gaugeThicknessMm, parseThickness } from '../../src/data/gauges.ts';
import { clearanceHoleMm, rivetNutHoleMm } from '../../src/data/hole-sizes.ts';
import { findMaterial, MATERIALS } from '../../src/data/materials.ts';
import type { GaugeScale } from '../../src/model/material.ts';
import { MM_PER_INCH } from '../../src/text/units.ts';
import { makeOne } from '../helpers/check-template.ts';
import { published, publishedFile } from '../helpers/published.ts';
import { bending, material } from '../helpers/sheet.ts';

type Row = readonly (string | number | null)[];

/** Sources of each table stand beside it in the file. */
const { tables: shop } = publishedFile<{
  readonly tables: Readonly<Record<string, { readonly rows: readonly Row[] }>>;
}>('sheets-and-fasteners');
const rowsOf = (table: string): readonly Row[] => shop[table]?.rows ?? [];

describe('gauges', () => {
  const SCALES: readonly GaugeScale[] = ['steel', 'galvanised', 'aluminium'];

  test.each(rowsOf('gauges'))('%d gauge', (gauge, ...inches) => {
    SCALES.forEach((scale, i) => {
      const inch = inches[i];
      const asked = typeof inch === 'number' ? inch * MM_PER_INCH : undefined;
      expect(gaugeThicknessMm(Number(gauge), scale), scale).toBe(asked);
    });
  });

  // Manufacturers' Standard Gauge: pounds per square foot over 41.82, worked out in the source for
  // 10 gauge.
  test('10 gauge steel by its weight', () => {
    const { given, expect: asked, tolerance } = published('sheets-and-fasteners', 'g1');
    const mm = gaugeThicknessMm(Number(given['gauge']), 'steel') ?? Number.NaN;
    expect(Math.abs(mm - Number(asked['mm']))).toBeLessThanOrEqual(tolerance);
    expect(mm).toBeCloseTo((Number(given['lb_per_ft2']) / 41.82) * MM_PER_INCH, 2);
  });

  // Brown and Sharpe: 0.005 x 92^((36 - n) / 39) in.
  test.each(rowsOf('gauges').map(([gauge]) => Number(gauge)))(
    '%d gauge aluminium by the formula of its scale',
    (gauge) => {
      const inch = 0.005 * 92 ** ((36 - gauge) / 39);
      expect(
        Math.abs((gaugeThicknessMm(gauge, 'aluminium') ?? Number.NaN) / MM_PER_INCH - inch),
      ).toBeLessThanOrEqual(0.0001);
    },
  );

  // Galvanised sheet is steel and 0.0037 in of zinc.
  test.each(
    rowsOf('gauges')
      .map(([gauge]) => Number(gauge))
      .filter((gauge) => gauge >= 9),
  )('%d gauge galvanised is steel and zinc', (gauge) => {
    const [steel = 0, galvanised = 0] = SCALES.map(
      (scale) => (gaugeThicknessMm(gauge, scale) ?? Number.NaN) / MM_PER_INCH,
    );
    expect(Math.abs(galvanised - steel - 0.0037)).toBeLessThanOrEqual(0.0002);
  });

  test.each([
    ['g2', 'aluminium'],
    ['g4', 'galvanised'],
  ] as const)('gauge check %s', (id, scale) => {
    const { given, expect: asked, tolerance } = published('sheets-and-fasteners', id);
    const inch = (gaugeThicknessMm(Number(given['gauge']), scale) ?? Number.NaN) / MM_PER_INCH;
    expect(Math.abs(inch - Number(asked['in']))).toBeLessThanOrEqual(tolerance);
  });

  test('one number is three thicknesses', () => {
    const { given, expect: asked } = published('sheets-and-fasteners', 'g5');
    const read = (id: string): number => {
      const parsed = parseThickness(`${String(given['gauge'])}ga`, material(id));
      return parsed.ok ? parsed.value / MM_PER_INCH : Number.NaN;
    };
    expect(read('s235')).toBeCloseTo(Number(asked['steel_in']), 10);
    expect(read('dx51d')).toBeCloseTo(Number(asked['galvanized_in']), 10);
    expect(read('5754-h22')).toBeCloseTo(Number(asked['aluminium_in']), 10);
  });

  test.each([
    ['16ga', 0.0598 * 25.4],
    ['16 gauge', 0.0598 * 25.4],
    ['16 GA.', 0.0598 * 25.4],
    ['3', 3],
    ['1/8in', 3.175],
  ])('a thickness of %s', (text, mm) => {
    expect(parseThickness(text, material('s275'))).toEqual({ ok: true, value: mm });
  });

  test.each([
    ['25ga', 's275', /steel gauges known are 7, .*24, 26, 28/],
    ['8ga', 'dx51d', /galvanised gauges known are 9, /],
    ['16ga', '1.4301', /no gauge scale/],
    ['16swg', 's275', /other scales/],
    ['thick', 's275', /'thick' at character 1/],
  ])('%s of %s is refused', (text, id, reason) => {
    const parsed = parseThickness(text, material(id));
    expect(!parsed.ok && parsed.reason).toMatch(reason);
  });
});

describe('holes', () => {
  // ISO 273: fine and medium read in two reprints, coarse in one up to M16; coarse M18 and M20 from
  // memory.
  test.each(rowsOf('clearance_metric'))('clearance for %s', (thread, ...holes) => {
    (['fine', 'medium', 'coarse'] as const).forEach((fit, i) => {
      expect(clearanceHoleMm(String(thread), fit)).toEqual({ ok: true, value: holes[i] });
    });
  });

  test.each(['f1', 'f2'])('clearance check %s', (id) => {
    const { given, expect: asked } = published('sheets-and-fasteners', id);
    expect(clearanceHoleMm(String(given['thread']), given['fit'] as 'medium' | 'coarse')).toEqual({
      ok: true,
      value: asked['hole_mm'],
    });
  });

  // Common practice: no open standard was found.
  test.each(rowsOf('rivnut_hole'))('rivet nut for %s', (thread, hole) => {
    expect(rivetNutHoleMm(String(thread).replace('M', 'RN'))).toEqual({ ok: true, value: hole });
  });

  test('spelling does not matter, and an unknown size lists the known ones', () => {
    expect(clearanceHoleMm(' m8 ')).toEqual({ ok: true, value: 9 });
    expect(rivetNutHoleMm('rn 6')).toEqual({ ok: true, value: 9 });
    for (const unknown of ['M9', 'M8x1', '', 'M', 'constructor'])
      expect(clearanceHoleMm(unknown)).toMatchObject({
        ok: false,
        reason: expect.stringMatching(/M3, .*M20/),
      });
    for (const unknown of ['RN7', 'M6', '6', ''])
      expect(rivetNutHoleMm(unknown)).toMatchObject({
        ok: false,
        reason: expect.stringMatching(/RN3, .*RN10/),
      });
  });
});

describe('materials', () => {
  const PROPERTIES = bending.material_properties.rows;

  test('the catalogue is the published list of sheets', () => {
    expect(MATERIALS.map((m) => m.id).toSorted()).toEqual(
      PROPERTIES.map((p) => material(p.name).id).toSorted(),
    );
  });

  test.each(PROPERTIES)('$name has the published figures', (p) => {
    const m = material(p.name);
    expect(m.yieldMpa.value).toBe(p.Re_min_t16 ?? p.Rp02_min ?? null);
    expect(m.tensileMpa.value).toEqual(p.Rm_t3_100 ?? p.Rm ?? [p.Rm_min, null]);
    expect(m.modulusMpa.value).toBe(p.E_GPa * 1000);
    expect(m.densityKgM3.value).toBe(p.rho);
  });

  // As the notes in the file of material properties say of themselves.
  const ALL = ['yieldMpa', 'tensileMpa', 'modulusMpa', 'densityKgM3'] as const;
  test.each([
    ['dc01', ['modulusMpa', 'densityKgM3']],
    ['s235', ['modulusMpa', 'densityKgM3']],
    ['5251-h22', ALL],
    ['5754-h22', ['modulusMpa', 'densityKgM3']],
    ['5754-h111', ['modulusMpa', 'densityKgM3']],
    ['1.4301', ['yieldMpa', 'tensileMpa', 'modulusMpa']],
    ['dx51d', ALL],
  ] as const)('%s calls nothing published that was recalled', (id, recalled) => {
    for (const key of recalled) expect(material(id)[key].basis, key).not.toBe('published');
  });

  // No published list was found: common practice.
  test.each([
    [0, ['dc01']],
    [1, ['s235', 's275', 's355']],
    [2, ['dx51d']],
    [3, ['1050a-h14', '5251-h22', '5754-h22', '5754-h111']],
    [4, ['1.4301']],
  ])('stock thicknesses, row %d', (row, ids) => {
    for (const id of ids) {
      expect(material(id).stockThicknessesMm.value).toEqual(rowsOf('stock_thickness')[row]?.[1]);
      expect(material(id).stockThicknessesMm.basis).toBe('common practice');
    }
  });

  test('no two sheets answer to one name', () => {
    const names = MATERIALS.flatMap((m) => [
      ...new Set(
        [m.id, m.name, ...m.aliases].map((name) => name.toLowerCase().replace(/[^a-z0-9]/g, '')),
      ),
    ]);
    expect(new Set(names).size).toBe(names.length);
  });

  test.each([
    ['S275', 's275'],
    ['s 275 jr', 's275'],
    ['DX51D+Z', 'dx51d'],
    ['304', '1.4301'],
    ['14301', '1.4301'],
    ['EN AW-5754 H111', '5754-h111'],
  ])('%s is %s', (name, id) => {
    expect(material(name).id).toBe(id);
  });

  test('a slip is answered with the name that was meant', () => {
    expect(findMaterial('s257')).toMatchObject({ ok: false, reason: 'did you mean s275?' });
    expect(findMaterial('plywood')).toMatchObject({
      ok: false,
      reason: expect.stringMatching(/list of materials/),
    });
  });
});

// Volume times density, of a whole sheet: an angle whose legs are chosen so that its blank is that
// sheet.
test.each(['m1', 'm2'])('mass check %s', async (id) => {
  const { given, expect: asked, tolerance } = published('sheets-and-fasteners', id);
  const [l, w, t] = ['l', 'w', 't'].map((key) => Number(given[key])) as [number, number, number];
  expect(material('s235').densityKgM3.value).toBe(given['rho']);
  const { deductionMm } = bendFigures(
    { id: 'k', k: 0.42 },
    { thicknessMm: t, insideRadiusMm: t, angleDeg: 90 },
    'outside',
  );
  const { blank } = await makeOne('bracket-angle', {
    material: 's235',
    thickness: t,
    radius: t,
    rule: 'k:0.42',
    bendAngle: 90,
    width: w,
    legA: l / 2,
    legB: l / 2 + deductionMm,
  });
  expect(Math.abs(blank.massKg - Number(asked['kg']))).toBeLessThanOrEqual(tolerance);
});

describe('a name that leaves the material open', () => {
  const reasonOf = (name: string): string => {
    const found = findMaterial(name);
    return found.ok ? `taken for ${found.value.id}` : found.reason;
  };
  const idsIn = (name: string): string[] =>
    MATERIALS.map((m) => m.id).filter((id) => reasonOf(name).includes(`${id} (`));

  test.each([
    ['steel', 'grade open', ['dc01', 's235', 's275', 's355']],
    ['Mild Steel plate', 'grade open', ['dc01', 's235', 's275', 's355']],
    ['aluminium', 'grade open', ['1050a-h14', '5251-h22', '5754-h22', '5754-h111', '6082-t6']],
    ['ali', 'grade open', ['1050a-h14', '5251-h22', '5754-h22', '5754-h111', '6082-t6']],
    ['stainless', 'grade open', ['1.4301']],
    ['stainless steel', 'grade open', ['1.4301']],
    ['galvanised steel', 'grade open', ['dx51d']],
    ['5251', 'temper open', ['5251-h22']],
    ['EN AW-5754', 'temper open', ['5754-h22', '5754-h111']],
    ['NS4', 'temper open', ['5251-h22']],
    ['316', 'not in the catalogue, though other stainless', ['1.4301']],
    ['1.4404', 'not in the catalogue, though other stainless', ['1.4301']],
    [
      '5083',
      'not in the catalogue, though other aluminium',
      ['1050a-h14', '5251-h22', '5754-h22', '5754-h111', '6082-t6'],
    ],
  ])(
    '%s is not chosen for anybody: what it may mean is told with what each is for',
    (name, says, ids) => {
      expect(reasonOf(name)).toContain(says);
      expect(idsIn(name)).toEqual(ids);
      for (const id of ids)
        expect(reasonOf(name)).toContain(MATERIALS.find((m) => m.id === id)?.remark);
    },
  );

  test('a name that leaves nothing open is taken, in any spelling', () => {
    expect(['5251-H22', '5754 h111', '304', 'V2A', 'galv', 'S235JR'].map(reasonOf)).toEqual(
      ['5251-h22', '5754-h111', '1.4301', '1.4301', 'dx51d', 's235'].map((id) => `taken for ${id}`),
    );
    expect(['wood', '', '4 mm'].map(reasonOf)).toEqual(Array(3).fill('see the list of materials'));
    expect(reasonOf('s257')).toBe('did you mean s275?');
  });
});
