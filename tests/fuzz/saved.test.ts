import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { signedArea } from '../../src/geometry/measure.ts';
import { mendedCopy } from '../../src/inspect/mend.ts';
import type { MakeOptions } from '../../src/use/make/make-parts.ts';
import type { Asked } from '../../src/contract/asked.ts';
import { FAMILIES } from '../../templates/index.ts';
import { askedIn } from '../helpers/asked-in.ts';
import { inspected, INSPECTING } from '../helpers/drawn-dxf.ts';
import { examplesIn, fuzzRuns } from '../helpers/extent.ts';
import { type Harm, HARMS } from '../helpers/harms.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { isOwnMirror } from '../helpers/own-mirror.ts';
import { proofOf, stopsOf } from '../helpers/proved.ts';
import { AS_IT_IS, saved, type Saving, type Shape, shapesOf } from '../helpers/saved-dxf.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';
import type { Proof } from '../../src/contract/proof.ts';

/** A blank of an example of a family, as it was made and as it was asked for. */
interface Blank {
  readonly name: string;
  readonly shapes: readonly Shape[];
  readonly asked: Asked;
  readonly holes: number;
  /** Of the metal as it was cut. */
  readonly areaMm2: number;
}

const MADE: readonly (readonly [name: string, options: Partial<MakeOptions>])[] = [
  ['', {}],
  [', cut only', { cutOnly: true }],
  [', with kerf', { kerf: 1.2 }],
  [', with nicks', { marks: 'nicks' }],
];

const blanksOf = async (family: string): Promise<Blank[]> => {
  const template = (await (FAMILIES.get(family) as NonNullable<ReturnType<typeof FAMILIES.get>>)())
    .default;
  return examplesIn(template).flatMap(({ inputs }, i) =>
    MADE.flatMap(([how, options]) => {
      const made = madeOnce(template, inputs, { ...UNPLANNED, ...options });
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      return made.parts.flatMap(({ drawing, result }): Blank[] => {
        if (drawing === undefined || result.proof === null) return [];
        const items = drawing.items.filter(
          (item) => options.cutOnly !== true || item.role === 'outline' || item.role === 'hole',
        );
        const asked = askedIn(result);
        const area = (vertices: (typeof asked.cut.holes)[number]): number =>
          signedArea(vertices.map(([x, y, bulge]) => ({ x, y, bulge })));
        const areaMm2 = asked.cut.holes.reduce(
          (sum, hole) => sum - area(hole),
          area(asked.cut.outline),
        );
        return [
          {
            name: `${result.name} ${i + 1}${how}`,
            shapes: shapesOf(items),
            asked,
            holes: asked.cut.holes.length,
            areaMm2,
          },
        ];
      });
    }),
  );
};

const BLANKS = (await Promise.all([...FAMILIES.keys()].map(blanksOf))).flat();

/** By name, which is all that a failing case has to say of it. */
const blank = fc
  .constantFrom(...BLANKS.map((b) => b.name))
  .map((name) => BLANKS.find((b) => b.name === name) as Blank);

const saving: fc.Arbitrary<Saving> = fc.record({
  circles: fc.constantFrom<Saving['circles'][]>('circle', 'ellipse', 'arcs', 'polyline', 'spline'),
  loops: fc.constantFrom<Saving['loops'][]>('light', 'heavy', 'exploded'),
  block: fc.constantFrom<Saving['block'][]>('none', 'none', 'one', 'nested', 'turned'),
  layers: fc.constantFrom<Saving['layers'][]>('kept', 'lower', 'mixed'),
  start: fc.double({ min: 0, max: 0.999, noNaN: true }),
  isReversed: fc.boolean(),
  order: fc.nat(1000),
  unit: fc.constantFrom<Saving['unit'][]>(
    { code: 4, perMm: 1 },
    { code: 4, perMm: 1 },
    { code: 1, perMm: 1 / 25.4 },
    { code: 5, perMm: 0.1 },
    { code: 6, perMm: 0.001 },
  ),
  move: fc.constantFrom<Saving['move'][]>(
    [0, 0],
    [0, 0],
    [100, -37.25],
    [-4321.5, 88.125],
    [3_500_000_000, 5_400_000_000],
  ),
  turnDeg: fc.constantFrom(0, 0, 90, 33.3),
  newline: fc.constantFrom<Saving['newline'][]>('\n', '\r\n'),
  linePieces: fc.integer({ min: 1, max: 3 }),
  isRounded: fc.boolean(),
});

