import fc from 'fast-check';
import { expect, test } from 'vitest';
import { assemble, defineTemplate, fields, rectangle } from '../../src/template.ts';
import { makeInStages } from '../../src/use/make/make-in-stages.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/** Medium clearance holes for M8 are 9 mm (ISO 273): a bolt has half a millimetre to any side in each. */
const HOLE_MM = 9;

/** A cover on a floor 4 mm under it, each with one hole, that of the cover aside by so much. */
const lidded = (screw?: string) =>
  defineTemplate({
    family: 'lidded',
    summary: 'A floor with a cover.',
    sketch: '[]',
    inputs: {
      asideX: fields.length({ about: 'Aside along.', min: -30, max: 30, default: 0 }),
      asideY: fields.length({ about: 'Aside across.', min: -30, max: 30, default: 0 }),
    },
    defaults: { radius: 2 },
    cautions: ['sharp-edges'],
    examples: [],
    build: (v) => {
      const slab = (id: string, meets: string, at: readonly [number, number]) =>
        assemble(v, {
          root: id,
          panels: [
            {
              id,
              outline: rectangle(0, 0, 120, 100),
              cutouts: [
                {
                  kind: 'round',
                  from: 'holes 1',
                  centre: at,
                  diameterMm: HOLE_MM,
                  use: { meets, ...(screw !== undefined && { screw }) },
                },
              ],
            },
          ],
          folds: [],
        });
      const pose = (z: number, turned: boolean) => ({
        o: [0, 0, z] as const,
        x: turned ? ([0, 1, 0] as const) : ([1, 0, 0] as const),
        y: turned ? ([-1, 0, 0] as const) : ([0, 1, 0] as const),
        z: [0, 0, 1] as const,
      });
      return {
        pieces: [
          {
            id: 'floor',
            part: slab('floor', 'cover', [60, 50]),
            standing: { poses: [pose(0, false)], weldedTo: [] },
          },
          {
            // Turned a quarter: its own (x, y) lies at (-y, x).
            id: 'cover',
            part: slab('cover', 'floor', [50 + v.asideY, -60 - v.asideX + 120]),
            standing: {
              poses: [{ ...pose(6, true), o: [120, 0, 6] as const }],
              weldedTo: [],
            },
          },
        ],
      };
    },
  });

const made = (inputs: Record<string, unknown>, screw?: string): readonly MadePart[] => {
  const all = makeParts(lidded(screw), { thickness: 2, ...inputs }, UNPLANNED);
  if (!all.ok) throw new Error(JSON.stringify(all.problems));
  return all.parts;
};
const apartOf = ({ result }: MadePart) =>
  result.findings.filter(({ rule }) => rule === 'bolt-holes-apart');

test('holes that are bolted to each other stop both pieces where no bolt goes through, in both hands', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -3, max: 3, noNaN: true }),
      fc.double({ min: -3, max: 3, noNaN: true }),
      fc.constantFrom('left', 'both'),
      (asideX, asideY, hand) => {
        const aside = Math.hypot(asideX, asideY);
        fc.pre(Math.abs(aside - 1) > 1e-6);
        for (const part of made({ asideX, asideY, hand }, 'M8')) {
          const found = apartOf(part);
          expect(found).toHaveLength(aside > 1 ? 1 : 0);
          expect(part.stopped).toBe(aside > 1);
          if (aside <= 1) continue;
          expect(part.files()).toEqual([]);
          expect(found[0]?.measured?.value).toBeCloseTo(aside, 9);
          expect(found[0]?.limit).toEqual({ atMost: 1, unit: 'mm' });
          const hole = part.flat?.cutouts[0];
          expect(hole?.kind === 'round' && found[0]?.at).toEqual(
            hole?.kind === 'round' && hole.centre,
          );
        }
      },
    ),
    { numRuns: fuzzRuns(60) },
  );
});

test('the message has the holes, the figure and what to do', () => {
  const [floor] = made({ asideX: 3, asideY: 4 }, 'M8');
  expect(apartOf(floor as MadePart).map(({ severity, message }) => [severity, message])).toEqual([
    [
      'stop',
      'h1 (holes 1) of floor and h1 (holes 1) of cover are bolted to each other, and lie 5 mm aside of one line, where their M8 has 1 mm of play: move the one or the other by 5 mm, or make one a slot.',
    ],
  ]);
});

test('holes that name no screw have a tenth of their width', () => {
  expect(made({ asideX: 0.89 }).map(({ stopped }) => stopped)).toEqual([false, false]);
  expect(made({ asideX: 0.91 }).map(({ stopped }) => stopped)).toEqual([true, true]);
});

test('stage by stage they are stopped alike', () => {
  const stages = makeInStages(lidded('M8'), { thickness: 2, asideX: 5 }, UNPLANNED);
  let step = stages.next();
  while (step.done !== true) step = stages.next();
  expect(step.value.ok && step.value.parts.map(({ stopped }) => stopped)).toEqual([true, true]);
});
