import { describe, expect, test } from 'vitest';
import type { FindingResult } from '../../src/contract/part.ts';
import { readInputs } from '../../src/forms/read.ts';
import { selfCrossing } from '../../src/geometry/self-crossing.ts';
import type { Vec3 } from '../../src/geometry/vec3.ts';
import { bandOf } from '../../templates/duct-between/band.ts';
import { firstCrossing } from '../../templates/duct-between/crossing.ts';
import { endsOf } from '../../templates/duct-between/ends.ts';
import type { DuctBetween } from '../../templates/duct-between/inputs.ts';
import { rimsOf } from '../../templates/duct-between/rims.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

type Inputs = Readonly<Record<string, unknown>>;
const DUCT = {
  near: '200 x 120 r20',
  far: 'round 100',
  length: 150,
  thickness: 1,
  material: 'dc01',
};

const told = async (inputs: Inputs): Promise<readonly FindingResult[]> => {
  const made = makeParts(await loadFamily('duct-between'), { ...DUCT, ...inputs }, UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.parts.flatMap(({ result }) => result.findings);
};
const stopsOf = async (inputs: Inputs): Promise<readonly FindingResult[]> =>
  (await told(inputs)).filter(({ severity }) => severity === 'stop');

describe('what is refused, and the figure that passes', () => {
  test.each<readonly [string, Inputs, string | undefined]>([
    ['far-end-nowhere', { length: undefined }, undefined],
    ['far-end-given-twice', { farAt: '0,0,90; 50,0,90; 0,50,90' }, 'farAt'],
    ['plane-unknown', { length: undefined, farAt: '0,0,90; 50,0,90; 100,0,90' }, undefined],
    ['plane-unknown', { length: undefined, farAt: '0,0,90; 50,0,90' }, undefined],
    ['openings-cross', { length: 20, faceUp: 60 }, 'length'],
    ['openings-face', { length: 60, faceRight: 60, offsetRight: 30 }, 'length'],
    ['end-too-small', { far: 'round 1.5' }, undefined],
    ['unknown-point', { near: 'A; B; C' }, undefined],
    [
      'outline-wrong',
      { near: 'A; B; C; D', nearPoints: 'A: 0,0; B: 90,0; C: 0,90; D: 90,90' },
      undefined,
    ],
    ['folds-too-close', { thickness: 6, radius: 60, divisions: 24 }, 'radius'],
    [
      'seam-cuts-through',
      { cornerGap: 20, seamPlace: 'fold', divisions: 48, blanks: 'four' },
      'cornerGap',
    ],
  ])('%s', async (rule, inputs, input) => {
    const stops = await stopsOf(inputs);
    expect(stops.map((found) => found.rule)).toEqual([rule]);
    const [mend] = stops.flatMap(({ mends = [] }) => mends);
    expect(mend?.input).toBe(input);
    if (mend === undefined || input === undefined) return;
    const value = mend.value ?? mend.atLeast ?? mend.atMost;
    const after = await stopsOf({ ...inputs, [input]: mend.value === null ? undefined : value });
    expect(after.map((found) => found.rule)).not.toContain(rule);
  });

  test('the figure is the least that passes', async () => {
    const [stop] = await stopsOf({ length: 20, faceUp: 60 });
    const least = stop?.mends?.[0]?.atLeast ?? 0;
    // On the middle the pipe is 99, its chords a circle a little larger: half of it times the sine
    // of 60, and a millimetre of wall.
    const grown = (99 / 2) * (Math.PI / 12 / Math.sin(Math.PI / 12));
    expect(least).toBeGreaterThan(1 + (99 / 2) * Math.sin(Math.PI / 3));
    expect(least).toBeLessThan(1.02 + grown * Math.sin(Math.PI / 3));
    expect(await stopsOf({ length: least - 0.1, faceUp: 60 })).toHaveLength(1);
  });
});

/** A hook that turns back into itself, an opening round a post, and a star. */
const HOOK =
  '0,0; 200,0; 200,200; 80,200; 80,80; 120,80; 120,160; 160,160; 160,40; 40,40; 40,240; 0,240';
const GATE = '0,0; 200,0; 200,150; 160,150; 160,40; 40,40; 40,150; 0,150';
const STAR = '100,0; 11,11; 0,100; -11,11; -100,0; -11,-11; 0,-100; 11,-11';

test.each([
  [HOOK, HOOK, 135],
  [HOOK, GATE, 180],
  [STAR, GATE, 60],
  [GATE, STAR, 60],
  [HOOK, HOOK, 0],
  [GATE, 'round 60', 60],
  [STAR, STAR, 60],
  [GATE, GATE, 135],
])('walls from %s to %s turned by %d cross where their sections do', async (near, far, farTurn) => {
  const family = await loadFamily('duct-between');
  const asked = { ...DUCT, near, far, farTurn, offsetRight: 30, length: 100 };
  const read = readInputs(family, asked);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const v = read.values as unknown as DuctBetween;
  const ends = endsOf(v);
  if ('findings' in ends) throw new Error('no ends');
  const rims = rimsOf(v, ends.value);
  const ring = bandOf(rims.near, rims.far);
  // The ends are parallel: the same share of every ruling lies in one plane.
  const doCross = [0.05, 0.15, 0.3, 0.5, 0.7, 0.85, 0.95].some((share) => {
    const section = ring.map(({ points }) => {
      const [a, b] = points as [Vec3, Vec3];
      return { x: a[0] + share * (b[0] - a[0]), y: a[1] + share * (b[1] - a[1]), bulge: 0 };
    });
    return selfCrossing(section) !== undefined;
  });
  expect(firstCrossing(ring) !== undefined).toBe(doCross);
  const { findings = [] } = family.build(read.values);
  expect(findings.some(({ rule }) => rule === 'duct-walls-cross')).toBe(doCross);
});

describe('what is told of the air', () => {
  const figures = async (inputs: Inputs): Promise<ReadonlyMap<string, number>> => {
    const made = makeParts(await loadFamily('duct-between'), { ...DUCT, ...inputs }, UNPLANNED);
    return new Map(made.ok ? made.reports[0]?.figures.map((f) => [f.name, f.value]) : []);
  };

  test('areas, speeds and widening of a straight frustum, by hand', async () => {
    const said = await figures({ near: '102 x 102', far: '202 x 152', length: 200, flow: 360 });
    // Clear 100 x 100 and 200 x 150; 360 m3/h are 0.1 m3/s.
    expect(said.get('near area')).toBeCloseTo(10_000, -1);
    expect(said.get('far area')).toBeCloseTo(30_000, -1);
    expect(said.get('least section')).toBeCloseTo(10_000, -1);
    expect(said.get('speed at the near end')).toBeCloseTo(10, 1);
    expect(said.get('speed at the far end')).toBeCloseTo(3.333, 2);
    // The right wall leans 50 in 200.
    expect(said.get('steepest wall')).toBeCloseTo((Math.atan(50 / 200) * 180) / Math.PI, 6);
    expect(
      (await figures({ near: '102 x 102', far: '202 x 152', length: 200, flowFrom: 'far' })).get(
        'steepest widening',
      ),
    ).toBe(0);
  });

  test('a duct that goes aslant is narrower across its way', async () => {
    const said = await figures({
      near: '101 x 101',
      far: '101 x 101',
      length: 100,
      offsetRight: 100,
      thickness: 0.2,
      measure: 'inside',
    });
    // A square tube cut aslant at 45 degrees: its own section is smaller by the cosine.
    expect(said.get('near area')).toBeCloseTo(101 * 101, 0);
    expect((said.get('least section') ?? 0) / (101 * 101 * Math.SQRT1_2)).toBeCloseTo(1, 2);
  });

  test('8000 ft/min through the bore of the published case', async () => {
    // tests/published/duct.json, a5: 150 hp at 2.5 cfm each through 4355 mm2.
    const bore = 2 * Math.sqrt(4355 / Math.PI);
    const cfm = 150 * 2.5;
    const m3h = cfm * 0.3048 ** 3 * 60;
    const said = await figures({
      near: `round ${bore}`,
      far: `round ${bore}`,
      measure: 'inside',
      flow: m3h,
      divisions: 96,
    });
    expect(said.get('greatest speed')).toBeCloseTo((8000 * 0.3048) / 60, 0);
  });

  test.each<readonly [string, Inputs, boolean]>([
    ['diffuser-wide', { near: 'round 60', far: 'round 100', length: 100 }, true],
    ['diffuser-wide', { near: 'round 60', far: 'round 100', length: 400 }, false],
    ['diffuser-wide', { near: 'round 60', far: 'round 100', length: 100, flowFrom: 'far' }, false],
    ['steep-taper', { length: 30 }, true],
    ['air-fast', { flow: 1500 }, true],
    ['air-fast', { flow: 100 }, false],
    ['throat', { offsetRight: 200, length: 100 }, true],
    ['throat', {}, false],
  ])('%s of %j: %s', async (rule, inputs, isTold) => {
    const rules = (await told(inputs)).map((found) => found.rule);
    expect(rules.includes(rule)).toBe(isTold);
  });
});