const rulesOf = ({ findings }: Proof): string[] => [...new Set(findings.map((f) => f.rule))];

describe('a sound file as other programs save it', () => {
  test(`is proved, and nothing is told of it but that it was moved (${BLANKS.length} blanks)`, () => {
    fc.assert(
      fc.property(blank, saving, ({ name, shapes, asked }, how) => {
        const proof = proofOf(saved(shapes, how), asked);
        const cutOnly = name.endsWith('cut only') ? ['fold-lines-left-out'] : [];
        expect([
          name,
          rulesOf(proof).filter((rule) => rule !== 'file-moved' && !cutOnly.includes(rule)),
        ]).toEqual([name, []]);
        if (how.move[0] === 0 && how.turnDeg === 0)
          expect([name, rulesOf(proof)]).toEqual([
            name,
            expect.not.arrayContaining(['file-moved']),
          ]);
        expect(proof.worstMm).toBeLessThan(0.01);
      }),
      { numRuns: fuzzRuns(300) },
    );
  });

  test('is inspected without a stop, as one part with its holes and its metal', () => {
    fc.assert(
      fc.property(
        blank.filter((b) => b.asked.kerfMm === 0),
        saving,
        ({ name, shapes, holes, areaMm2 }, how) => {
          const { inspection } = inspected(saved(shapes, how));
          expect([
            name,
            inspection.findings
              .filter((f) => f.severity === 'stop' && f.rule !== 'larger-than-bed')
              .map((f) => f.message),
          ]).toEqual([name, []]);
          expect([name, inspection.contours]).toEqual([
            name,
            { closed: 1 + holes, open: 0, gaps: 0, parts: 1, holes, deepest: Math.min(1, holes) },
          ]);
          expect(Math.abs(inspection.areaMm2 - areaMm2)).toBeLessThan(0.5 + areaMm2 * 1e-4);
        },
      ),
      { numRuns: fuzzRuns(300) },
    );
  });
});

/** Whether a harm to a blank is none: a shape that is its own mirror image cannot be mirrored. */
const isHarmless = (harm: Harm, { shapes }: Blank): boolean =>
  harm.name === 'mirrored' && isOwnMirror(shapes);

describe('a harmed file', () => {
  test.each(HARMS.map((harm) => [harm.name, harm] as const))('%s: the proof says so', (_, harm) => {
    fc.assert(
      fc.property(blank, saving, fc.nat(10_000), (one, how, pick) => {
        const harmed = harm.apply(
          { shapes: one.shapes, how: { ...how, unit: AS_IT_IS.unit } },
          pick,
        );
        fc.pre(harmed !== undefined);
        const proof = proofOf(saved(harmed.shapes, harmed.how), one.asked);
        for (const rule of ['file-mirrored', 'file-scaled'])
          if (!harm.told.includes(rule))
            expect([one.name, rulesOf(proof)]).toEqual([
              one.name,
              expect.not.arrayContaining([rule]),
            ]);
        if (isHarmless(harm, one)) expect([one.name, stopsOf(proof)]).toEqual([one.name, []]);
        else
          expect([one.name, rulesOf(proof)]).toEqual([
            one.name,
            expect.arrayContaining([
              expect.stringMatching(new RegExp(`^(?:${harm.told.join('|')})$`)),
            ]),
          ]);
      }),
      { numRuns: fuzzRuns(30) },
    );
  });

  test.each(['an outline not closed', 'an outline with a gap', 'a hole not closed'])(
    '%s: inspect stops',
    (name) => {
      const harm = HARMS.find((h) => h.name === name) as Harm;
      fc.assert(
        fc.property(blank, saving, fc.nat(10_000), (one, how, pick) => {
          const harmed = harm.apply({ shapes: one.shapes, how }, pick);
          fc.pre(harmed !== undefined);
          expect([
            one.name,
            inspected(saved(harmed.shapes, harmed.how)).inspection.findings.some(
              (f) => f.severity === 'stop',
            ),
          ]).toEqual([one.name, true]);
        }),
        { numRuns: fuzzRuns(60) },
      );
    },
  );
});

const NAMES: Readonly<Record<string, string>> = {
  OUTLINE: 'A',
  HOLES: 'B',
  'FOLD-UP': 'C',
  'FOLD-DOWN': 'D',
};
const renamed = (shapes: readonly Shape[]): Shape[] =>
  shapes.flatMap((s) => (s.kind === 'text' ? [] : [{ ...s, layer: NAMES[s.layer] ?? s.layer }]));

