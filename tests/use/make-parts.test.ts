import { describe, expect, test } from 'vitest';
import { signedArea } from '../../src/geometry/measure.ts';
import { makeTexts } from '../../src/use/make/make-text.ts';
import { reportText } from '../../src/use/make/report-text.ts';
import { describeInputs, inputsJsonSchema, readInputs } from '../../src/forms/read.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import type { ReportResult } from '../../src/contract/part.ts';
import { assemble, defineTemplate, fields, rectangle } from '../../src/template.ts';
import { loadFamily, make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { fileNames } from '../helpers/file-names.ts';
import { MAKE_NAMES } from '../helpers/make-names.ts';

const SEAT_POST = {
  name: 'seat post',
  legA: 60,
  legB: 40,
  width: 80,
  material: 's275',
  thickness: 3,
  radius: 3,
  holesA: '35,20,M8;35,50,M8',
};

/** All names of a value, in the order of the alphabet: `a`, `a.b`, `a[].c`. */
const namesIn = (value: unknown, path = ''): string[] => {
  if (Array.isArray(value)) return [...new Set(value.flatMap((v) => namesIn(v, `${path}[]`)))];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value)
    .flatMap(([name, v]) => [`${path}.${name}`, ...namesIn(v, `${path}.${name}`)])
    .sort();
};

/** As made for a shop with machines. */
const makePlanned = async (family: string, inputs: Record<string, unknown>) => {
  const made = makeParts(await loadFamily(family), inputs, { cutOnly: false, dxfVersion: 'r2000' });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.parts;
};

describe('the contract of make', () => {
  test('has these names and no others', async () => {
    const [part] = await makePlanned('bracket-angle', SEAT_POST);
    expect(namesIn(part?.result)).toEqual(MAKE_NAMES);
    expect(part?.result).toMatchObject({
      name: 'seat post',
      family: 'bracket-angle',
      hand: 'left',
      material: { id: 's275', thicknessMm: 3, densityKgM3: 7850 },
      rule: 'din6935',
    });
    expect(JSON.parse(JSON.stringify(part?.result))).toEqual(part?.result);
  });

  test('a part that was stopped before it came to be has no blank and no files', async () => {
    const [part] = await make('bracket-angle', { ...SEAT_POST, rule: 'measured' });
    expect(rulesOf(part, 'stop')).toEqual(['no-bend-figures']);
    expect(part?.result).toMatchObject({ rule: 'measured', blank: null, folded: null, bends: [] });
    expect(part?.stopped).toBe(true);
    expect(part?.files()).toEqual([]);
  });

  test('inputs that cannot be read are problems, and make no part', async () => {
    const made = makeParts(
      await loadFamily('bracket-angle'),
      { legA: 'x' },
      { cutOnly: false, dxfVersion: 'r2000' },
    );
    expect(made).toMatchObject({ ok: false });
    expect(made.ok ? [] : made.problems.map((p) => p.input)).toEqual([
      'legA',
      'legB',
      'width',
      'thickness',
    ]);
  });
});

