import { describe, expect, test } from 'vitest';
import { loopGap } from '../../src/geometry/gap.ts';
import { moveLoop, movePoint } from '../../src/geometry/motion2.ts';
import type { FlatPanel, FlatPattern } from '../../src/model/flat.ts';
import type { Part } from '../../src/model/part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { checkTemplate, loadFamily, make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { expectFoldsBack } from '../helpers/fold-back.ts';
import { published } from '../helpers/published.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

checkTemplate('duct-box');

/** K = 0.42, 3 mm, inside radius 3: setback 6, allowance 6.6916, deduction 5.3084 at 90 degrees. */
const K042 = { material: 's235', thickness: 3, radius: 3, rule: 'k:0.42' };
const STRAIGHT = { width: 100, height: 60, endWidth: 100, endHeight: 60, length: 150, ...K042 };

/** The figures the user is told, by name. */
const reportOf = async (inputs: Record<string, unknown>): Promise<ReadonlyMap<string, number>> => {
  const made = makeParts(await loadFamily('duct-box'), inputs, UNPLANNED);
  return new Map(
    made.ok ? made.reports.flatMap((r) => r.figures.map((f) => [f.name, f.value])) : [],
  );
};

const panelOf = (flat: FlatPattern, id: string): FlatPanel =>
  flat.panels.find((p) => p.id === id) as FlatPanel;

describe('a straight duct is a strip folded three times', () => {
  // 2 (100 + 60), less three deductions and, at the seam, twice the thickness and half the gap
  // along a square corner.
  const flatWidth = 320 - 3 * 5.3084 - 2 * (3 + 0.25 * Math.SQRT2);

  test('without lips', async () => {
    const { blank, folded, result } = await makeOne('duct-box', { ...STRAIGHT, lip: 0 });
    expect([blank.widthMm, blank.heightMm]).toEqual([
      expect.closeTo(flatWidth, 3),
      expect.closeTo(150, 9),
    ]);
    expect(
      result.bends
        .map((b) => [b.id, b.angleDeg, b.direction])
        .toSorted(([a], [b]) => String(a).localeCompare(String(b))),
    ).toEqual(['A', 'B', 'C'].map((id) => [id, expect.closeTo(90, 9), 'up']));
    // The wall of the seam lies 3 + 0.35 short of the outside of the one across it.
    expect(folded.sizeMm.toSorted((a, b) => a - b)).toEqual(
      [60, 100, 150].map((n) => expect.closeTo(n, 6)),
    );
  });

  test('lips outward take length less their deduction', async () => {
    const { blank, folded } = await makeOne('duct-box', {
      ...STRAIGHT,
      lip: 20,
      end: 'lip-out',
      endLip: 16,
    });
    expect(blank.heightMm).toBeCloseTo(150 + 20 + 16 - 2 * 5.3084, 3);
    // A lip stands out by 20 less the thickness on either side.
    expect(folded.sizeMm.toSorted((a, b) => a - b)).toEqual(
      [60 + 34, 100 + 34, 150].map((n) => expect.closeTo(n, 6)),
    );
  });

  test('with measure inside the openings are clear, and the lips stand out from their walls', async () => {
    const inputs = { ...STRAIGHT, measure: 'inside', lip: 20 };
    const { blank, folded } = await makeOne('duct-box', inputs);
    expect(folded.sizeMm.toSorted((a, b) => a - b)).toEqual(
      [66 + 40, 106 + 40, 150].map((n) => expect.closeTo(n, 6)),
    );
    expect(blank.heightMm).toBeCloseTo(150 + 23 - 5.3084, 3);
    const said = await reportOf(inputs);
    expect([said.get('inlet area'), said.get('outlet area')]).toEqual([
      expect.closeTo(6000, 6),
      expect.closeTo(6000, 6),
    ]);
  });

  test('two halves have two seams, a top of its own has both beside it', async () => {
    const halves = await make('duct-box', {
      ...STRAIGHT,
      lip: 0,
      blanks: 'halves',
      seam: 'top-left',
    });
    expect(halves.map((p) => p.result.name)).toEqual([
      'duct-box-left-bottom',
      'duct-box-right-top',
    ]);
    const inset = 3 + 0.25 * Math.SQRT2;
    for (const half of halves)
      expect(half.result.blank?.widthMm).toBeCloseTo(160 - 5.3084 - 2 * inset, 3);
    const off = await make('duct-box', { ...STRAIGHT, lip: 0, blanks: 'top-off' });
    expect(off.map((p) => [p.result.name, p.result.bends.length])).toEqual([
      ['duct-box-top', 0],
      ['duct-box-left-bottom-right', 2],
    ]);
    expect(off.find((p) => p.result.name === 'duct-box-top')?.result.blank?.widthMm).toBeCloseTo(
      100 - 2 * inset,
      6,
    );
  });
});

