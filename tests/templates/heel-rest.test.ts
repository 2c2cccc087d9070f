import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { movePoint } from '../../src/geometry/motion2.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import type { Report } from '../../src/contract/report.ts';
import { checkTemplate, loadFamily, make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { fixedRuns, shareOf } from '../helpers/extent.ts';
import { expectFoldsBack } from '../helpers/fold-back.ts';
import { foldedPlaces } from '../helpers/witness.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

checkTemplate('heel-rest');

/**
 * By hand with K = 0.42, 2 mm, inside radius 2: s = 4 and BA = 4.46106 at 90 degrees; hems of
 * radius 1.
 */
const BY_HAND = {
  floorAngle: 0,
  treadAngle: 0,
  width: 80,
  treadDepth: 100,
  lift: 40,
  lipHeight: 25,
  cheeks: 'none',
  hemRadius: 1,
  material: 's235',
  thickness: 2,
  radius: 2,
  rule: 'k:0.42',
};

type Vec = readonly number[];

const minus = (a: Vec, b: Vec): Vec => a.map((n, i) => n - (b[i] ?? NaN));
const dot = (a: Vec, b: Vec): number => a.reduce((sum, n, i) => sum + n * (b[i] ?? NaN), 0);

/**
 * Corners of a panel's lower and upper face, folded by the witness, in the drawing's coordinates of
 * the tread.
 */
function cornersOf({
  part,
  flat,
}: MadePart): Map<string, { readonly lower: readonly Vec[]; readonly upper: readonly Vec[] }> {
  if (part === undefined || flat === undefined) throw new Error('no flat pattern');
  const places = foldedPlaces(flat, part.root);
  return new Map(
    flat.panels.map((panel) => {
      const face = (z: number): Vec[] =>
        panel.region.map(
          (v) => places.get(panel.id)?.([...movePoint(panel.placement, [v.x, v.y]), z]) ?? [],
        );
      return [panel.id, { lower: face(0), upper: face(flat.thicknessMm) }];
    }),
  );
}

/**
 * The floor as the tread sees it: turned by the wedge from the tread, through the lowest of all
 * corners.
 */
function overFloor(
  corners: ReturnType<typeof cornersOf>,
  floorAngle: number,
  treadAngle: number,
): (p: Vec) => number {
  const turn = ((floorAngle - treadAngle) * Math.PI) / 180;
  const up = [0, -Math.sin(turn), Math.cos(turn)];
  const lowest = Math.min(
    ...[...corners.values()]
      .flatMap(({ lower, upper }) => [...lower, ...upper])
      .map((p) => dot(up, p)),
  );
  return (p) => dot(up, p) - lowest;
}

/** How far the folded panels reach along the floor; bends not counted. */
function alongFloor(
  corners: ReturnType<typeof cornersOf>,
  floorAngle: number,
  treadAngle: number,
): number {
  const turn = ((floorAngle - treadAngle) * Math.PI) / 180;
  const along = [...corners.values()]
    .flatMap(({ lower, upper }) => [...lower, ...upper])
    .map((p) => dot([0, Math.cos(turn), Math.sin(turn)], p));
  return Math.max(...along) - Math.min(...along);
}

/** A figure of the report that comes with these inputs. */
async function reported(inputs: Record<string, unknown>): Promise<(name: string) => number> {
  const made = makeParts(await loadFamily('heel-rest'), inputs, UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return figuresOf(made.reports);
}

const figuresOf =
  ([report]: readonly Report[]) =>
  (name: string): number =>
    report?.figures.find((f) => f.name === name)?.value ?? NaN;

describe('by hand', () => {
  test('a level platform with a single step is a hat: 25 + 40 + 100 + 40 + 25 less four deductions', async () => {
    const { blank, folded, ...rest } = await makeOne('heel-rest', {
      ...BY_HAND,
      lipHeight: 0,
      holesFront: '14,20,6',
      holesRear: '14,20,6',
      holesTread: '30,20,8',
      holesRiser: '18,20,5',
    });
    // BD = 8 - 4.46106.
    expect(blank.heightMm).toBeCloseTo(230 - 4 * 3.53894, 4);
    expect(blank.widthMm).toBeCloseTo(80, 6);
    // Flanges are measured to the inside of the risers, a sheet nearer to each other than their
    // outsides.
    expect([...folded.sizeMm].sort((a, b) => a - b)).toEqual(
      [40, 80, 25 - 2 + 100 + 25 - 2].map((n) => expect.closeTo(n, 6)),
    );
    const at = Object.fromEntries(
      rest.flat.cutouts.map((c) => [c.from, c.kind === 'round' ? c.centre[1] : NaN]),
    );
    // Each bend takes BD of what lies before it: up from the rear, and the front as far from its
    // end.
    expect(at['holesRear 1']).toBeCloseTo(25 - 14, 6);
    expect(at['holesFront 1']).toBeCloseTo(blank.heightMm - 11, 6);
    expect(at['holesTread 1']).toBeCloseTo(25 + 40 - 2 * 3.53894 + 30, 4);
    // Up from the foot of the front riser, which is the higher one where both are alike.
    expect(at['holesRiser 1']).toBeCloseTo(blank.heightMm - (25 + 18 - 3.53894), 4);
    expect(
      rest.flat.cutouts.every((c) => c.kind === 'round' && Math.abs(c.centre[0] - 20) < 1e-6),
    ).toBe(true);
  });

  test('its stop is folded double with the rear riser', async () => {
    const [made, figure] = [await makeOne('heel-rest', BY_HAND), await reported(BY_HAND)];
    // Flats from the rear: flange 25 - 4, leaf 40 + 25 - 4 - (1 + 2), leaf 25 - 2 - (1 + 2), tread
    // 100 - 8, riser 40 - 8, flange 25 - 4; four square bends and one of pi (1 + 0.84) between
    // them.
    expect(made.blank.heightMm).toBeCloseTo(
      21 + 58 + 20 + 92 + 32 + 21 + 4 * 4.461062 + 5.78053,
      5,
    );
    // Behind the tread lie a gap of twice the radius and the sheet, and the flange from the gap on.
    expect([...made.folded.sizeMm].sort((a, b) => a - b)).toEqual(
      [65, 80, 2 + 25 + 100 + 25 - 2].map((n) => expect.closeTo(n, 6)),
    );
    expect(figure('length along the floor')).toBeCloseTo(150, 9);
    // Without flanges from the outside of the stop's back to the outside of the riser: a gap and a
    // sheet more than the tread.
    expect(
      (await reported({ ...BY_HAND, flangeFront: 0, flangeRear: 0 }))('length along the floor'),
    ).toBeCloseTo(2 + 2 + 100, 9);
    expect(made.result.bends.map((b) => [b.id, b.angleDeg, b.direction])).toEqual(
      expect.arrayContaining([
        ['A', 90, 'up'],
        ['B', 180, 'down'],
        ['C', 90, 'up'],
        ['D', 90, 'down'],
        ['E', 90, 'up'],
      ]),
    );
    expect(rulesOf(made, 'note')).toContain('stop-folded-double');
  });

  test('a wedge of 30 degrees, r = 0: the riser is (97.4641 sin 30 - 2 cos 30) / sin 90 = 47 between its bends', async () => {
    const inputs = { ...BY_HAND, treadAngle: 30, lift: 0, lipHeight: 0, radius: 0 };
    const [made, figure] = [await makeOne('heel-rest', inputs), await reported(inputs)];
    // Tangents at 2 tan 15 and, past square, 2 from the ends of the tread; 0.84 pi / 180 of bend a
    // degree.
    const flats =
      25 - 2 * Math.tan(Math.PI / 12) + (100 - 2 * Math.tan(Math.PI / 12) - 2) + 47 + (25 - 2);
    expect(made.blank.heightMm).toBeCloseTo(flats + (0.84 * Math.PI * (30 + 120 + 90)) / 180, 6);
    // The upper face stands 2 cos 30 over the floor where its lower face meets it.
    expect(figure('rise at the rear')).toBeCloseTo(2 * Math.cos(Math.PI / 6), 9);
    expect(figure('rise at the front')).toBeCloseTo(2 * Math.cos(Math.PI / 6) + 50, 9);
    expect([figure('angle of the shoe'), figure('angle over the floor')]).toEqual([30, 30]);
    // The faces cross 2 (tan 60 - 1) beyond the outermost tangent, half as much higher.
    expect(figure('front riser height')).toBeCloseTo(
      2 * Math.cos(Math.PI / 6) + 50 + Math.tan(Math.PI / 3) - 1,
      9,
    );
    expect(figure('front riser length')).toBeCloseTo(figure('front riser height'), 9);
  });

  test('the grip: seven and six holes in turn on equal triangles, in the middle', async () => {
    // Middles from 12 + 4 to 136 across, and, 4 of bend further in, from 20 to 80 along: 120 by 60.
    const { flat } = await makeOne('heel-rest', {
      ...BY_HAND,
      width: 152,
      lipHeight: 0,
      grip: 'holes',
      gripSize: 8,
      gripPitch: 20,
      gripMargin: 12,
    });
    const rows = new Map<string, number[]>();
    for (const c of flat.cutouts)
      if (c.kind === 'round')
        rows.set(c.centre[1].toFixed(3), [
          ...(rows.get(c.centre[1].toFixed(3)) ?? []),
          c.centre[0],
        ]);
    expect([...rows.values()].map((r) => r.length)).toEqual([7, 6, 7, 6]);
    expect([...rows.values()][0]).toEqual(
      [16, 36, 56, 76, 96, 116, 136].map((n) => expect.closeTo(n, 6)),
    );
    expect([...rows.values()][1]?.[0]).toBeCloseTo(26, 6);
    const [first = NaN, second = NaN] = [...rows.keys()].map(Number);
    expect(second - first).toBeCloseTo(10 * Math.sqrt(3), 2);
  });

  test('the grip leaves room for a hole of the user', async () => {
    const more = { ...BY_HAND, width: 152, lipHeight: 0, grip: 'holes', gripMargin: 12 };
    const [all, some] = [
      await makeOne('heel-rest', more),
      await makeOne('heel-rest', { ...more, holesTread: '50,76,30' }),
    ];
    expect(all.flat.cutouts).toHaveLength(26);
    expect(some.flat.cutouts.length).toBeLessThan(26);
    expect(rulesOf(some, 'stop')).toEqual([]);
  });
});

describe('where the stop stands', () => {
  test.each([
    [0, 12, 'rear'],
    [0, -12, 'front'],
    [20, 0, 'rear'],
    [-20, 0, 'front'],
    [15, 5, 'rear'],
    [-15, -5, 'front'],
  ])('floor %d, tread %d: at the %s', async (floorAngle, treadAngle, place) => {
    for (const [lipPlace, wanted] of [
      ['low', place],
      ['front', 'front'],
      ['rear', 'rear'],
    ] as const) {
      const made = await makeOne('heel-rest', {
        ...BY_HAND,
        lift: 0,
        treadDepth: 150,
        floorAngle,
        treadAngle,
        lipPlace,
      });
      const corners = cornersOf(made);
      const middle = (id: string): number =>
        (corners.get(id)?.upper ?? []).reduce(
          (sum, p, _, all) => sum + (p[1] ?? NaN) / all.length,
          0,
        );
      expect(middle('stop') > middle('tread') ? 'front' : 'rear').toBe(wanted);
    }
  });

  test('single where its edge is bare, with a hem away from the heel', async () => {
    const made = await makeOne('heel-rest', {
      ...BY_HAND,
      lift: 0,
      treadAngle: 20,
      flangeRear: 0,
      hem: 10,
    });
    expect(made.result.bends.map((b) => b.angleDeg).sort((a, b) => a - b)).toEqual([
      90, 90, 110, 180,
    ]);
    const corners = cornersOf(made);
    const behind = (id: string): number =>
      Math.max(...(corners.get(id)?.upper ?? []).map((p) => p[1] ?? NaN));
    expect(behind('hem')).toBeLessThan(behind('stop'));
    // From the outside of the stop's top down: 10, of which 3 are bend.
    const heights = (corners.get('hem')?.upper ?? []).map((p) => p[2] ?? NaN);
    const top = Math.max(...(corners.get('stop')?.upper ?? []).map((p) => p[2] ?? NaN)) + 3;
    expect(top - Math.min(...heights)).toBeCloseTo(10, 6);
    // Over the upper face of the tread, which lies at 2.
    expect(top).toBeCloseTo(2 + 25, 6);
  });

  test.each([
    [{ treadAngle: 20, lift: 0 }, 'stop-and-flange', 'flangeRear 0'],
    [{ treadAngle: 20, lift: 0, lipPlace: 'front' }, 'stop-and-riser', 'lipPlace rear'],
    [{}, 'stop-and-riser', 'lipFold double'],
  ])('a single one on an edge that is taken is told so: %o', async (more, rule, mend) => {
    const [part] = await make('heel-rest', { ...BY_HAND, lipFold: 'single', ...more });
    expect(rulesOf(part, 'stop')).toEqual([rule]);
    expect(part?.result.findings[0]?.message).toContain(mend);
  });

  test('a hem or holes without their place are noted', async () => {
    const [part] = await make('heel-rest', {
      ...BY_HAND,
      hem: 10,
      flangeFront: 0,
      holesFront: '12,20,6',
    });
    expect(rulesOf(part, 'note')).toEqual(expect.arrayContaining(['hem-unused', 'input-unused']));
    expect(part?.stopped).toBe(false);
  });
});

test('bends of 90 degrees or less fold back to their mould lines, on both hands', async () => {
  for (const measure of ['outside', 'inside']) {
    for (const more of [
      {},
      { treadAngle: 20, floorAngle: 10, riserAngle: 75 },
      { floorAngle: 12, lift: 0, riserAngle: 70, cheekFlange: 18, treadDepth: 150 },
    ]) {
      for (const part of await make('heel-rest', {
        ...BY_HAND,
        lipHeight: 0,
        cheeks: 'both',
        measure,
        hand: 'both',
        holesTread: '50,20,8',
        ...more,
      })) {
        expect(rulesOf(part, 'stop')).toEqual([]);
        if (part.part !== undefined && part.flat !== undefined)
          expectFoldsBack(part.part, part.flat);
      }
    }
  }
});

const steps = (min: number, max: number, step = 1): fc.Arbitrary<number> =>
  fc.integer({ min: min / step, max: max / step }).map((n) => n * step);

test('whatever the angles: flanges, cheeks and risers reach the floor, nothing is below it, and the rises are as reported', async () => {
  const template = await loadFamily('heel-rest');
  const inputs = fc.record({
    floorAngle: steps(-30, 30),
    treadAngle: steps(-25, 25),
    width: fc.constant(90),
    treadDepth: steps(60, 200),
    riserAngle: fc.oneof(fc.constant(90), steps(60, 120)),
    lift: fc.oneof(fc.constant(0), steps(20, 60)),
    lipHeight: fc.constantFrom(0, 20, 35),
    lipPlace: fc.constantFrom('low', 'front', 'rear'),
    flangeFront: fc.constantFrom(0, 25),
    flangeRear: fc.constantFrom(0, 25),
    cheeks: fc.constantFrom('both', 'left', 'right', 'none'),
    cheekFlange: fc.constantFrom(0, 22),
    measure: fc.constantFrom('outside', 'inside'),
    thickness: fc.constantFrom(1, 2, 3),
    radius: fc.constantFrom(0, 1, 3),
    hemRadius: fc.constantFrom(0, 1.5),
    cornerRadius: fc.constantFrom(0, 4),
  });
  let whole = 0;
  fc.assert(
    fc.property(inputs, (given) => {
      const made = makeParts(template, { ...given, rule: 'k:0.42' }, UNPLANNED);
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      const [part] = made.parts;
      if (part === undefined || part.stopped || part.flat === undefined) return;
      whole += 1;
      const corners = cornersOf(part);
      const over = overFloor(corners, given.floorAngle, given.treadAngle);
      const on = (id: string, face: 'lower' | 'upper'): number[] =>
        (corners.get(id)?.[face] ?? []).map(over);
      for (const id of [
        'front flange',
        'rear flange',
        'left cheek flange',
        'right cheek flange',
      ].filter((name) => corners.has(name))) {
        for (const height of on(id, 'lower')) expect(height, id).toBeCloseTo(0, 6);
      }
      for (const id of corners.keys()) {
        // Cheeks and risers without a flange stand on the floor themselves.
        const stands =
          /riser$|cheek$/.test(id) &&
          !part.part?.folds.some((f) => f.parent.panel === id && f.child.panel.endsWith('flange'));
        if (stands) expect(Math.min(...on(id, 'lower'), ...on(id, 'upper')), id).toBeCloseTo(0, 6);
      }
      const figure = figuresOf(made.reports);
      expectRises(part, figure, over, given.treadDepth, given.measure);
      const length = alongFloor(corners, given.floorAngle, given.treadAngle);
      // What leans out may reach further than the flanges, with its bend.
      const isUpright = given.riserAngle <= 90 && given.lipHeight === 0;
      if (isUpright && given.flangeFront > 0 && given.flangeRear > 0)
        expect(figure('length along the floor')).toBeCloseTo(length, 6);
      else expect(figure('length along the floor')).toBeGreaterThan(length - 1e-6);
      if (given.lift > 0)
        expect(Math.min(figure('rise at the front'), figure('rise at the rear'))).toBeCloseTo(
          given.lift,
          6,
        );
    }),
    { numRuns: fixedRuns(400) },
  );
  expect(whole).toBeGreaterThan(shareOf(150));
});

/**
 * The tread's upper face, drawn on to where `treadDepth` begins and ends: inside, t tan(A/2) after
 * its outside corner, or t.
 */
function expectRises(
  part: MadePart,
  figure: (name: string) => number,
  over: (p: Vec) => number,
  depth: number,
  measure: string,
): void {
  const [placed, t] = [
    part.flat?.panels.find((p) => p.id === 'tread')?.placement,
    part.flat?.thicknessMm ?? NaN,
  ];
  if (placed === undefined) throw new Error('no tread');
  // Folds across the slope are A, B, ... from the rear forwards, and the pieces of the tread begin
  // at its rear.
  const atRear = part.part?.folds.find((f) =>
    [f.parent, f.child].some((s) => s.panel === 'tread' && s.edge === 0),
  );
  const bend = atRear?.angleDeg ?? 0;
  const start = measure === 'inside' ? t * (bend > 90 ? 1 : Math.tan((bend * Math.PI) / 360)) : 0;
  const rear = [...movePoint(placed, [0, start]), t];
  const front = [...movePoint(placed, [0, start + depth]), t];
  expect(minus(front, rear)[1]).toBeCloseTo(depth, 6);
  expect(over(rear)).toBeCloseTo(figure('rise at the rear'), 6);
  expect(over(front)).toBeCloseTo(figure('rise at the front'), 6);
}
