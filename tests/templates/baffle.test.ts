import { describe, expect, test } from 'vitest';
import { baffle } from '../../templates/baffle/build.ts';
import { type BaffleSection, bendDegOf, sectionAreaMm2 } from '../../templates/baffle/section.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import { movePoint } from '../../src/geometry/motion2.ts';
import type { CommonValues } from '../../src/forms/common.ts';
import { readInputs } from '../../src/forms/read.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import type { ReportResult } from '../../src/contract/part.ts';
import { checkTemplate, loadFamily, make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { expectFoldsBack } from '../helpers/fold-back.ts';
import { toFlatten } from '../helpers/flatten-js.ts';
import { published } from '../helpers/published.ts';
import { reportOf } from '../helpers/report-of.ts';

checkTemplate('baffle');

/** By hand with K = 0.42, 2 mm, inside radius 2: s = 4, BA = 4.46106. */
const BY_HAND = {
  width: 400,
  height: 300,
  material: 's235',
  thickness: 2,
  radius: 2,
  rule: 'k:0.42',
};
const [S, BA] = [4, 4.46106];

const figureOf = (report: ReportResult, name: string): number =>
  report.figures.find((f) => f.name === name)?.value ?? NaN;

/** Points of the blank in the coordinates of the tank's section: from the left end of its floor. */
const inSection = ({
  flat,
}: Pick<MadePart, 'flat'>): ((x: number, y: number) => readonly [number, number]) => {
  const root = flat?.panels.find((p) => p.id === 'baffle');
  if (root === undefined) throw new Error('no plate');
  const [x0, y0] = movePoint(root.placement, [0, 0]);
  return (x, y) => [x - x0, y - y0];
};

describe('a baffle for a tank 400 x 300, 2 mm, a clearance of 1 all round', () => {
  test('blank and folded size with flanges at floor and walls', async () => {
    const { blank, folded, result } = await makeOne('baffle', BY_HAND);
    // Across, 398 less two bends, and a flange of 20 at either end; upright, one bend and one
    // flange.
    expect(blank.widthMm).toBeCloseTo(398 - 2 * S + 2 * (BA + 20 - S), 4);
    expect(blank.heightMm).toBeCloseTo(298 - S + BA + 20 - S, 4);
    expect(folded.sizeMm).toEqual([398, 298, 20].map((n) => expect.closeTo(n, 6)));
    expect(result.bends.map((b) => [b.id, b.angleDeg, b.direction])).toEqual(
      ['A', 'B', 'D'].map((id) => [id, 90, 'up']),
    );
  });

  test('bends lie a setback less half an allowance in from the mould lines, as long as the tangent lines between the corner cuts', async () => {
    const made = await makeOne('baffle', BY_HAND);
    const place = inSection(made);
    const ends = made.result.bends.map(({ centreLine: [a, b] }) =>
      [...place(...a), ...place(...b)].toSorted((p, q) => p - q),
    );
    const off = 1 + S - BA / 2;
    const [a, b, d] = ends.map((e) => e.map((n) => Math.round(n * 1e4) / 1e4));
    expect([a?.[0], a?.[1]]).toEqual([off, off].map((n) => expect.closeTo(n, 3)));
    expect([b?.[2], b?.[3]]).toEqual([400 - off, 400 - off].map((n) => expect.closeTo(n, 3)));
    expect([d?.[0], d?.[1]]).toEqual([off, off].map((n) => expect.closeTo(n, 3)));
    // The cut begins 25 from the plate's corner at 1, 1; halfway to its tangent line a fold is S /
    // 2 longer at each end.
    expect([a?.[2], a?.[3]]).toEqual([26 - S / 2, 374 + S / 2].map((n) => expect.closeTo(n, 1)));
  });

  test('the openings: 12 % of 120 000 is 14 400, of which four cut corners are 1250; eleven holes of 40 are the fewest for the rest', async () => {
    const made = await makeOne('baffle', BY_HAND);
    expect(made.flat.cutouts.filter((c) => c.from.startsWith('flow'))).toHaveLength(11);
    const report = await reportOf('baffle', BY_HAND);
    expect(figureOf(report, 'flow holes')).toBe(11);
    expect(figureOf(report, 'open area')).toBeCloseTo(4 * 312.5 + 11 * 400 * Math.PI, 6);
    expect(figureOf(report, 'open share')).toBeCloseTo((1250 + 4400 * Math.PI) / 1200, 6);
  });

  test('measured inside, a flange of 18 makes the same blank', async () => {
    const [outside, inside] = [
      await makeOne('baffle', BY_HAND),
      await makeOne('baffle', { ...BY_HAND, measure: 'inside', flange: 18 }),
    ];
    expect(inside.flat.outline).toEqual(outside.flat.outline);
  });

  test('rounded corners of the tank: a plate without flanges follows them a clearance off', async () => {
    const bare = {
      ...BY_HAND,
      wallRadius: 41,
      roofRadius: 0,
      limber: 0,
      vent: 0,
      flangeFloor: false,
      flangeLeft: false,
      flangeRight: false,
      openPercent: 0,
    };
    const { blank } = await makeOne('baffle', bare);
    expect(blank.areaMm2).toBeCloseTo(398 * 298 - 2 * (1 - Math.PI / 4) * 40 * 40, 6);
    expect([blank.widthMm, blank.heightMm]).toEqual([398, 298]);
  });

  test('the corner radius rounds the ends of flanges that meet no other', async () => {
    const arcs = async (more: Record<string, unknown>) => {
      const { flat, result } = await makeOne('baffle', {
        ...BY_HAND,
        cornerRadius: 6,
        openPercent: 0,
        ...more,
      });
      const unused = result.findings.some((f) => f.rule === 'corner-radius-unused');
      return [flat.outline.filter((v) => v.bulge !== 0 && v.origin.kind === 'edge').length, unused];
    };
    // Both ends of three flanges; with sharp corners at the floor only the upper ends; with a
    // flange all round none.
    expect(await arcs({})).toEqual([6, false]);
    expect(await arcs({ limber: 0 })).toEqual([2, false]);
    expect(await arcs({ limber: 0, vent: 0, flangeRoof: true })).toEqual([0, true]);
    expect(await arcs({ flangeFloor: false, flangeLeft: false, flangeRight: false })).toEqual([
      0,
      true,
    ]);
  });

  test('holes at given places are measured from the floor and the left wall of the tank', async () => {
    const made = await makeOne('baffle', { ...BY_HAND, holeCount: 4, holesPanel: '40,200,M8' });
    const hole = made.flat.cutouts.find((c) => c.from === 'holesPanel 1');
    if (hole?.kind !== 'round') throw new Error('no hole');
    expect(inSection(made)(...hole.centre)).toEqual([
      expect.closeTo(200, 6),
      expect.closeTo(40, 6),
    ]);
  });

  test('a swage is marked two thicknesses from edge and bend, and flow holes keep off it', async () => {
    const made = await makeOne('baffle', { ...BY_HAND, swage: 'upright', swageWidth: 30 });
    const place = inSection(made);
    const centres = (from: string) =>
      made.flat.cutouts.flatMap((c) =>
        c.kind === 'round' && c.from.startsWith(from) ? [place(...c.centre)] : [],
      );
    // A mark of 3: 1 of clearance, 4 of bend, 4 and its radius from the floor; 1, 4 and its radius
    // from the roof.
    expect(centres('swage')).toEqual(
      [
        [200, 10.5],
        [200, 293.5],
      ].map((p) => p.map((n) => expect.closeTo(n, 6))),
    );
    // Half the swage, the gap of half a diameter, and the radius.
    for (const [x] of centres('flow'))
      expect(Math.abs(x - 200)).toBeGreaterThan(15 + 20 + 20 - 1e-5);
    expect(centres('flow')).toHaveLength(11);
  });
});

describe('the section of a tank', () => {
  const box: BaffleSection = {
    widthMm: 400,
    leftDepthMm: 300,
    rightDepthMm: 300,
    floorRadiusMm: 0,
    roofRadiusMm: 0,
    floorSlopeDeg: 0,
  };

  test('at most 30 % of it may be open: 36 000 of 400 x 300', async () => {
    const { given, expect: told, tolerance } = published('tank', 'v9');
    const [width, height] = given['baffle_mm'] as [number, number];
    const report = await reportOf('baffle', { ...BY_HAND, width, height });
    expect(
      Math.abs(figureOf(report, 'largest open area') - (told['max_open_mm2'] as number)),
    ).toBeLessThanOrEqual(tolerance);
  });

  test('more than that is warned of', async () => {
    const open = { ...BY_HAND, holeDiameter: 60, holeGap: 10 };
    // 13 holes of 60 and four cut corners are 38 007 of 120 000, 12 of them 35 179.
    expect(rulesOf((await make('baffle', { ...open, holeCount: 13 }))[0], 'warn')).toContain(
      'baffle-too-open',
    );
    expect(rulesOf((await make('baffle', { ...open, holeCount: 12 }))[0], 'warn')).not.toContain(
      'baffle-too-open',
    );
  });

  test('its area, corners rounded off', () => {
    expect(sectionAreaMm2(box)).toBe(120_000);
    // A square of 2 R less a circle of R, for four corners (any table of plane figures).
    expect(sectionAreaMm2({ ...box, floorRadiusMm: 50, roofRadiusMm: 50 })).toBeCloseTo(
      120_000 - (4 - Math.PI) * 2500,
      6,
    );
    expect(sectionAreaMm2({ ...box, rightDepthMm: 200 })).toBe(100_000);
  });

  test('the area of a sloping one with rounded corners, by a geometry library', () => {
    const s = { ...box, rightDepthMm: 180, floorRadiusMm: 40, roofRadiusMm: 25 };
    // Three thousand chords of its boundary, made by drawing in and out again (an opening by a disc
    // at each corner).
    const [corners, radii] = [
      [
        [0, 0],
        [400, 120],
        [400, 300],
        [0, 300],
      ] as const,
      [40, 40, 25, 25],
    ];
    const points = corners.flatMap(([x, y], i) => {
      const [p, n] = [corners[(i + 3) % 4], corners[(i + 1) % 4]] as [
        readonly [number, number],
        readonly [number, number],
      ];
      const [a, b] = [Math.atan2(y - p[1], x - p[0]), Math.atan2(n[1] - y, n[0] - x)];
      const [turn, r] = [(b - a + 4 * Math.PI) % (2 * Math.PI), radii[i] ?? 0];
      const back = r * Math.tan(turn / 2);
      const centre = [
        x - back * Math.cos(a) - r * Math.sin(a),
        y - back * Math.sin(a) + r * Math.cos(a),
      ] as const;
      return Array.from({ length: 801 }, (_, k) => {
        const at = a - Math.PI / 2 + (turn * k) / 800;
        return { x: centre[0] + r * Math.cos(at), y: centre[1] + r * Math.sin(at), bulge: 0 };
      });
    });
    expect(sectionAreaMm2(s)).toBeCloseTo(Math.abs(toFlatten(points).area()), 1);
  });

  test('the flange at the floor lies on its slope', () => {
    expect(bendDegOf({ ...box, floorSlopeDeg: 20 }, 'floor')).toBeCloseTo(70, 9);
    expect(bendDegOf({ ...box, rightDepthMm: 200 }, 'floor')).toBe(90);
    expect(bendDegOf({ ...box, floorSlopeDeg: 20 }, 'left')).toBe(90);
  });
});

test.each([
  {},
  { flangeRoof: true, limber: 0, vent: 0 },
  { flangeRoof: true, limber: 0, vent: 0, heightRight: 200 },
  { heightRight: 180, wallRadius: 30, flangeRoof: true, vent: 40 },
  { heightRight: 260, heightShallow: 120, tankLength: 900, limber: 0, cornerRadius: 4 },
  { heightShallow: 100, tankLength: 500, longestBay: 150, flangeLeft: false, measure: 'inside' },
])('folds back to its dimensions, both hands: %o', async (more) => {
  for (const made of await make('baffle', { ...BY_HAND, ...more, hand: 'both' })) {
    expect(rulesOf(made, 'stop')).toEqual([]);
    if (made.part === undefined || made.flat === undefined) throw new Error('no part');
    expectFoldsBack(made.part, made.flat);
  }
});

/** s = 4, t = 2, notch 2, gap 0.5, clearance 1: the plate's edges are 398 and 298. */
describe.each([
  [{}, 'flange', 6, 5.99, 'flange-too-narrow', 'give 6 or more'],
  [{ measure: 'inside', radius: 4 }, 'flange', 6, 5.99, 'flange-too-narrow', '6 or more'],
  [{ vent: 0 }, 'limber', 10, 9.99, 'corner-cut-too-short', '10 or more'],
  [{ wallRadius: 41, roofRadius: 0 }, 'limber', 40, 39.99, 'corner-cut-too-short', '40 or more'],
  [
    { wallRadius: 31, limber: 30, flangeLeft: false, flangeRight: false },
    'vent',
    30,
    29.99,
    'corner-cut-too-short',
    '30 or more',
  ],
  // Upright 298 less two reliefs of 2.5 leaves 146.5 a corner; the cuts at the roof are as long.
  [
    { vent: 146.5, openPercent: 0 },
    'limber',
    146.5,
    146.51,
    'corner-cuts-meet',
    'give 146.5 or less',
  ],
  [
    { limber: 0, vent: 0, openPercent: 0 },
    'wallRadius',
    1,
    1.01,
    'flange-round-corner',
    'give 10 or more',
  ],
  [
    {
      flangeFloor: false,
      flangeLeft: false,
      flangeRight: false,
      limber: 0,
      vent: 0,
      clearance: 0,
      openPercent: 0,
    },
    'wallRadius',
    147.5,
    150.01,
    'tank-radius-too-big',
    'give 150 or less',
  ],
  [
    { tankLength: 800, longestBay: 400 },
    'heightShallow',
    300,
    300.01,
    'shallow-end-deeper',
    'give 300 or less',
  ],
  // Twenty baffles of 2 leave 21 bays of 60.
  [{ tankLength: 1300 }, 'longestBay', 60, 59.99, 'too-many-baffles', '60 or more'],
  [{ tankLength: 104, longestBay: 52 }, 'flange', 50, 50.01, 'bay-too-short', 'flange 50 or less'],
  [
    { limber: 40, vent: 40, openPercent: 0 },
    'height',
    87,
    86.99,
    'corner-cuts-meet',
    'or height 87 or more',
  ],
  // Setbacks of 22 ask for floor cuts of 46, and two reliefs stand between them.
  [
    { radius: 20, limber: 46, vent: 24, flange: 30, openPercent: 0 },
    'width',
    99,
    98.99,
    'baffle-too-small',
    'give 99 or more',
  ],
])('%o: %s up to its figure', (more, input, inside, outside, rule, told) => {
  test(`${inside} makes a baffle, ${outside} is told what would`, async () => {
    expect(
      rulesOf((await make('baffle', { ...BY_HAND, ...more, [input]: inside }))[0], 'stop'),
    ).toEqual([]);
    const [part] = await make('baffle', { ...BY_HAND, ...more, [input]: outside });
    expect(rulesOf(part, 'stop')).toContain(rule);
    expect(part?.result.findings.find((f) => f.rule === rule)?.message).toContain(told);
    expect(part?.files()).toEqual([]);
  });
});

test.each([
  [{ heightShallow: 200 }, 'tank-length-missing'],
  [{ heightRight: 100, heightShallow: 90, tankLength: 900 }, 'floor-meets-roof'],
  [{ heightRight: 20, clearance: 10 }, 'baffle-too-small'],
  [{ swage: 'level', swageWidth: 300 }, 'no-room-for-swage'],
])('%o stops with %s', async (more, rule) => {
  const [part] = await make('baffle', { ...BY_HAND, ...more });
  expect(new Set(rulesOf(part, 'stop'))).toEqual(new Set([rule]));
});

test('one baffle by itself, for whoever builds a tank: mirrored section, mirrored blank', async () => {
  const read = readInputs(await loadFamily('baffle'), BY_HAND);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const made = ([leftDepthMm, rightDepthMm]: readonly [number, number]) => {
    const { part } = baffle(read.values as unknown as CommonValues, {
      named: {
        width: { input: 'width', given: 400 },
        left: { input: 'height', given: leftDepthMm },
        right: { input: 'heightRight', given: rightDepthMm },
        others: [],
      },
      section: {
        widthMm: 400,
        leftDepthMm,
        rightDepthMm,
        floorRadiusMm: 0,
        roofRadiusMm: 0,
        floorSlopeDeg: 10,
      },
      flanges: ['floor', 'left', 'right'],
      flangeMm: 20,
      clearanceMm: 1,
      limberMm: 30,
      ventMm: 25,
      flow: { diameterMm: 40, count: 8 },
      holeGapMm: undefined,
      swage: { run: 'none', widthMm: 20 },
      holes: [],
    });
    if (part === undefined) throw new Error('no part');
    return part;
  };
  const [a, b] = [
    flatten(mirrorPart(made([300, 240])), { id: 'k', k: 0.42 }),
    flatten(made([240, 300]), { id: 'k', k: 0.42 }),
  ];
  const sorted = (points: readonly { readonly x: number; readonly y: number }[]) =>
    points
      .map(({ x, y }) => [x, y])
      .toSorted(([x = 0, y = 0], [u = 0, v = 0]) => Math.round((x - u) * 1e6) || y - v);
  expect(sorted(a.outline)).toEqual(
    sorted(b.outline).map((p) => p.map((n) => expect.closeTo(n, 6))),
  );
});
