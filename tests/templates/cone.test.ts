import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arcOf } from '../../src/geometry/arc.ts';
import { piecesOf } from '../../src/geometry/piece.ts';
import { signedArea } from '../../src/geometry/measure.ts';
import { distance } from '../../src/geometry/vec2.ts';
import { coneThrough, flatCone, flatDeg, lineMm } from '../../src/kit/cone.ts';
import type { Part } from '../../src/model/part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { fitText } from '../../src/use/fit/fit-text.ts';
import { checkTemplate, loadFamily, make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { published } from '../helpers/published.ts';
import { meshVolume, rolledMeasures } from '../helpers/rolled-mesh.ts';

checkTemplate('cone');

const figuresOf = async (inputs: Record<string, unknown>): Promise<ReadonlyMap<string, number>> => {
  const made = makeParts(await loadFamily('cone'), inputs, { foldAt: 'service' });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return new Map(made.reports[0]?.figures.map(({ name, value }) => [name, value]));
};

const near = (found: number | undefined, wanted: unknown, tolerance: number): void =>
  expect(Math.abs((found ?? NaN) - Number(wanted))).toBeLessThan(tolerance);

describe('right cones', () => {
  test('a cone of 90 degrees at its apex opens to 254.6, as a page of smiths prints it', () => {
    const { given, expect: wanted, tolerance } = published('rolled', 'cone-90');
    const half = (Number(given['apex_deg']) * Math.PI) / 360;
    const cone = coneThrough(100, 50, 50 / Math.tan(half), 0);
    near(flatDeg(cone, 0, 360), wanted['sector_deg'], tolerance);
  });

  test('a frustum by its mean diameters has the arcs, sector, chord and area of the published formula', async () => {
    const { given, expect: wanted, tolerance } = published('rolled', 'frustum-80-120-150-mid');
    const inputs = {
      largeDiameter: given['D_mid'],
      smallDiameter: given['d_mid'],
      height: given['height'],
      diameterOf: 'middle',
      thickness: 1,
      cornerGap: 0,
      material: 'dc01',
    };
    const figures = await figuresOf(inputs);
    near(figures.get('radius of the small arc'), wanted['inner_radius'], tolerance);
    near(figures.get('radius of the large arc'), wanted['outer_radius'], tolerance);
    near(figures.get('angle of the sector'), wanted['sector_deg'], tolerance);
    near(figures.get('chord of the large arc'), wanted['chord_outer'], tolerance);
    const { flat } = await makeOne('cone', inputs);
    near(signedArea(flat.outline), wanted['area'], tolerance);
  });

  test('one measured outside has its middle t cos(lean) within', async () => {
    const { given, expect: wanted, tolerance } = published('rolled', 'frustum-thickness');
    const inputs = {
      largeDiameter: given['D_outside'],
      smallDiameter: given['d_outside'],
      height: given['height_between_outer_edges'],
      thickness: given['t'],
    };
    const figures = await figuresOf(inputs);
    near(figures.get('radius of the small arc'), wanted['inner_radius'], tolerance);
    near(figures.get('radius of the large arc'), wanted['outer_radius'], tolerance);
    near(figures.get('angle of the sector'), wanted['sector_deg'], tolerance);
    near(
      (figures.get('inside at the small end') ?? NaN) + Number(given['t']),
      wanted['d_mid'],
      tolerance,
    );
    near(
      (figures.get('inside at the large end') ?? NaN) + Number(given['t']),
      wanted['D_mid'],
      tolerance,
    );
  });

  test('its ends are true arcs about one apex in the cut file', async () => {
    const { flat } = await makeOne('cone', {
      largeDiameter: 200,
      smallDiameter: 120,
      height: 90,
      thickness: 1,
    });
    const arcs = piecesOf(flat.outline).flatMap((p) =>
      p.bulge === 0 ? [] : [arcOf(p.from, p.to, p.bulge)],
    );
    const [first] = arcs;
    for (const { centre } of arcs)
      expect(distance(centre, first?.centre ?? [NaN, NaN])).toBeLessThan(1e-6);
    expect(new Set(arcs.map(({ radius }) => radius.toFixed(6))).size).toBe(2);
  });

  test('pieces of it are all one blank, so many times', async () => {
    const parts = await make('cone', {
      largeDiameter: 600,
      smallDiameter: 300,
      height: 400,
      pieces: 3,
      thickness: 1.5,
    });
    expect(parts.map(({ result }) => [result.piece, result.quantity])).toEqual([['piece', 3]]);
  });
});

test('flat facets of a random oblique cone are congruent with those that its lines enclose in space', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 40, max: 400, noNaN: true }),
      fc.double({ min: 0.1, max: 0.95, noNaN: true }),
      fc.double({ min: 20, max: 800, noNaN: true }),
      fc.double({ min: 0, max: 300, noNaN: true }),
      fc.double({ min: 0, max: 360, noNaN: true }),
      (radius, share, height, offset, from) => {
        const cone = coneThrough(radius, radius * share, height, offset);
        const flat = flatCone(cone, from, from + 360);
        const rad = (deg: number): number => (deg * Math.PI) / 180;
        const space = (deg: number): readonly number[] => [
          radius * Math.cos(rad(deg)) - cone.offsetMm,
          radius * Math.sin(rad(deg)),
          -cone.heightMm,
        ];
        // Narrow triangles from the apex: both sides are true lengths, and the third differs from
        // its chord in space by no more than the wall bulges over so small a step.
        for (let deg = from; deg < from + 359; deg += 40) {
          const [p, q] = [space(deg), space(deg + 0.1)];
          expect(distance(flat.at(deg, 1), [0, 0])).toBeCloseTo(Math.hypot(...p), 6);
          const chord = Math.hypot(...p.map((v, i) => v - (q[i] as number)));
          expect(distance(flat.at(deg, 1), flat.at(deg + 0.1, 1)) / chord).toBeCloseTo(1, 5);
        }
        // The large end keeps its length, step by step.
        const rim = Array.from({ length: 3600 }, (_, i) =>
          distance(flat.at(from + i / 10, 1), flat.at(from + (i + 1) / 10, 1)),
        ).reduce((sum, d) => sum + d, 0);
        expect(rim / (2 * Math.PI * radius)).toBeCloseTo(1, 6);
        expect(lineMm(cone, from)).toBeCloseTo(lineMm(cone, from + 360), 9);
      },
    ),
    { numRuns: fuzzRuns(30) },
  );
});

