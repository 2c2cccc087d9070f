import fc from 'fast-check';
import { expect, test } from 'vitest';
import { makeParts } from '../../src/index.ts';
import { angleWish, defineTemplate, diameterWish, edge, faceOf, wish } from '../../src/template.ts';
import { box, angle } from '../helpers/parts.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';
import { type Loose, DRAFT, panels, FOLD, INPUTS } from './crate-stop.ts';

/** A value with something else in one place of it. */
const spoilt = (whole: object, pick: number, value: unknown): unknown => {
  const copy = structuredClone(whole) as Loose;
  const places: (readonly [Loose, string])[] = [];
  const visit = (holder: Loose): void => {
    for (const key of Object.keys(holder)) {
      places.push([holder, key]);
      if (typeof holder[key] === 'object' && holder[key] !== null) visit(holder[key] as Loose);
    }
  };
  visit({ copy });
  const [holder, key] = places[pick % places.length] as (typeof places)[number];
  holder[key] = value;
  return copy;
};

test('whatever stands anywhere in a part, it is made, stopped with a reason, or a problem: nothing is thrown', () => {
  const anything = fc.oneof(
    fc.constantFrom<unknown>(
      null,
      undefined,
      '',
      'x',
      'floor',
      'top',
      'A',
      NaN,
      -1,
      0,
      1,
      1.5,
      3,
      1e6,
      true,
      [],
      {},
      [1, 2],
      { x: 1, y: 2 },
    ),
    fc.double({ min: -200, max: 200 }),
    fc.jsonValue(),
  );
  const hole = {
    kind: 'round',
    centre: [20, 20],
    diameterMm: 9,
    use: { screw: 'M8', meets: 'post', countersink: { diameterMm: 16, face: 'up' } },
  };
  const wished = {
    panels: panels(50, 80).map((p) => (p.id === 'floor' ? { ...p, cutouts: [hole] } : p)),
    folds: [FOLD],
    wishes: [
      wish('floor', 50, edge('floor', 'down'), faceOf('lip', 'up', 'outside')),
      diameterWish('hole', 9, 'floor', 'hole 1'),
      angleWish('angle', 90, 'floor', 'lip'),
    ],
  };
  const wholes = [
    { panels: panels(50, 80), folds: [FOLD] },
    {
      panels: panels(50, 80),
      folds: [
        {
          ...FOLD,
          parent: { panel: 'floor', edge: 'top' },
          child: { panel: 'lip', edge: 'bottom' },
        },
      ],
    },
    wished,
    angle(60, 40, 80, 90, 3, 3),
    box(100, 60, 30, 90, 3, 2),
  ];
  fc.assert(
    fc.property(fc.constantFrom(...wholes), fc.nat(), anything, (whole, pick, value) => {
      const part = spoilt({ part: whole }, pick, value);
      const made = makeParts(
        defineTemplate({ ...DRAFT, build: () => part as never }),
        { ...INPUTS, hand: 'right' },
        UNPLANNED,
      );
      if (!made.ok)
        expect(
          made.problems.every((p) => p.input.startsWith('template.build') && p.allowed !== ''),
        ).toBe(true);
      else
        for (const one of made.parts)
          if (one.stopped)
            expect(one.result.findings.some((f) => f.severity === 'stop')).toBe(true);
    }),
    { numRuns: fuzzRuns(300) },
  );
});
