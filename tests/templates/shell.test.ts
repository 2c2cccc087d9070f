import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loopExtents } from '../../src/geometry/extents.ts';
import { planParts } from '../../src/use/plan/plan-parts.ts';
import { planText } from '../../src/use/plan/plan-text.ts';
import { checkTemplate, loadFamily, make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { published } from '../helpers/published.ts';
import { meshVolume, rolledMeasures } from '../helpers/rolled-mesh.ts';

checkTemplate('shell');

const SIZES = { diameter: 300, length: 200, thickness: 3, cornerGap: 0, material: 's235' };
const figureOf = async (inputs: Record<string, unknown>, name: string): Promise<number> => {
  const family = await loadFamily('shell');
  const { makeParts } = await import('../../src/use/make/make-parts.ts');
  const made = makeParts(family, inputs, { foldAt: 'service' });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const found = made.reports[0]?.figures.find((f) => f.name === name);
  if (found === undefined) throw new Error(`no figure ${name}`);
  return found.value;
};

describe('a whole cylinder', () => {
  const { given, expect: wanted, tolerance } = published('rolled', 'cylinder-mean');
  const inputs = { ...SIZES, diameter: given['Di'], thickness: given['t'] };

  test('is as long as its mean circumference, as an article on vessel blanks has it', async () => {
    const { blank } = await makeOne('shell', inputs);
    expect(Math.abs(blank.widthMm - Number(wanted['blank']))).toBeLessThan(tolerance);
    const strain = await figureOf(inputs, 'stretch of the outside');
    expect(Math.abs(strain - Number(wanted['strain_pct']))).toBeLessThan(tolerance);
  });

  test('is the same by its inside, outside and mean diameter', async () => {
    const widths = await Promise.all(
      (
        [
          ['inside', 300],
          ['middle', 303],
          ['outside', 306],
        ] as const
      ).map(async ([diameterOf, diameter]) => {
        const { blank } = await makeOne('shell', { ...SIZES, diameterOf, diameter });
        return blank.widthMm;
      }),
    );
    for (const width of widths) expect(width).toBeCloseTo(widths[0] as number, 9);
  });

  test('adds pi thicknesses to its inside circumference, between the old rules of 3 and 7', async () => {
    const {
      given: one,
      expect: rule,
      tolerance: off,
    } = published('rolled', 'cylinder-thickness-rules');
    const { blank } = await makeOne('shell', { ...SIZES, thickness: one['t'] });
    const added = blank.widthMm - Math.PI * 300;
    expect(Math.abs(added - Number(rule['theory_add']))).toBeLessThan(off);
    const [low, high] = rule['old_rules_add'] as [number, number];
    expect(added).toBeGreaterThan(low);
    expect(added).toBeLessThan(high);
  });

  test('is 7 thicknesses shorter where it slips into its like', async () => {
    const { given: one, expect: rule, tolerance: off } = published('rolled', 'small-end-7t');
    const thin = { ...SIZES, material: 'dc01', thickness: one['t'] };
    const { blank } = await makeOne('shell', thin);
    const slips = await figureOf(thin, 'blank that slips into its like');
    expect(Math.abs(blank.widthMm - slips - Number(rule['circumference_less']))).toBeLessThan(off);
  });
});

describe('a hole', () => {
  /** A point of the opening, rolled up, as it lies on the inside face. */
  const inside = ([x, y]: readonly [number, number], centre: readonly [number, number]) => {
    const rad = (x - centre[0]) / 151.5;
    return Math.hypot(150 * Math.sin(rad), y - centre[1]);
  };

  test('lets a straight tube of its size touch the inside face all round', async () => {
    const { flat } = await makeOne('shell', { ...SIZES, holes: '120,90,80' });
    const [hole] = flat.cutouts;
    if (hole?.kind !== 'loop') throw new Error('no opening of its own shape');
    const centre = [(Math.PI * 303) / 3, 90] as const;
    for (const { x, y } of hole.loop) {
      // Its arcs stay within half of what a proof allows.
      expect(Math.abs(inside([x, y], centre) - 40)).toBeLessThan(0.005);
    }
    const box = loopExtents(hole.loop);
    expect((box?.maxX ?? 0) - (box?.minX ?? 0)).toBeCloseTo(2 * 151.5 * Math.asin(40 / 150), 6);
  });

  test('over the seam, off the wall, or as wide as the shell is refused', async () => {
    for (const [holes, rule] of [
      ['2,90,80', 'hole-over-seam'],
      ['355,90,80', 'hole-over-seam'],
      ['90,90,300', 'hole-over-round'],
    ] as const)
      expect(rulesOf((await make('shell', { ...SIZES, holes }))[0], 'stop')).toEqual([rule]);
    const half = await make('shell', { ...SIZES, arc: 180, holes: '200,90,20' });
    expect(rulesOf(half[0], 'stop')).toEqual(['hole-over-seam']);
  });
});

describe('what cannot be made is told with what can', () => {
  test.each([
    [{ sheetLength: 400 }, 'wall-over-sheet', { input: 'pieces', atLeast: 3 }],
    [{ diameter: 5 }, 'rolled-too-tight', { input: 'diameter', atLeast: 6 }],
    [{ arc: 90, seam: 'lap' }, 'lap-without-seam', { input: 'seam', value: 'butt' }],
    [{ seam: 'lap', lap: 300 }, 'lap-too-long', { input: 'lap', atMost: 237.97 }],
    [{ flange: 5 }, 'flange-too-narrow', { input: 'flange', value: 0 }],
  ])('%j', async (more, rule, mend) => {
    const [part] = await make('shell', { ...SIZES, ...more });
    const stop = part?.result.findings.find((f) => f.severity === 'stop');
    expect(stop?.rule).toBe(rule);
    expect(stop?.mends).toContainEqual(mend);
  });
});

test('flanges fold to faces that lie the gap apart through the axis', async () => {
  const inputs = { ...SIZES, flange: 30, cornerGap: 1, radius: 3 };
  const { part, flat } = await makeOne('shell', inputs);
  // By hand: the wall ends b before the seam, and its inside face reaches it on the straight.
  const b = part?.folds[0] === undefined ? NaN : ((90 - part.folds[0].angleDeg) * Math.PI) / 180;
  const setback = 6 * Math.tan(Math.PI / 4 - b / 2);
  expect(150 * Math.sin(b) - setback * Math.cos(b)).toBeCloseTo(0.5, 6);
  expect(flat.bends).toHaveLength(2);
});

test('a plan says in plain words that it is rolled, and does not refuse', async () => {
  const planned = planParts({ template: await loadFamily('shell'), inputs: SIZES });
  if (!planned.ok) throw new Error('not planned');
  const [one] = planned.result.parts;
  expect(planned.isFoldable).toBe(true);
  expect(one?.foldPlan).toBeNull();
  expect(planText('drum', null, 'flat', undefined, one?.rolling)).toMatch(
    /rolled, no fold of a machine.*inside radius of 150 mm over 360 deg[^]*bump it in \d+ hits/,
  );
});

test('random shells roll up to their diameter, edges in their planes, with the metal of their blanks', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.record({
        diameter: fc.double({ min: 60, max: 900, noNaN: true }),
        diameterOf: fc.constantFrom('inside', 'outside', 'middle'),
        arc: fc.oneof(fc.constant(360), fc.double({ min: 20, max: 350, noNaN: true })),
        length: fc.double({ min: 20, max: 600, noNaN: true }),
        thickness: fc.constantFrom(1, 1.5, 2, 3),
        pieces: fc.integer({ min: 1, max: 4 }),
        faceOut: fc.constantFrom('lower', 'upper'),
        cornerGap: fc.double({ min: 0, max: 2, noNaN: true }),
        hand: fc.constantFrom('left', 'right'),
      }),
      async (inputs) => {
        for (const part of await make('shell', { ...inputs, material: 's235' })) {
          const measures = rolledMeasures(part);
          expect(measures).toHaveLength(4);
          for (const { askedMm, foundMm } of measures)
            expect(Math.abs((foundMm ?? NaN) - askedMm)).toBeLessThan(1e-3);
          const metal = (part.flat?.areaMm2 ?? 0) * inputs.thickness;
          expect(meshVolume(part) / metal).toBeCloseTo(1, 9);
        }
      },
    ),
    { numRuns: fuzzRuns(20) },
  );
});
