import { describe, expect, test } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import type { Part } from '../../src/model/part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily, make } from '../helpers/check-template.ts';
import { toFlatten } from '../helpers/flatten-js.ts';
import { shopWith } from '../helpers/shops.ts';
import { TREES } from '../helpers/trees.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

type Inputs = Readonly<Record<string, unknown>>;

const panels = await loadFamily('panels');

const SIDES = ['bottom', 'right', 'top', 'left'];
const onAllSides = (said: string): string[] =>
  SIDES.map((side, i) => `wall ${i} on ${side} ${said}`);
const lips = (direction: string): string[] =>
  SIDES.map((_, i) => `lip ${i} on wall ${i} end 12 90 ${direction} r2`);

const WALL = '0,0; 80,0; 65,60; 15,60';
const arcNext = (bulge: number): Inputs => ({
  base: {
    outline: [
      { x: 0, y: 0 },
      { x: 80, y: 0, bulge },
      { x: 80, y: 60 },
      { x: 0, y: 60 },
    ],
  },
  flanges: 'flange on 3 30',
});

/** The trees of the helper of that name in the notation of panels, sheet 3, radius 3. */
const WRITTEN: Readonly<Record<string, Inputs>> = {
  'fold lines that are not parallel': {
    base: { name: 'wall 0', outline: WALL },
    flanges: [1, 2, 3].map((i) => ({
      name: `wall ${i}`,
      on: `wall ${i - 1} 2`,
      outline: WALL,
      foot: '4',
      angle: 85,
    })),
    thickness: 1.5,
    radius: 2,
  },
  'slanted edge folded up, its neighbour down': {
    base: '0,0; 100,0; 100,50; 60,80; 0,80',
    flanges: ['slant on 3 30', 'top on 4 25 60 down r2', 'side on 2 30 45 down r4'],
  },
  'flange narrower than its edge, in the middle': {
    base: '100 x 60',
    flanges: 'flange on top 30 90 up width 40',
  },
  'flange narrower than its edge, at its end': {
    base: '100 x 60',
    flanges: 'flange on top 30 90 up width 40 right',
  },
  'flange that leaves a tab too narrow to keep': {
    base: '100 x 60',
    flanges: 'flange on top 30 90 up from 30 to 98',
  },
  'flange on a flange on a flange, changing direction': {
    base: '60 x 40',
    flanges: [
      'p1 on top 35 90 up r2',
      'p2 on p1 end 35 45 down r3',
      'p3 on p2 end 35 120 up r4',
      'p4 on p3 end 35 30 down r5',
    ],
    thickness: 2,
  },
  'hem round a corner': { base: '100 x 60', flanges: onAllSides('12 180 up r0.5'), thickness: 1 },
  'hem of no radius': { base: '100 x 60', flanges: onAllSides('12 180 up r0'), thickness: 1 },
  'bend of 1 degree': { base: '80 x 60', flanges: 'leg on top 40 1 up' },
  'bend of 179 degrees': { base: '80 x 60', flanges: 'leg on top 40 179 up' },
  'bend of 179 degrees down': { base: '80 x 60', flanges: 'leg on top 40 179 down' },
  'inside radius 0': { base: '80 x 60', flanges: 'leg on top 40', radius: 0 },
  'box of inside radius 0': {
    base: '100 x 60',
    flanges: onAllSides('40'),
    thickness: 2,
    radius: 0,
  },
  box: { base: '100 x 60', flanges: onAllSides('40') },
  'box of 1 degree': { base: '100 x 60', flanges: onAllSides('40 1 up'), thickness: 2, radius: 2 },
  'box past square': {
    base: '100 x 80',
    flanges: onAllSides('30 120 up'),
    thickness: 2,
    radius: 2,
  },
  'arc next to a fold': arcNext(0.3),
  'hollow arc next to a fold': arcNext(-0.3),
  'rounded corner running into a fold': {
    base: '0,0; 80,0; 80,60 r15; 0,60',
    flanges: 'flange on 3 30',
  },
  'half round plate folded on its flat': {
    base: {
      outline: [
        { x: 0, y: 0 },
        { x: 80, y: 0, bulge: 1 },
      ],
    },
    flanges: 'flange on 1 30',
  },
  'child wider than its edge': {
    base: '60 x 50',
    flanges: [
      { name: 'flange', on: 'top', outline: '0,0; 90,0; 90,40; 0,40', footFrom: 15, footTo: 75 },
    ],
  },
  'two folds on one line with a gap': {
    base: '120 x 60',
    flanges: ['left on top 30 90 up to 40', 'right on top 25 90 down from 60 to 110'],
  },
  'flanges on both sides of an inner corner': {
    base: '0,0; 100,0; 100,40; 40,40; 40,100; 0,100',
    flanges: ['a on 3 20', 'b on 4 20'],
    thickness: 2,
    radius: 2,
  },
  'tray with lips turned in': {
    base: '120 x 80',
    flanges: [...onAllSides('30'), ...lips('up')],
    thickness: 1.5,
    radius: 2,
  },
  'tray with lips turned out': {
    base: '120 x 80',
    flanges: [...onAllSides('30'), ...lips('down')],
    thickness: 1.5,
    radius: 2,
  },
  'lip on one of two walls': {
    base: '120 x 80',
    flanges: [...onAllSides('30'), 'lip on wall 0 end 12'],
    thickness: 1.5,
    radius: 2,
  },
  'lip on the side of a flange narrower than its edge': {
    base: '120 x 80',
    flanges: ['ear on top 30 90 up width 40', 'lip on ear left 12 90 up r2'],
    thickness: 2,
  },
  'lip turned out on the side of such a flange': {
    base: '120 x 80',
    flanges: ['ear on top 30 90 up width 40', 'lip on ear left 12 90 down r2'],
    thickness: 2,
  },
  'turn above an edge that is folded down itself': {
    base: '120 x 80',
    flanges: ['wall on left 45 90 up', 'turn on wall right 20 90 up', 'toe on top 30 90 down'],
  },
  'turn above an edge that is folded down by 62 degrees': {
    base: '120 x 80',
    flanges: ['wall on left 45 90 up', 'turn on wall right 20 90 up', 'toe on top 30 62 down'],
  },
  'chamfer swallowed by two bends': {
    base: '0,0; 80,0; 80,57; 77,60; 0,60',
    flanges: ['a on 2 20', 'b on 4 20'],
  },
  'inside dimensions': { base: '100 x 60', flanges: onAllSides('40'), measure: 'inside' },
};