/** A part's outline is drawn through points of the development, whose ends lie in their planes. */
const planeError = (part: Part | undefined, height: number): number => {
  const wish = part?.wishes?.find((w) => w.kind === 'rolled');
  if (wish?.kind !== 'rolled' || wish.shape.kind !== 'cone') throw new Error('no cone');
  const { heightMm, radiusMm, offsetMm, startDeg } = wish.shape;
  // Walked round by its chords in steps so small that they are exact, not by what made it.
  const outline = part?.panels[0]?.outline ?? [];
  const steps = 40_000;
  const lines = [{ flat: 0, long: 0 }];
  let flat = 0;
  const foot = (i: number): readonly number[] => {
    const rad = (startDeg * Math.PI) / 180 + (2 * Math.PI * i) / steps;
    return [radiusMm * Math.cos(rad) - offsetMm, radiusMm * Math.sin(rad), -heightMm];
  };
  lines[0] = { flat, long: Math.hypot(...foot(0)) };
  for (let i = 0; i < steps; i++) {
    const [p, q] = [foot(i), foot(i + 1)];
    const [m, n] = [Math.hypot(...p), Math.hypot(...q)];
    const c = Math.hypot(...p.map((v, k) => v - (q[k] as number)));
    flat += 2 * Math.asin(Math.sqrt(Math.max(0, c * c - (m - n) ** 2) / (4 * m * n)));
    lines.push({ flat, long: n });
  }
  const [ax, ay] = wish.frame.axis;
  return outline.reduce((worst, { x, y }) => {
    const at = Math.atan2(ax * y - ay * x, ax * x + ay * y);
    const own = at < -1e-9 ? at + 2 * Math.PI : at;
    const k = lines.findIndex((l) => l.flat >= own);
    const [a, b] = [lines[Math.max(0, k - 1)], lines[k]];
    if (a === undefined || b === undefined) return worst;
    const u = b.flat === a.flat ? 0 : (own - a.flat) / (b.flat - a.flat);
    const up = heightMm * (1 - Math.hypot(x, y) / (a.long + u * (b.long - a.long)));
    return Math.max(worst, Math.min(Math.abs(up), Math.abs(up - height)));
  }, 0);
};

