import { describe, expect, test } from 'vitest';
import { withChords } from '../../../src/geometry/chords.ts';
import { signedArea } from '../../../src/geometry/measure.ts';
import { type MakeOptions, makeParts } from '../../../src/use/make/make-parts.ts';
import type { CutterImport } from '../../../src/model/shop.ts';
import { withArcs } from '../../../src/proof/arcs-of-chords.ts';
import { FAMILIES } from '../../../templates/index.ts';
import { examplesIn, inTurns } from '../../helpers/extent.ts';
import { ezdxfAvailable, readWithEzdxf } from '../../helpers/ezdxf.ts';
import { needsOutside } from '../../helpers/needs-outside.ts';
import { PERFECT_CUTTER, shopWith } from '../../helpers/shops.ts';
import { loadFamily } from '../../helpers/check-template.ts';

const KEPT = PERFECT_CUTTER.import;
const FORMS: readonly CutterImport[] = [
  { ...KEPT, curves: 'chords' },
  { ...KEPT, units: 'inch' },
  { ...KEPT, layers: 'merged' },
  { ...KEPT, curves: 'chords', units: 'inch', layers: 'merged' },
];

const optionsFor = (
  form: CutterImport,
  dxfVersion: MakeOptions['dxfVersion'] = 'r2000',
): MakeOptions => ({
  cutOnly: false,
  dxfVersion,
  shop: shopWith(
    { import: form },
    { marking: { folds: 'lines', face: 'inside', drilled: 'crosses' } },
  ),
});

/** Proved from the file as it is written, in whatever form. */
const PLACED = [...FAMILIES.keys()].map((family, place) => [family, place] as const);

describe.each(PLACED)('%s, in every form', async (family, place) => {
  const examples = examplesIn(await loadFamily(family));
  test.each(inTurns(FORMS, place, 4))('$layers layers, $curves, $units', async (form) => {
    for (const { inputs } of examples) {
      for (const version of ['r2000', 'r12'] as const) {
        const made = makeParts(await loadFamily(family), inputs, optionsFor(form, version));
        if (!made.ok) throw new Error(JSON.stringify(made.problems));
        for (const { result } of made.parts) {
          expect(result.findings.filter((f) => f.severity === 'stop')).toEqual([]);
          expect(result.proof?.worstMm).toBeLessThan(0.01);
        }
      }
    }
  });
});

const BRACKET = {
  name: 'seat post',
  legA: 60,
  legB: 40,
  width: 80,
  material: 's275',
  thickness: 3,
  radius: 3,
  cornerRadius: 5,
  holesA: '35,20,M8; 35,50,8x20',
};

const dxfIn = async (form: CutterImport): Promise<string> => {
  const made = makeParts(await loadFamily('bracket-angle'), BRACKET, optionsFor(form));
  const dxf = made.ok
    ? made.parts[0]?.files().find((f) => f.name.endsWith('.dxf'))?.contents
    : undefined;
  if (dxf === undefined) throw new Error('not made');
  return dxf;
};

test('ezdxf reads what each form promises', async (ctx) => {
  needsOutside(ctx, 'ezdxf', ezdxfAvailable);
  const [plain, chords, inch, merged] = readWithEzdxf(
    await Promise.all([KEPT, ...FORMS.slice(0, 3)].map(dxfIn)),
  );
  expect([plain, chords, inch, merged].map((f) => [f?.errors, f?.fixes])).toEqual(
    Array(4).fill([[], []]),
  );
  expect([plain, chords, merged].map((f) => [f?.insUnits, f?.measurement])).toEqual(
    Array(3).fill([4, 1]),
  );
  // Code 1 of $INSUNITS is inches (DXF Reference, header variables); an inch is 25.4 mm (ISO
  // 80000-3).
  expect([inch?.insUnits, inch?.measurement]).toEqual([1, 0]);
  expect(inch?.extMax.map((v) => v * 25.4)).toEqual(plain?.extMax.map((v) => expect.closeTo(v, 2)));
  expect(
    chords?.entities.some(
      (e) =>
        e.type === 'CIRCLE' || (e.type === 'LWPOLYLINE' && e.vertices.some((v) => v.bulge !== 0)),
    ),
  ).toBe(false);
  expect(new Set(merged?.entities.map((e) => e.layer))).toEqual(new Set(['CUT']));
  // Holes are still cut before the outline that frees the part.
  expect(merged?.entities.at(-1)?.type).toBe('LWPOLYLINE');
  expect(merged?.entities).toHaveLength(3);
});

const RIM = [
  { x: 0, y: 0, bulge: 0 },
  { x: 60, y: 0, bulge: 0 },
  { x: 60, y: 20, bulge: 0.2 },
  { x: 30, y: 40, bulge: -0.5 },
  { x: 10, y: 40, bulge: 1 },
  { x: 0, y: 40, bulge: 0 },
];

test('chords leave their arc by no more than half of what a file may be wrong; arcs come back from them', () => {
  const chords = withChords(RIM, 0.005);
  expect(chords.every((v) => v.bulge === 0)).toBe(true);
  const rounded = chords.map(({ x, y }) => ({
    x: Math.round(x * 1e4) / 1e4,
    y: Math.round(y * 1e4) / 1e4,
    bulge: 0,
  }));
  for (let start = 0; start < rounded.length; start++) {
    const back = withArcs([...rounded.slice(start), ...rounded.slice(0, start)]);
    expect(back.length).toBeLessThanOrEqual(RIM.length + 1);
    expect(signedArea(back)).toBeCloseTo(signedArea(RIM), 1);
  }
  // A box, and a plate of six sides, are no circles.
  const hexagon = Array.from({ length: 6 }, (_, i) => ({
    x: 50 * Math.cos((i * Math.PI) / 3),
    y: 50 * Math.sin((i * Math.PI) / 3),
    bulge: 0,
  }));
  expect(withArcs(hexagon)).toBe(hexagon);
});
