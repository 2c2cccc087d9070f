import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { signedArea } from '../../src/geometry/measure.ts';
import { piecesOf, pointOn } from '../../src/geometry/piece.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { checkTemplate, loadFamily, make, rulesOf } from '../helpers/check-template.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { published, publishedFile, type PublishedCheck } from '../helpers/published.ts';
import { meshVolume, rolledMeasures } from '../helpers/rolled-mesh.ts';

checkTemplate('elbow');

const SHEET = { thickness: 1, material: 'dc01', cornerGap: 0 };

const reportOf = async (inputs: Record<string, unknown>) => {
  const made = makeParts(await loadFamily('elbow'), inputs, { foldAt: 'service' });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const [report] = made.reports;
  if (report === undefined) throw new Error('no report');
  return report;
};

const pieceOf = (parts: readonly MadePart[], id: string): MadePart => {
  const found = parts.find(({ result }) => result.piece === id);
  if (found === undefined) throw new Error(`no piece ${id}`);
  return found;
};

const BACKSETS = publishedFile<{ readonly checks: readonly PublishedCheck[] }>(
  'rolled',
).checks.filter(({ id }) => id === 'elbow-backsets-5' || id.startsWith('elbow-13'));

describe('backsets, as a drafting book of the trade has them', () => {
  test('are all there', () => expect(BACKSETS).toHaveLength(7));

  test.each(BACKSETS.map((check) => [check.id, check] as const))(
    '%s',
    async (_, { given, expect: wanted, tolerance }) => {
      const { figures, tables } = await reportOf({
        ...SHEET,
        diameter: 100,
        angle: given['turn_deg'],
        centreRadius: 150,
        segments: given['pieces'],
        stub: 50,
      });
      const backset = figures.find(({ name }) => name === 'backset')?.value ?? NaN;
      expect(Math.abs(backset - Number(wanted['backset_deg']))).toBeLessThan(tolerance);
      const rises = tables[0]?.rows.map(([, deg]) => deg as number) ?? [];
      (wanted['rises_deg'] as number[]).forEach((deg, i) =>
        expect(Math.abs((rises[i] ?? NaN) - deg)).toBeLessThan(tolerance),
      );
      expect(rises).toHaveLength((wanted['rises_deg'] as number[]).length);
    },
  );
});

describe('an elbow of 100 round 150 in five pieces', () => {
  const { given, expect: wanted, tolerance } = published('rolled', 'elbow-100-150-5');
  const inputs = {
    ...SHEET,
    diameter: given['D_mid'],
    diameterOf: 'middle',
    angle: given['turn_deg'],
    centreRadius: given['CLR'],
    segments: given['pieces'],
  };

  test('has its heights round an end, its segments at throat and back, and its area', async () => {
    const { tables, figures } = await reportOf(inputs);
    const ends = wanted['end_piece'] as number[];
    expect(tables[1]?.rows).toHaveLength(ends.length);
    tables[1]?.rows.forEach(([deg, , end], i) => {
      expect(deg).toBe((given['theta_deg'] as number[])[i]);
      expect(Math.abs((end ?? NaN) - (ends[i] as number))).toBeLessThan(tolerance);
    });
    const figure = (name: string): number => figures.find((f) => f.name === name)?.value ?? NaN;
    expect(
      Math.abs(figure('segment at the throat') - Number(wanted['middle_piece_throat'])),
    ).toBeLessThan(tolerance);
    expect(
      Math.abs(figure('segment at the back') - Number(wanted['middle_piece_back'])),
    ).toBeLessThan(tolerance);
    const area = (await make('elbow', inputs)).reduce(
      (sum, { flat, result }) => sum + result.quantity * signedArea(flat?.outline ?? []),
      0,
    );
    expect(Math.abs(area - Number(wanted['total_area']))).toBeLessThan(tolerance);
  });

  test('its staggered patterns lie back to back: one cut serves both, and all fill a rectangle', async () => {
    const parts = await make('elbow', inputs);
    const end = pieceOf(parts, 'end-seam-throat');
    const next = pieceOf(parts, 'segment-seam-back');
    const upper = heights(end, 'upper');
    const lower = heights(next, 'lower');
    const lift = (upper[0] as number) - (lower[0] as number);
    upper.forEach((y, i) => expect(y - (lower[i] as number)).toBeCloseTo(lift, 2));
    const total = parts.reduce(
      (sum, { flat, result }) => sum + result.quantity * signedArea(flat?.outline ?? []),
      0,
    );
    const { figures } = await reportOf(inputs);
    const strip = figures.find(({ name }) => name === 'strip for all back to back')?.value ?? NaN;
    expect(total / (Math.PI * 100 * strip)).toBeCloseTo(1, 6);
  });
});

