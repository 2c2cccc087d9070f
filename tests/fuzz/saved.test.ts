import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { mendedCopy } from '../../src/inspect/mend.ts';
import { inspected, INSPECTING } from '../helpers/drawn-dxf.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { type Harm, HARMS } from '../helpers/harms.ts';
import { anyBlank, anySaving } from '../helpers/saved-blanks.ts';
import { saved, type Shape } from '../helpers/saved-dxf.ts';

describe('a sound file as other programs save it', () => {
  test('is inspected without a stop, as one part with its holes and its metal', () => {
    fc.assert(
      fc.property(
        anyBlank.filter((b) => b.asked.kerfMm === 0),
        anySaving,
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

describe('a harmed file', () => {
  test.each(['an outline not closed', 'an outline with a gap', 'a hole not closed'])(
    '%s: inspect stops',
    (name) => {
      const harm = HARMS.find((h) => h.name === name) as Harm;
      fc.assert(
        fc.property(anyBlank, anySaving, fc.nat(10_000), (one, how, pick) => {
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
      fc.property(anyBlank, anySaving, ({ name, shapes, holes }, how) => {
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
        fc.property(anyBlank, anySaving, fc.nat(10_000), (one, how, pick) => {
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
        anyBlank,
        anySaving,
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
        anyBlank.filter((b) => b.asked.kerfMm === 0),
        anySaving,
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