describe('the even frustum 200 x 200 to 100 x 100 over 150, 1.5 mm', () => {
  const FRUSTUM = {
    width: 200,
    height: 200,
    endWidth: 100,
    endHeight: 100,
    length: 150,
    material: 's235',
    thickness: 1.5,
    radius: 1.5,
    rule: 'k:0.42',
  };

  test('turns by acos(sin2 b), tan b = 50 / 150, at every corner', async () => {
    const { result, part, flat } = await makeOne('duct-box', { ...FRUSTUM, lip: 0 });
    // The angle between the normals of neighbouring walls, worked by hand.
    expect(result.bends.map((b) => b.angleDeg)).toEqual(
      [84.2608, 84.2608, 84.2608].map((a) => expect.closeTo(a, 4)),
    );
    expect((await reportOf(FRUSTUM)).get('taper of the left')).toBeCloseTo(
      (Math.atan(1 / 3) * 180) / Math.PI,
      9,
    );
    expectFoldsBack(part as Part, flat);
    // Cut square: the outer edge of the aperture ends a little in, for the inner edge stands lower
    // by 1.5 tan b.
    const slant = Math.hypot(150, 50);
    const wall = panelOf(flat, 'right').region.map((v) => v.y);
    expect([Math.min(...wall), Math.max(...wall)]).toEqual([
      expect.closeTo(0.5, 9),
      expect.closeTo(slant, 9),
    ]);
  });

  test('lips turn 90 less the taper at the aperture and inward, 90 and the taper outward at the end', async () => {
    const b = (Math.atan(1 / 3) * 180) / Math.PI;
    const out = await makeOne('duct-box', { ...FRUSTUM, end: 'lip-out' });
    expect(
      out.result.bends.filter((f) => 'EFGH'.includes(f.id)).map((f) => [f.angleDeg, f.direction]),
    ).toEqual(Array(4).fill([expect.closeTo(90 - b, 9), 'down']));
    expect(
      out.result.bends.filter((f) => 'JKLM'.includes(f.id)).map((f) => [f.angleDeg, f.direction]),
    ).toEqual(Array(4).fill([expect.closeTo(90 + b, 9), 'down']));
    const inward = await makeOne('duct-box', { ...FRUSTUM, end: 'lip-in' });
    expect(
      inward.result.bends
        .filter((f) => 'JKLM'.includes(f.id))
        .map((f) => [f.angleDeg, f.direction]),
    ).toEqual(Array(4).fill([expect.closeTo(90 - b, 9), 'up']));
  });

  test('deep lips outward fan together in the flat, and stay as far apart as the cutter needs', async () => {
    const { flat } = await makeOne('duct-box', {
      ...FRUSTUM,
      lip: 0,
      end: 'lip-out',
      endLip: 40,
      leastSlot: 3,
    });
    const drawn = (id: string) => moveLoop(panelOf(flat, id).placement, panelOf(flat, id).region);
    // Root of the blank is the right wall; the bottom lies at its left and the top at its right.
    for (const id of ['bottom end lip', 'top end lip'])
      expect(loopGap(drawn('right end lip'), drawn(id))).toBeCloseTo(3, 6);
  });

  test('reports openings, speed and hydraulic diameter', async () => {
    const { given, expect: asked, tolerance } = published('duct', 'a1');
    const [a, b] = [given['a'] as number, given['b'] as number];
    const said = await reportOf({ ...FRUSTUM, measure: 'inside', endWidth: a, endHeight: b });
    expect(said.get('inlet area')).toBeCloseTo(40000, 6);
    expect(said.get('outlet area')).toBeCloseTo(a * b, 6);
    expect(said.get('speed at the outlet')).toBeCloseTo(40000 / (a * b), 9);
    expect(
      Math.abs((said.get('hydraulic diameter of the outlet') ?? NaN) - (asked['Dh'] as number)),
    ).toBeLessThan(tolerance);
    // Outside dimensions: 200 - 2 x 1.5 sqrt(1 + 1/9) on either side of the opening.
    expect((await reportOf(FRUSTUM)).get('inlet area')).toBeCloseTo((200 - Math.sqrt(10)) ** 2, 6);
    // Inward lips of 12 leave 100 - 24.
    expect(
      (await reportOf({ ...FRUSTUM, end: 'lip-in', endLip: 12 })).get('outlet area'),
    ).toBeCloseTo(76 * 76, 6);
  });

  test('a side that leans over 24 degrees is told the length that would do: 2.25 times the step', async () => {
    const steep = await makeOne('duct-box', { ...FRUSTUM, length: 100, lip: 0 });
    const said = steep.result.findings.find((f) => f.rule === 'steep-taper');
    const length = Number(/length of ([\d.]+)/.exec(said?.message ?? '')?.[1]);
    // The printed rule of the trade rounds 1 / tan 24 = 2.246.
    expect(
      Math.abs(length / 50 - (published('duct', 'a4').given['factor'] as number)),
    ).toBeLessThan(0.005);
    expect(
      rulesOf(await makeOne('duct-box', { ...FRUSTUM, length, lip: 0 }), 'note'),
    ).not.toContain('steep-taper');
  });
});