const inputsOf = (written: Inputs): Inputs => ({
  name: 'tree',
  material: 's235',
  thickness: 3,
  radius: 3,
  rule: 'k:0.42',
  cornerGap: 0.5,
  hand: 'both',
  ...written,
});

/** The corners of a blank, whichever of them comes first, mm. */
const cornersOf = ({ outline }: FlatPattern): string[] =>
  outline.map(({ x, y }) => [x, y].map((mm) => (mm + 0).toFixed(4)).join(',')).toSorted();

const treeCalled = (name: string): Part => {
  const tree = TREES.find((one) => one.name === name);
  if (tree === undefined) throw new Error(`there is no tree called ${name}`);
  return tree.part;
};

const partOf = (written: Inputs): Part => {
  const read = makeParts(panels, inputsOf(written), { ...UNPLANNED, shop: shopWith() });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const [left] = read.parts;
  if (left?.part === undefined) throw new Error(JSON.stringify(left?.result.findings));
  return left.part;
};

describe('trees that break naive engines, in the notation of panels', () => {
  test.each(Object.entries(WRITTEN))('%s', async (name, written) => {
    const tree = treeCalled(name);
    // A relief is as wide as the sheet is thick, and those of the trees are 3 wide.
    const made = { ...partOf(written), relief: tree.relief };
    const rule = { id: 'k', k: 0.42 } as const;
    for (const [one, other] of [
      [made, tree],
      [mirrorPart(made), mirrorPart(tree)],
    ] as const) {
      const [own, wanted] = [flatten(one, rule), flatten(other, rule)];
      expect(cornersOf(own)).toEqual(cornersOf(wanted));
      expect(own.areaMm2).toBeCloseTo(wanted.areaMm2, 6);
    }
    // And as it is made, in both hands: proved, unless nobody can make it.
    for (const part of await make('panels', inputsOf(written))) {
      const stops = part.result.findings.filter(({ severity }) => severity === 'stop');
      expect(stops.map(({ rule: id }) => id)).toEqual(CANNOT_BE[name] ?? []);
      if (part.stopped) continue;
      expect(part.result.proof.worstMm).toBeLessThan(1e-3);
      expect(toFlatten(part.flat.outline).isValid()).toBe(true);
    }
  });

  test('all of them, but for prisms of many sides, are written here', () => {
    const names = TREES.map(({ name }) => name).filter((name) => !(name in WRITTEN));
    expect(names).toEqual([
      'hexagon with flared walls past square',
      'triangle with tapered walls',
      'octagon',
    ]);
  });
});

/** What stops some of them as finished parts, whatever their blanks are. */
const CANNOT_BE: Readonly<Record<string, readonly string[]>> = {};

test('sheet thicker than a flange is high: the least height, which passes', async () => {
  const inputs = (height: number): Inputs =>
    inputsOf({ base: '60 x 40', flanges: `lip on top ${height}`, thickness: 6, radius: 6 });
  const [part] = await make('panels', { ...inputs(5) });
  const [stop, ...more] = part?.result.findings.filter(({ severity }) => severity === 'stop') ?? [];
  expect([stop?.rule, more]).toEqual(['leg-too-short', []]);
  const least = Number(/make it longer than ([\d.]+) mm/.exec(stop?.message ?? '')?.[1]);
  // Radius and thickness, at 90 degrees.
  expect(least).toBe(12);
  const [mended] = await make('panels', { ...inputs(least + 0.1) });
  expect(mended?.stopped).toBe(false);
});