/** Heights of one end of a blank at places along it, read off its outline. */
const heights = ({ part }: MadePart, edge: string): number[] => {
  const outline = part?.panels[0]?.outline ?? [];
  const points = piecesOf(outline).flatMap((piece, i) =>
    outline[i]?.edge === edge ? Array.from({ length: 201 }, (_, k) => pointOn(piece, k / 200)) : [],
  );
  const long = Math.max(...points.map(([x]) => x));
  return Array.from({ length: 19 }, (_, i) => {
    const x = (long * (i + 0.5)) / 19;
    return points.reduce((best, p) => (Math.abs(p[0] - x) < Math.abs(best[0] - x) ? p : best))[1];
  });
};

test('seams of neighbours lie at the throat and at the back in turn', async () => {
  const five = await make('elbow', { ...SHEET, diameter: 100, centreRadius: 150, segments: 5 });
  expect(five.map(({ result }) => [result.piece, result.quantity])).toEqual([
    ['end-seam-throat', 2],
    ['segment-seam-back', 2],
    ['segment-seam-throat', 1],
  ]);
  const four = await make('elbow', { ...SHEET, diameter: 100, centreRadius: 150, segments: 4 });
  expect(four.map(({ result }) => [result.piece, result.quantity])).toEqual([
    ['end-seam-throat', 1],
    ['segment-seam-back', 1],
    ['segment-seam-throat', 1],
    ['end-seam-back', 1],
  ]);
});

describe('segments in pieces, for a sheet that is too short', () => {
  const LARGE = { ...SHEET, diameter: 1200, centreRadius: 1800, segments: 4, cornerGap: 1 };

  test('are told how many, which then fit, and nobody else’s figure is asked for', async () => {
    const short = { ...LARGE, sheetLength: 2000 };
    const [part] = await make('elbow', short);
    const stop = part?.result.findings.find((f) => f.severity === 'stop');
    expect(stop?.rule).toBe('wall-over-sheet');
    expect(stop?.mends).toContainEqual({ input: 'pieces', atLeast: 2 });
    const parts = await make('elbow', { ...short, pieces: 2 });
    for (const made of parts) {
      expect(rulesOf(made, 'stop')).toEqual([]);
      expect(made.result.blank?.widthMm).toBeLessThanOrEqual(2000);
    }
    expect(rulesOf((await make('elbow', { ...short, sheetLength: 600 }))[0], 'stop')).toEqual([
      'wall-over-sheet',
    ]);
  });

  test('may end where the curves of their ends turn', async () => {
    for (const part of await make('elbow', {
      ...LARGE,
      diameter: 1193,
      cornerGap: 0,
      pieces: 4,
      seamPlace: 'back',
    }))
      expect(rulesOf(part, 'stop')).toEqual([]);
  });

  test.each(['staggered', 'throat', 'back'])(
    '%s: no seam is lost, none of two in turn meet',
    async (seamPlace) => {
      for (const pieces of [2, 3, 4]) {
        const parts = await make('elbow', { ...LARGE, pieces, seamPlace });
        const area = (all: readonly MadePart[]): number =>
          all.reduce((sum, { flat, result }) => sum + result.quantity * (flat?.areaMm2 ?? 0), 0);
        expect(parts.reduce((sum, { result }) => sum + result.quantity, 0)).toBe(4 * pieces);
        const whole = await make('elbow', { ...LARGE, cornerGap: 0, seamPlace });
        const inPieces = await make('elbow', { ...LARGE, cornerGap: 0, pieces, seamPlace });
        expect(area(inPieces) / area(whole)).toBeCloseTo(1, 7);
        const starts = (kind: string): Set<number> =>
          new Set(
            parts.flatMap(({ result: { piece } }) =>
              piece?.startsWith(kind) === true ? [startDeg(piece)] : [],
            ),
          );
        // With four segments each kind stands in both rows.
        expect(starts('end').size).toBe(seamPlace === 'staggered' ? 2 * pieces : pieces);
        expect(starts('segment')).toEqual(starts('end'));
      }
    },
  );
});

test('random elbows: ends in their planes, seams of equal length that meet, and the metal of their blanks', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.record({
        diameter: fc.double({ min: 60, max: 300, noNaN: true }),
        diameterOf: fc.constantFrom('inside', 'outside', 'middle'),
        angle: fc.double({ min: 60, max: 180, noNaN: true }),
        segments: fc.integer({ min: 3, max: 5 }),
        stub: fc.double({ min: 10, max: 60, noNaN: true }),
        seamPlace: fc.constantFrom('staggered', 'throat', 'back'),
        cornerGap: fc.double({ min: 0, max: 1, noNaN: true }),
        pieces: fc.constantFrom(1, 1, 2, 3),
        radii: fc.double({ min: 1.2, max: 3, noNaN: true }),
      }),
      async ({ radii, ...rest }) => {
        const inputs = {
          ...rest,
          centreRadius: rest.diameter * radii,
          thickness: 1,
          material: 'dc01',
        };
        for (const part of await make('elbow', inputs)) {
          expect(rulesOf(part, 'stop')).toEqual([]);
          const measures = rolledMeasures(part);
          expect(measures).toHaveLength(4);
          for (const { askedMm, foundMm } of measures)
            expect(Math.abs((foundMm ?? NaN) - askedMm)).toBeLessThan(3e-3);
          expectInPlanes(part, rest, inputs.centreRadius);
          expect(meshVolume(part) / (part.flat?.areaMm2 ?? 0)).toBeCloseTo(1, 3);
        }
      },
    ),
    { numRuns: fuzzRuns(12) },
  );
});