test('corners of random cones lie in the planes of their ends, edges meet, and the metal is that of the blank', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.record({
        largeDiameter: fc.double({ min: 120, max: 600, noNaN: true }),
        share: fc.double({ min: 0.3, max: 0.9, noNaN: true }),
        height: fc.double({ min: 40, max: 500, noNaN: true }),
        offset: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 150, noNaN: true })),
        seamAt: fc.double({ min: 0, max: 360, noNaN: true }),
        pieces: fc.integer({ min: 1, max: 3 }),
        thickness: fc.constantFrom(1, 2),
        diameterOf: fc.constantFrom('inside', 'outside', 'middle'),
        cornerGap: fc.double({ min: 0, max: 1.5, noNaN: true }),
      }),
      async ({ share, ...rest }) => {
        const inputs = { ...rest, smallDiameter: rest.largeDiameter * share, material: 's235' };
        for (const part of await make('cone', inputs)) {
          expect(rulesOf(part, 'stop')).toEqual([]);
          for (const { askedMm, foundMm } of rolledMeasures(part))
            expect(Math.abs((foundMm ?? NaN) - askedMm)).toBeLessThan(0.006);
          // Where two arcs meet between points of the curve they may be as far off it as its arcs.
          expect(planeError(part.part, rest.height)).toBeLessThan(2e-3);
          const metal = (part.flat?.areaMm2 ?? 0) * inputs.thickness;
          // The chords of a model leave a sliver of the arcs out.
          expect(meshVolume(part) / metal).toBeCloseTo(1, 3);
        }
      },
    ),
    { numRuns: fuzzRuns(12) },
  );
});

describe('what cannot be made is told with what can', () => {
  const SIZES = { largeDiameter: 200, smallDiameter: 120, height: 150, thickness: 1.5 };
  test.each([
    [{ smallDiameter: 200 }, 'cone-without-taper', { input: 'smallDiameter', atMost: 199 }],
    [{ smallDiameter: 4 }, 'rolled-too-tight', undefined],
    [{ seam: 'lap', lap: 60 }, 'seam-over-cone', { input: 'seam', value: 'butt' }],
    [{ sheetLength: 300 }, 'wall-over-sheet', { input: 'pieces', atLeast: 3 }],
  ])('%j', async (more, rule, mend) => {
    const [part] = await make('cone', { ...SIZES, ...more });
    const stop = part?.result.findings.find((f) => f.severity === 'stop');
    expect(stop?.rule).toBe(rule);
    if (mend !== undefined) expect(stop?.mends).toContainEqual(mend);
    expect(stop?.mends?.length).toBeGreaterThan(0);
  });
});

describe('a cone so flat that its blank takes up nearly all of the round about its apex', () => {
  const FLAT = { largeDiameter: 952, smallDiameter: 822, height: 5, material: 'dc01' };
  test.each([
    { ...FLAT, thickness: 2, seam: 'lap', lap: 153 },
    { ...FLAT, thickness: 2, seam: 'lap', lap: 153, offset: 30, hand: 'right' },
    { ...FLAT, thickness: 6, height: 2 },
  ])('%j is told with pieces, height and lap that pass', async (inputs) => {
    const [part] = await make('cone', inputs);
    const stop = part?.result.findings.find((f) => f.severity === 'stop');
    expect(stop?.rule).toBe('cone-too-flat');
    expect(stop?.mends?.length).toBeGreaterThan(1);
    for (const { input, atLeast, atMost } of stop?.mends ?? []) {
      const [mended] = await make('cone', { ...inputs, [input]: atLeast ?? atMost });
      expect(rulesOf(mended, 'stop')).toEqual([]);
    }
  });

  test('is proved with a lap that lies beyond the middle of what is left', async () => {
    const inputs = { largeDiameter: 39.5, smallDiameter: 31.5, height: 3, seam: 'lap', lap: 10 };
    for (const hand of ['left', 'right']) {
      const [part] = await make('cone', { ...inputs, thickness: 1, material: 'dc01', hand });
      if (part === undefined) throw new Error('no part');
      expect(rulesOf(part, 'stop')).toEqual([]);
      expect(rolledMeasures(part)).toHaveLength(4);
      for (const { askedMm, foundMm } of rolledMeasures(part))
        expect(Math.abs((foundMm ?? NaN) - askedMm)).toBeLessThan(0.006);
    }
  });
});

test('lines that lie nearer to each other than points that count as one keep both hands equal', async () => {
  const inputs = { largeDiameter: 15, smallDiameter: 5.87, height: 14.6, offset: 969, pieces: 2 };
  const sizes = (
    await make('cone', { ...inputs, diameterOf: 'middle', thickness: 0.5, hand: 'both' })
  ).map(({ result }) => result.folded?.sizeMm ?? []);
  expect(sizes).toHaveLength(4);
  for (const size of sizes)
    size.forEach((mm, i) => expect(mm).toBeCloseTo(sizes[0]?.[i] ?? NaN, 4));
});

test('how well it fits is not told where nothing can be told', async () => {
  const inputs = { largeDiameter: 130, smallDiameter: 80, height: 110, material: '5754-h111' };
  const made = makeParts(await loadFamily('cone'), { ...inputs, thickness: 1.5 }, { fit: {} });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const fit = made.parts[0]?.result.fit;
  if (fit === undefined || fit === null) throw new Error('no fit');
  expect(fit.measures).toEqual([]);
  expect(fitText('cone', fit)).toMatch(/95 times in 100\)\n {2}No figure can be told ahead/);
});