describe('the stub', () => {
  const STUB = { ...STRAIGHT, lip: 0, end: 'stub', stub: 32, stubFit: 1 };

  test('sits in a plate as large as the end, on walls that are shorter by it', async () => {
    const [walls, plate] = await make('duct-box', { ...STUB, stubRight: 12, stubUp: -3 });
    expect(walls?.result.name).toBe('duct-box-walls');
    expect(walls?.result.blank?.heightMm).toBeCloseTo(147, 9);
    expect(plate?.result.name).toBe('duct-box-end-plate');
    expect([plate?.result.blank?.widthMm, plate?.result.blank?.heightMm]).toEqual([100, 60]);
    // From the lower left corner: 50 + 12, 30 - 3.
    expect(plate?.flat?.cutouts).toEqual([
      {
        kind: 'round',
        panel: 'end plate',
        name: 'h1',
        from: 'stub',
        inputs: ['stub'],
        centre: [62, 27],
        diameterMm: 33,
      },
    ]);
    expect((await reportOf({ ...STUB, stubWall: 1 })).get('outlet area')).toBeCloseTo(
      Math.PI * 15 ** 2,
      6,
    );
  });

  test('keeps its distance from the welds, and says how large a tube may be', async () => {
    // 30 - 3 to the bottom, less 33 / 2: 10.5.
    expect(
      rulesOf((await make('duct-box', { ...STUB, stubUp: -3, stubMargin: 10.5 }))[1], 'stop'),
    ).toEqual([]);
    const [near] = await make('duct-box', { ...STUB, stubUp: -3, stubMargin: 10.6 });
    expect(rulesOf(near, 'stop')).toEqual(['stub-too-near-edge']);
    const message = near?.result.findings[0]?.message ?? '';
    expect(message).toMatch(/comes within 10\.5 mm of the weld at the bottom/);
    const most = Number(/give ([\d.]+) or less/.exec(message)?.[1]);
    expect(most).toBeCloseTo(31.8, 9);
    const endHeight = Number(/endHeight ([\d.]+) or more/.exec(message)?.[1]);
    // A tenth more below, and as much above.
    expect(endHeight).toBeCloseTo(60.2, 9);
    for (const mended of [{ stub: most }, { endHeight }]) {
      expect(
        (await make('duct-box', { ...STUB, stubUp: -3, stubMargin: 10.6, ...mended })).map((p) =>
          rulesOf(p, 'stop'),
        ),
      ).toEqual([[], []]);
    }
  });
});

describe('the plate folded on', () => {
  const STUB_ALONE = {
    width: 320,
    height: 160,
    length: 150,
    lip: 0,
    end: 'stub',
    material: 'dc01',
  };
  test('close to a weld is told what goes first, and how much flat is kept', async () => {
    const told = async (inputs: Record<string, unknown>) =>
      (await make('duct-box', { ...STUB_ALONE, ...inputs }))[0]?.result.findings.find(
        ({ rule }) => rule === 'stub-near-weld',
      )?.message;
    // 120 across and 33 of hole, 20 above the middle: 60 - 20 - 16.5 = 23.5 below the top.
    const near = { endWidth: 300, endHeight: 120, stubUp: 20, stub: 32, stubFit: 1 };
    expect(await told({ ...near, thickness: 2 })).toContain(
      'keeps 23.5 mm of flat beside the weld at the top',
    );
    expect(await told({ ...near, thickness: 1.5 })).toBeUndefined();
    // Folded on there, it is no weld.
    expect(await told({ ...near, thickness: 2, plateOn: 'top' })).toBeUndefined();
  });

  const PLATED = { ...STRAIGHT, lip: 0, end: 'stub', stub: 32, stubFit: 1, plateOn: 'bottom' };

  test('is one blank, the plate as long as the end is high, less the deduction of its bend', async () => {
    const { blank, folded, result, flat } = await makeOne('duct-box', {
      ...PLATED,
      stubRight: 12,
      stubUp: 3,
    });
    expect(result.bends.map((b) => b.id).toSorted()).toEqual(['A', 'B', 'C', 'J']);
    expect(blank.heightMm).toBeCloseTo(150 + 60 - 5.3084, 3);
    expect(folded.sizeMm.toSorted((a, b) => a - b)).toEqual(
      [60, 100, 150].map((n) => expect.closeTo(n, 6)),
    );
    // 33 over the outside of the bottom, and as the bottom is seen from inside 12 to the right of
    // its middle.
    const hole = flat.cutouts[0];
    const want = movePoint(panelOf(flat, 'bottom').placement, [12, 150 + 33 - 5.3084]);
    expect(hole?.kind === 'round' ? hole.centre : []).toEqual(
      want.map((n) => expect.closeTo(n, 3)),
    );
    expect(hole?.kind === 'round' ? hole.diameterMm : 0).toBe(33);
  });

  test('the hole keeps its distance from where the bend begins', async () => {
    // 60 / 2 - 2, less 33 / 2 and the 6 that the bend takes: 5.5.
    const near = (stubMargin: number) => make('duct-box', { ...PLATED, stubUp: -2, stubMargin });
    expect(rulesOf((await near(5.5))[0], 'stop')).toEqual([]);
    expect((await near(5.6))[0]?.result.findings[0]?.message).toMatch(
      /comes within 5\.5 mm of the bend at the bottom/,
    );
  });

  test('is not for another end', async () => {
    expect(rulesOf(await makeOne('duct-box', { ...STRAIGHT, plateOn: 'top' }), 'note')).toContain(
      'input-unused',
    );
  });
});