describe('hands', () => {
  test('both give two parts, the right one the mirror image of the left one', async () => {
    const [left, right, ...more] = await make('bracket-angle', { ...SEAT_POST, hand: 'both' });
    expect(more).toEqual([]);
    expect([left?.result.name, right?.result.name]).toEqual(['seat post-L', 'seat post-R']);
    expect([left?.result.hand, right?.result.hand]).toEqual(['left', 'right']);
    expect(
      left
        ?.files()
        .map((f) => f.name)
        .toSorted(),
    ).toEqual(fileNames('seat-post-L'));
    const xs = (part: typeof left) =>
      part?.flat?.cutouts.map((h) => (h.kind === 'round' ? h.centre[0] : 0)).sort();
    expect(xs(left)).toEqual([expect.closeTo(20, 6), expect.closeTo(50, 6)]);
    expect(xs(right)).toEqual([expect.closeTo(30, 6), expect.closeTo(60, 6)]);
    expect(right?.result.bends.map((b) => b.direction)).toEqual(['up']);
    expect(right?.result.blank?.areaMm2).toBeCloseTo(left?.result.blank?.areaMm2 ?? 0, 6);
  });

  test('the other hand is told when its blank may be the same cut; a left part alone is not', async () => {
    const [left] = await make('bracket-angle', SEAT_POST);
    expect(rulesOf(left, 'note')).not.toContain('other-hand');
    for (const part of await make('bracket-angle', { ...SEAT_POST, hand: 'both' }))
      expect(rulesOf(part, 'note')).toContain('other-hand');
  });

  test('no text is mirrored or stands on its head, and every one lies on the metal', async () => {
    for (const part of await make('bracket-gusset', {
      base: 80,
      upright: 90,
      width: 60,
      gussetDepth: 60,
      gussetHeight: 60,
      thickness: 2,
      radius: 2,
      hand: 'both',
    })) {
      const texts =
        part.drawing?.items.flatMap((item) => (item.kind === 'text' ? [item] : [])) ?? [];
      expect(texts.map((t) => t.text)).toEqual(
        expect.arrayContaining(['A 90 UP R2', 'B 90 UP R2', 'C 90 UP R2']),
      );
      for (const text of texts) {
        expect(text.angleDeg).toBeGreaterThan(-90);
        expect(text.angleDeg).toBeLessThanOrEqual(90);
        expect(text.at[0]).toBeGreaterThan(0);
        expect(text.at[0]).toBeLessThan(part.flat?.widthMm ?? 0);
        expect(text.at[1]).toBeGreaterThan(0);
        expect(text.at[1]).toBeLessThan(part.flat?.heightMm ?? 0);
      }
    }
  });
});

describe('findings and notes', () => {
  test('cautions are notes; those of the material come with it', async () => {
    const [steel] = await make('bracket-angle', SEAT_POST);
    expect(rulesOf(steel, 'note').filter((rule) => rule.startsWith('caution-'))).toEqual([
      'caution-sharp-edges',
      'caution-eyes',
      'caution-steel-fume',
      'caution-pinch',
      'caution-load-bearing',
    ]);
    const [zinc] = await make('bracket-angle', { ...SEAT_POST, material: 'dx51d', thickness: 2 });
    expect(rulesOf(zinc, 'note')).toContain('caution-galvanised-fume');
  });

  test('a hole off the metal stops the part, which keeps its figures', async () => {
    const [part] = await make('bracket-angle', { ...SEAT_POST, holesA: '20,200,M8' });
    expect(rulesOf(part, 'stop')).toEqual(['hole-off-metal']);
    expect(part?.result.blank).not.toBeNull();
    expect(part?.files()).toEqual([]);
  });

  test('a tight radius and a hole at the bend are warnings, and the files are written', async () => {
    const [part] = await make('bracket-angle', { ...SEAT_POST, radius: 1, holesA: '8,40,6' });
    expect(rulesOf(part, 'warn').sort()).toEqual([
      'hole-near-bend',
      'radius-below-least',
      'rule-stretched',
    ]);
    expect(part?.stopped).toBe(false);
    expect(part?.files()).toHaveLength(fileNames('').length);
  });

  test('the notes name part, hand, sheet, quantity and rule', async () => {
    const { drawing } = await makeOne('bracket-angle', { ...SEAT_POST, quantity: 4 });
    const texts = drawing?.items
      .flatMap((item) => (item.kind === 'text' ? [item.text] : []))
      .join('\n');
    for (const said of ['seat post', 'left', 'S275', '3 mm', '4 off', 'din6935', 'A 90 UP R3'])
      expect(texts).toContain(said);
  });
});

describe('files', () => {
  test('the same inputs give the same bytes, in inches too', async () => {
    const files = async (inputs: Record<string, unknown>) =>
      (await makeOne('bracket-angle', inputs)).files();
    const millimetres = await files({ ...SEAT_POST, legA: 101.6, legB: 50.8, width: 76.2 });
    expect(await files({ ...SEAT_POST, legA: '4in', legB: '2"', width: '3 in' })).toEqual(
      millimetres,
    );
  });

  test('cut only leaves neither folds nor texts', async () => {
    const family = await loadFamily('bracket-angle');
    const made = makeParts(family, SEAT_POST, { cutOnly: true, dxfVersion: 'r12' });
    const texts = made.ok ? (made.parts[0]?.files() ?? []).map((f) => f.contents) : [];
    expect(texts).toHaveLength(fileNames('').length);
    for (const text of texts) expect(text).not.toMatch(/FOLD|NOTE/);
    expect(texts[0]).toContain('AC1009');
  });

  test('area of the blank is that of its outline less its holes', async () => {
    const { flat, blank } = await makeOne('bracket-angle', SEAT_POST);
    expect(blank.areaMm2).toBeCloseTo(signedArea(flat.outline) - 2 * (Math.PI / 4) * 81, 6);
  });
});

