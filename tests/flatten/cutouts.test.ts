import { expect, it } from 'vitest';
import { runChecks } from '../../src/checks/index.ts';
import { findMaterial } from '../../src/data/materials.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import { polygon, rectangle } from '../../src/geometry/loop.ts';
import { signedArea } from '../../src/geometry/measure.ts';
import type { Cutout } from '../../src/model/part.ts';
import { fold, panel, part } from '../helpers/parts.ts';
import { shopWith } from '../helpers/shops.ts';

const K = { id: 'k', k: 0.42 } as const;

const bracket = (onA: readonly Cutout[], onB: readonly Cutout[] = []) =>
  part(
    [panel('leg A', rectangle(0, 0, 80, 60), onA), panel('leg B', rectangle(0, 0, 80, 40), onB)],
    [fold('A', { panel: 'leg A', edge: 2 }, { panel: 'leg B', edge: 0 }, 90, 'up', 3)],
  );

const material = findMaterial('s235');
if (!material.ok) throw new Error('s235 is in the catalogue');
const sheet = material.value;

it('a cut-out over a fold is cut as it lies in the flat, whichever panel it was given in', () => {
  // A plus sign 20 wide, its middle on the mould line of leg A.
  const plus = polygon(
    [35, 50],
    [45, 50],
    [45, 55],
    [50, 55],
    [50, 65],
    [45, 65],
    [45, 70],
    [35, 70],
    [35, 65],
    [30, 65],
    [30, 55],
    [35, 55],
  );
  const flat = flatten(bracket([{ kind: 'loop', from: 'cutout', loop: plus }]), K);
  expect(flat.findings).toEqual([]);
  expect(flat.cutouts).toHaveLength(1);
  const [cut] = flat.cutouts;
  expect(cut?.kind === 'loop' && cut.loop.map((v) => [v.x, v.y])).toEqual(
    plus.map((v) => [v.x, v.y]),
  );
  expect(flat.areaMm2).toBeCloseTo(80 * flat.heightMm - signedArea(plus), 9);
  const rules = runChecks({ flat: flat, material: sheet, shop: shopWith(), isMirrored: false }).map(
    (f) => [f.rule, f.severity],
  );
  expect(rules.filter(([, severity]) => severity === 'stop')).toEqual([]);
  expect(rules.some(([rule]) => rule === 'hole-near-bend')).toBe(true);
});

it('a hole in the far leg keeps its distance from the outside corner', () => {
  const flat = flatten(
    bracket([], [{ kind: 'round', from: 'holesB', centre: [20, 22], diameterMm: 9 }]),
    K,
  );
  const [hole] = flat.cutouts;
  // Worked by hand: the blank is 94.6916 high, the hole 40 - 22 = 18 below the far edge, and 20
  // from the left end, which is the left end of leg B seen with its fold below.
  expect(hole?.kind === 'round' && hole.centre).toEqual([
    expect.closeTo(20, 9),
    expect.closeTo(94.6916 - 18, 4),
  ]);
});

it('a hole whose edge reaches into the bend zone is a warning, a hole off the metal a stop', () => {
  const near = flatten(
    bracket([{ kind: 'round', from: 'holesA', centre: [40, 52], diameterMm: 9 }]),
    K,
  );
  expect(
    runChecks({ flat: near, material: sheet, shop: shopWith(), isMirrored: false })
      .map((f) => f.severity)
      .filter((severity) => severity !== 'note'),
  ).toEqual(['warn']);
  const off = flatten(
    bracket([{ kind: 'round', from: 'holesA', centre: [78, 20], diameterMm: 9 }]),
    K,
  );
  expect(
    runChecks({ flat: off, material: sheet, shop: shopWith(), isMirrored: false })
      .map((f) => f.severity)
      .filter((severity) => severity !== 'note'),
  ).toEqual(['stop']);
});