describe('layers whose names say nothing', () => {
  test('fold lines of a sound file are not taken for contours that do not close', () => {
    fc.assert(
      fc.property(blank, saving, ({ name, shapes, holes }, how) => {
        const { inspection } = inspected(saved(renamed(shapes), how));
        expect([
          name,
          inspection.findings
            .filter((f) => f.severity === 'stop' && f.rule !== 'larger-than-bed')
            .map((f) => f.message),
        ]).toEqual([name, []]);
        expect([name, inspection.contours]).toMatchObject([
          name,
          { closed: 1 + holes, gaps: 0, parts: 1, holes },
        ]);
      }),
      { numRuns: fuzzRuns(200) },
    );
  });

  test.each(['an outline not closed', 'an outline with a gap', 'a hole not closed'])(
    '%s stops',
    (name) => {
      const harm = HARMS.find((h) => h.name === name) as Harm;
      fc.assert(
        fc.property(blank, saving, fc.nat(10_000), (one, how, pick) => {
          const harmed = harm.apply({ shapes: one.shapes, how }, pick);
          fc.pre(harmed !== undefined);
          expect([
            one.name,
            inspected(saved(renamed(harmed.shapes), harmed.how)).inspection.findings.some(
              (f) => f.severity === 'stop',
            ),
          ]).toEqual([one.name, true]);
        }),
        { numRuns: fuzzRuns(60) },
      );
    },
  );
});

describe('a mended copy', () => {
  /** What a copy may be mended of. */
  const MENDED = ['gap', 'larger-than-bed'];

  test('of a harmed file has nothing left that stops it, and what stopped the file was mended', () => {
    fc.assert(
      fc.property(
        blank,
        saving,
        fc.constantFrom(...HARMS),
        fc.constantFrom(...HARMS),
        fc.nat(10_000),
        (one, how, first, second, pick) => {
          const harmed = [first, second].reduce((file, harm) => harm.apply(file, pick) ?? file, {
            shapes: one.shapes,
            how,
          });
          const found = inspected(saved(harmed.shapes, harmed.how));
          const stops = found.inspection.findings
            .filter((f) => f.severity === 'stop')
            .map((f) => f.rule);
          const mended = mendedCopy(found, INSPECTING, 'part', 'mark');
          if (!mended.ok) {
            expect(mended.stops.length).toBeGreaterThan(0);
            return;
          }
          expect([one.name, stops.filter((rule) => !MENDED.includes(rule))]).toEqual([
            one.name,
            [],
          ]);
          const copy = inspected(mended.text).inspection;
          expect([
            one.name,
            copy.findings.filter((f) => f.severity === 'stop' && f.rule !== 'larger-than-bed'),
          ]).toEqual([one.name, []]);
          expect([one.name, copy.contours.parts, copy.contours.holes]).toEqual([
            one.name,
            found.inspection.contours.parts,
            found.inspection.contours.holes,
          ]);
        },
      ),
      { numRuns: fuzzRuns(300) },
    );
  });

  test('of an outline with a gap is the part again, whatever its layers are called', () => {
    const harm = HARMS.find((h) => h.name === 'an outline with a gap') as Harm;
    fc.assert(
      fc.property(
        blank.filter((b) => b.asked.kerfMm === 0),
        saving,
        fc.boolean(),
        (one, how, isRenamed) => {
          const harmed = harm.apply({ shapes: one.shapes, how }, 0);
          fc.pre(harmed !== undefined);
          const mended = mendedCopy(
            inspected(saved(isRenamed ? renamed(harmed.shapes) : harmed.shapes, harmed.how)),
            INSPECTING,
            'part',
            'mark',
          );
          expect([one.name, mended.ok ? '' : mended.stops.map((f) => f.message).join(' ')]).toEqual(
            [one.name, ''],
          );
          const { contours, areaMm2, layers } = inspected(mended.ok ? mended.text : '').inspection;
          expect([one.name, contours]).toMatchObject([
            one.name,
            { parts: 1, holes: one.holes, open: 0 },
          ]);
          // The ends of a gap of 0.2 mm were moved to its middle.
          expect(Math.abs(areaMm2 - one.areaMm2)).toBeLessThan(0.5 + 0.4 * Math.sqrt(one.areaMm2));
          expect(layers.map((l) => l.name)).toEqual(
            expect.arrayContaining(['OUTLINE', ...(one.holes > 0 ? ['HOLES'] : [])]),
          );
        },
      ),
      { numRuns: fuzzRuns(100) },
    );
  });
});
