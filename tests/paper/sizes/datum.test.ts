import { describe, expect, test } from 'vitest';
import { flatten } from '../../../src/flatten/flatten.ts';
import { polygon, type PolygonPoint } from '../../../src/geometry/loop.ts';
import { fromDatum, usualDatum } from '../../../src/paper/sizes/datum.ts';
import { datumFor } from '../../../src/paper/sizes/datum-asked.ts';
import { datumText } from '../../../src/paper/sizes/datum-text.ts';
import { FAMILIES } from '../../../templates/index.ts';
import { examplesIn } from '../../helpers/extent.ts';
import { madeOnce } from '../../helpers/made-once.ts';
import { panel, part } from '../../helpers/parts.ts';

const flatOf = (...points: readonly PolygonPoint[]) =>
  flatten(part([panel('base', polygon(...points))], []), { id: 'k', k: 0.42 });

/** What the sizes of a blank are measured from: where on it, and on which sides. */
const namesOf = (...points: readonly PolygonPoint[]) => {
  const { x, y, turnDeg } = usualDatum(flatOf(...points));
  return [x.name, y.name, Number(turnDeg.toFixed(3))];
};

describe('the datum that is taken', () => {
  test('is two edges at right angles, on the left and at the bottom of equal ones', () => {
    expect(namesOf([0, 0], [120, 0], [120, 80], [0, 80])).toEqual([
      'the left edge (base)',
      'the bottom edge (base)',
      0,
    ]);
  });

  test('has no slanted edge, however far on the left it lies', () => {
    expect(namesOf([30, 0], [120, 0], [120, 80], [0, 80])).toEqual([
      'the right edge (base)',
      'the top edge (base)',
      0,
    ]);
  });

  test('is the edges of a blank that lies askew, which is then drawn turned', () => {
    const turned = ([x, y]: readonly [number, number]): [number, number] => [
      x * Math.cos(0.3) - y * Math.sin(0.3),
      x * Math.sin(0.3) + y * Math.cos(0.3),
    ];
    const points = (
      [
        [0, 0],
        [120, 0],
        [120, 80],
        [0, 80],
      ] as const
    ).map(turned);
    expect(namesOf(...points)).toEqual([
      'the left edge (base)',
      'the bottom edge (base)',
      Number(((0.3 * 180) / Math.PI).toFixed(3)),
    ]);
    expect(datumText(usualDatum(flatOf(...points)))).toContain('Drawn turned by 17.2° clockwise');
  });

  test('is an edge and a square at its end where no two are at right angles', () => {
    expect(namesOf([0, 0], [100, 0], [70, 60], [40, 70])).toEqual([
      'a square at the left end of the bottom edge (base)',
      'the bottom edge (base)',
      0,
    ]);
  });

  test.each([...FAMILIES])('lies on the metal of every blank: %s', async (_, load) => {
    const template = (await load()).default;
    for (const { inputs } of examplesIn(template)) {
      const made = madeOnce(template, { ...inputs }, { foldAt: 'service' });
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      for (const { flat, datum } of made.parts) {
        if (flat === undefined || datum === undefined) throw new Error('not made');
        for (const line of [datum.x, datum.y]) {
          if (line.kind !== 'edge') continue;
          // Both ends of an edge are points of the outline.
          for (const end of line.ends ?? [])
            expect(
              Math.min(...flat.outline.map((v) => Math.hypot(v.x - end[0], v.y - end[1]))),
            ).toBeLessThan(0.02);
        }
        const { x, y } = datum;
        expect(x.towards[0] * y.towards[0] + x.towards[1] * y.towards[1]).toBeCloseTo(0, 6);
      }
    }
  });
});

describe('the datum that is asked for', () => {
  const flat = flatOf([0, 0], [120, 0], [120, 80], [0, 80]);

  test.each([
    [
      ['right', 'top'],
      [110, 75],
      [10, 5],
    ],
    [
      ['base left', 'base top'],
      [10, 75],
      [10, 5],
    ],
    // The other line goes through an end of the one edge.
    [['right'], [110, 75], [10, 75]],
  ] as const)('%j', (names, place, values) => {
    const { datum, findings } = datumFor(flat, names);
    expect(findings).toEqual([]);
    expect(fromDatum(datum, place)).toEqual(values.map((v) => expect.closeTo(v, 9)));
  });

  test.each([
    [
      ['lid left'],
      'no straight edge or hole called lid left: it has left, right, bottom, top, base',
    ],
    [['h1', 'left'], 'called h1'],
    [['left', 'right'], 'not at right angles'],
  ] as const)('%j is told, and the usual one taken', (names, told) => {
    const { datum, findings } = datumFor(flat, names);
    expect(findings.map((f) => [f.rule, f.severity])).toEqual([['datum-not-there', 'warn']]);
    expect(findings[0]?.message).toContain(told);
    expect(datum).toEqual(usualDatum(flat));
  });
});