describe('a family of several blanks', () => {
  const slab = (values: Parameters<typeof assemble>[0], size: number) =>
    assemble(values, {
      root: 'slab',
      panels: [{ id: 'slab', outline: rectangle(0, 0, size, 20), cutouts: [] }],
      folds: [],
    });
  const pair = defineTemplate({
    family: 'box-of-two',
    summary: 'Two slabs.',
    sketch: '[]',
    inputs: { size: fields.length({ about: 'Size of the larger slab.', min: 5, max: 500 }) },
    defaults: { hand: 'both', radius: 4 },
    cautions: ['sharp-edges'],
    examples: [],
    build: (v) => ({
      pieces: [
        { id: 'floor', part: slab(v, v.size) },
        { id: 'end', part: slab(v, v.size - 100), quantity: 2 },
      ],
      report: { figures: [{ name: 'volume', value: v.size / 1000, unit: 'l' }] },
    }),
  });
  const made = (inputs: Record<string, unknown>) => {
    const all = makeParts(
      pair,
      { thickness: 2, ...inputs },
      { cutOnly: false, dxfVersion: 'r2000' },
    );
    if (!all.ok) throw new Error(JSON.stringify(all.problems));
    return all;
  };

  test('is one part list: each piece with its own name, files, mark and number, in each hand', () => {
    const { parts, reports } = made({ size: 200, quantity: 3, name: 'crate' });
    expect(
      parts.map((p) => [
        p.result.name,
        p.result.piece,
        p.result.hand,
        p.result.quantity,
        p.result.blank?.widthMm,
      ]),
    ).toEqual([
      ['crate-floor-L', 'floor', 'left', 3, 200],
      ['crate-end-L', 'end', 'left', 6, 100],
      ['crate-floor-R', 'floor', 'right', 3, 200],
      ['crate-end-R', 'end', 'right', 6, 100],
    ]);
    expect(
      parts.map((p) =>
        p
          .files()
          .map((f) => f.name)
          .toSorted(),
      ),
    ).toEqual(parts.map((p) => fileNames(p.result.name)));
    expect(new Set(parts.map((p) => p.mark)).size).toBe(4);
    expect(reports).toEqual([
      { name: 'crate', figures: [{ name: 'volume', value: 0.2, unit: 'l' }], tables: [] },
    ]);
  });

  test("a family's own default of a common input is its default everywhere, and can be overruled", () => {
    const given = made({ size: 200, hand: 'left' }).parts;
    expect(given.map((p) => p.result.name)).toEqual(['box-of-two-floor', 'box-of-two-end']);
    const shown = Object.fromEntries(describeInputs(pair).map((i) => [i.name, i]));
    expect([shown['hand']?.default, shown['radius']?.default, shown['radius']?.otherwise]).toEqual([
      'both',
      4,
      undefined,
    ]);
    expect(inputsJsonSchema(pair)).toMatchObject({
      properties: { hand: { default: 'both' }, radius: { default: 4 } },
    });
    expect(readInputs(pair, { size: 9, thickness: 2 })).toMatchObject({
      ok: true,
      values: { hand: 'both', insideRadiusMm: 4 },
    });
  });

  test('a note that holds for all pieces is read once, figures come last', () => {
    const { parts, reports } = made({ size: 200 });
    const told = parts.map((p) => ({ ...p.result, files: [] }));
    const texts = makeTexts({ parts: told, lists: [], reports: [] });
    expect(texts.map((text) => text.includes('Cut edges are sharp'))).toEqual([
      true,
      false,
      false,
      false,
    ]);
    expect(texts[1]).toContain('2 off');
    const table = {
      title: 'Dip',
      columns: [
        { name: 'dip', unit: 'mm' },
        { name: 'holds', unit: '' },
      ],
      rows: [
        [5, 1],
        [100, 20.5],
      ],
    };
    expect(reportText({ ...(reports[0] as ReportResult), tables: [table] }).split('\n')).toEqual([
      'box-of-two in figures',
      '  volume: 0.2 l',
      '  Dip',
      '    dip, mm  holds',
      '          5      1',
      '        100   20.5',
    ]);
  });
});
