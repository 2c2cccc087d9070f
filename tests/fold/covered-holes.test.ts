import { expect, test } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { coveredHoles } from '../../src/fold/covered-holes.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import { make } from '../helpers/check-template.ts';
import { fold, panel, part } from '../helpers/parts.ts';

const K = { id: 'k', k: 0.42 } as const;

test('a hole behind a tab, a hem or a lip is told, one beside it is not', () => {
  // A sheet 60 wide with a hem of 20 at its end, 1 mm open: the hem covers what lies less than 20
  // from the end.
  const hemmed = (y: number) =>
    part(
      [
        panel('base', rectangle(0, 0, 60, 80)),
        panel('wall', rectangle(0, 0, 60, 50), [
          { kind: 'round', from: 'holes 1', centre: [30, y], diameterMm: 5 },
        ]),
        panel('hem', rectangle(0, 0, 60, 20)),
      ],
      [
        fold('A', { panel: 'base', edge: 2 }, { panel: 'wall', edge: 0 }, 90, 'up', 2),
        fold('H', { panel: 'wall', edge: 2 }, { panel: 'hem', edge: 0 }, 180, 'up', 0.5),
      ],
      { thicknessMm: 2 },
    );
  const rules = (y: number) =>
    [hemmed(y), mirrorPart(hemmed(y))].map((p) =>
      coveredHoles(p, flatten(p, K)).map((f) => f.message),
    );
  const [told, mirrored] = rules(40);
  expect(told).toEqual([
    expect.stringMatching(/Hole h1 \(holes 1\) in wall lies over hem, 1 mm from it when folded/),
  ]);
  expect(mirrored).toEqual(told);
  // The hem reaches from 50 back to 30, measured on its outside.
  expect(rules(30.5)[0]).toHaveLength(1);
  expect(rules(29.5)[0]).toEqual([]);
});

test('walls that face each other across a tray are no cover', () => {
  const tray = (gap: number) =>
    part(
      [
        panel('base', rectangle(0, 0, 60, gap)),
        panel('a', rectangle(0, 0, 60, 30), [
          { kind: 'round', from: 'holes 1', centre: [30, 20], diameterMm: 5 },
        ]),
        panel('b', rectangle(0, 0, 60, 30)),
      ],
      [
        fold('A', { panel: 'base', edge: 0 }, { panel: 'a', edge: 0 }, 90, 'up', 2),
        fold('B', { panel: 'base', edge: 2 }, { panel: 'b', edge: 0 }, 90, 'up', 2),
      ],
      { thicknessMm: 2 },
    );
  const found = (gap: number) => coveredHoles(tray(gap), flatten(tray(gap), K)).length;
  // Clear between the walls: the outside less two thicknesses; 6 is three thicknesses.
  expect([found(10.1), found(9.9)]).toEqual([0, 1]);
});

test('a hole in the side of a lapped tray behind a tab of its neighbour', async () => {
  const inputs = {
    length: 200,
    depth: 140,
    height: 45,
    corner: 'lapped',
    lap: 25,
    material: 'dc01',
    thickness: 1.5,
  };
  const warned = async (along: number) =>
    (await make('tray', { ...inputs, holesLeft: `22,${along},5` }))[0]?.result.findings.filter(
      (f) => f.rule === 'hole-covered',
    ).length;
  expect([await warned(12), await warned(128), await warned(70)]).toEqual([1, 1, 0]);
});