/** Where a piece begins, from the back, by its name. */
const startDeg = (id: string | null | undefined): number =>
  id?.endsWith('throat') === true ? 180 : Number(/-(\d+)-to-/.exec(id ?? '')?.[1] ?? 0);

/** Each corner of the outline, rolled up by hand, lies in one of the two planes. */
const expectInPlanes = (
  { part, result }: MadePart,
  v: {
    readonly angle: number;
    readonly segments: number;
    readonly stub: number;
    readonly cornerGap: number;
    readonly pieces: number;
  },
  centreRadius: number,
): void => {
  const outline = part?.panels[0]?.outline ?? [];
  const long = Math.max(...outline.map(({ x }) => x));
  const radius = (v.pieces * (long + v.cornerGap)) / (2 * Math.PI);
  const start = (startDeg(result.piece) * Math.PI) / 180;
  const slope = Math.tan(((v.angle / (2 * (v.segments - 1))) * Math.PI) / 180);
  const isEnd = result.piece?.startsWith('end') === true;
  const middle = isEnd ? v.stub : (centreRadius + radius) * slope;
  const ends = new Set<boolean>();
  let exact = 0;
  for (const { x, y } of outline) {
    const out = radius * Math.cos(start + (x + v.cornerGap / 2) / radius);
    const upper = y - middle - (centreRadius + out) * slope;
    const lower = isEnd ? y : y - middle + (centreRadius + out) * slope;
    // Where two arcs meet between points of the curve they may be as far off it as its arcs.
    const off = Math.min(Math.abs(upper), Math.abs(lower));
    expect(off).toBeLessThan(2e-3);
    if (off < 1e-6) exact += 1;
    ends.add(Math.abs(upper) < Math.abs(lower));
  }
  expect(ends.size).toBe(2);
  expect(exact).toBeGreaterThanOrEqual(7);
  if (v.pieces > 1) return;
  // The two edges of the seam are the two upright pieces, and equally long.
  const seams = piecesOf(outline).filter((_, i) =>
    ['left', 'right'].includes(outline[i]?.edge ?? ''),
  );
  const [a, b] = seams.map(({ from, to }) => Math.abs(to[1] - from[1]));
  expect(Math.abs((a ?? NaN) - (b ?? NaN))).toBeLessThan(1e-6);
};

test.each([30, 60, 90, 120, 135, 150, 180])('turns by %f degrees in five pieces', async (angle) => {
  const inputs = { diameter: 100, diameterOf: 'middle', centreRadius: 150, angle };
  for (const part of await make('elbow', { ...inputs, material: 'dc01', thickness: 1 }))
    expect(rulesOf(part, 'stop')).toEqual([]);
});

describe('what cannot be made is told with what can', () => {
  const SIZES = { ...SHEET, diameter: 100, centreRadius: 150 };
  test.each([
    [{ centreRadius: 50 }, 'throat-too-narrow', 'centreRadius'],
    [{ segments: 2, angle: 150 }, 'elbow-too-few-segments', 'segments'],
    [{ seam: 'lap', lap: 60 }, 'lap-too-long', 'lap'],
    [{ diameter: 5, thickness: 2 }, 'rolled-too-tight', 'diameter'],
  ])('%j', async (more, rule, input) => {
    const [part] = await make('elbow', { ...SIZES, ...more });
    const stop = part?.result.findings.find((f) => f.severity === 'stop');
    expect(stop?.rule).toBe(rule);
    const mend = stop?.mends?.find((m) => m.input === input);
    const value = mend?.atLeast ?? mend?.atMost;
    expect(value).toBeTypeOf('number');
    // The figure that is told passes.
    const [mended] = await make('elbow', { ...SIZES, ...more, [input]: value });
    expect(rulesOf(mended, 'stop')).not.toContain(rule);
  });

  test('less than a diameter is a note, and one and a half none', async () => {
    const [tight] = await make('elbow', { ...SIZES, centreRadius: 90 });
    expect(rulesOf(tight, 'note')).toContain('tight-elbow');
    const [usual] = await make('elbow', SIZES);
    expect(rulesOf(usual, 'note')).not.toContain('tight-elbow');
  });
});

test('bends round one and a half diameters of its middle where no radius is given', async () => {
  const inputs = { diameter: 101, diameterOf: 'outside', thickness: 1, material: 'dc01' };
  const [given] = await make('elbow', { ...inputs, centreRadius: 150 });
  const [usual] = await make('elbow', inputs);
  expect(usual?.flat?.outline).toEqual(given?.flat?.outline);
});