describe('holes', () => {
  test('of the walls are measured from the left end of the aperture, seen from outside', async () => {
    const made = await makeOne('duct-box', {
      ...STRAIGHT,
      lip: 0,
      holesBottom: '40,30,6',
      holesRight: '50,20,6',
    });
    const at = (id: string) =>
      made.flat.cutouts.flatMap((c) =>
        c.panel === id && c.kind === 'round' ? [c.centre] : [],
      )[0] ?? [NaN, NaN];
    // The bottom is drawn as seen from inside: its left end from outside is 50 to the right of its
    // middle.
    expect(at('bottom')).toEqual(
      movePoint(panelOf(made.flat, 'bottom').placement, [20, 40]).map((n) => expect.closeTo(n, 9)),
    );
    expect(at('right')).toEqual(
      movePoint(panelOf(made.flat, 'right').placement, [10, 50]).map((n) => expect.closeTo(n, 9)),
    );
  });

  test('of the lips stand evenly on the middle of the flat, no further apart than asked', async () => {
    const { flat } = await makeOne('duct-box', { ...STRAIGHT, lip: 26, lipHole: 6, lipPitch: 30 });
    const holes = flat.cutouts.flatMap((c) =>
      c.from.startsWith('lipHole bottom') && c.kind === 'round' ? [c.centre] : [],
    );
    const lip = panelOf(flat, 'bottom lip').region.map((v) =>
      movePoint(panelOf(flat, 'bottom lip').placement, [v.x, v.y]),
    );
    const [low, high] = [Math.min(...lip.map((p) => p[0])), Math.max(...lip.map((p) => p[0]))];
    // Flat 26 - 6; the end holes 10 from the ends.
    const xs = holes.map((p) => p[0]).toSorted((a, b) => a - b);
    expect([xs[0], xs.at(-1)]).toEqual([expect.closeTo(low + 10, 6), expect.closeTo(high - 10, 6)]);
    const steps = xs.slice(1).map((x, k) => x - (xs[k] ?? NaN));
    expect(xs).toHaveLength(1 + Math.ceil((high - low - 20) / 30));
    for (const step of steps) expect(step).toBeCloseTo(steps[0] ?? NaN, 6);
    const [bottom, top] = [Math.min(...lip.map((p) => p[1])), Math.max(...lip.map((p) => p[1]))];
    for (const [, y] of holes) expect(y).toBeCloseTo((bottom + top) / 2, 6);
  });
});

test('the other hand is the mirror image: offsets to the other side', async () => {
  const inputs = {
    width: 200,
    height: 160,
    endWidth: 100,
    endHeight: 80,
    length: 150,
    offsetRight: 30,
    thickness: 1.5,
    material: 's235',
  };
  const [right] = await make('duct-box', { ...inputs, hand: 'right', seam: 'bottom-left' });
  const [left] = await make('duct-box', { ...inputs, offsetRight: -30, seam: 'bottom-right' });
  expect(right?.result.blank?.areaMm2).toBeCloseTo(left?.result.blank?.areaMm2 ?? NaN, 6);
  expect(right?.result.blank?.cutLengthMm).toBeCloseTo(left?.result.blank?.cutLengthMm ?? NaN, 6);
  const turns = (p: typeof right) =>
    p?.result.bends.map((b) => b.angleDeg).toSorted((a, b) => a - b);
  expect(turns(right)).toEqual(turns(left)?.map((a) => expect.closeTo(a, 9)));
});
