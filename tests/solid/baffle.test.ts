import { describe, expect, it } from 'vitest';
import { foldUp } from '../../src/fold/fold-up.ts';
import { type Loop, polygon, rectangle, type Vertex } from '../../src/geometry/loop.ts';
import { AT_HOME, type Pose } from '../../src/geometry/pose.ts';
import type { Vec3 } from '../../src/geometry/vec3.ts';
import { signedArea } from '../../src/geometry/measure.ts';
import { loadFamily, make } from '../helpers/check-template.ts';
import { examplesIn, inTurns } from '../helpers/extent.ts';
import { blankSolid, foldBlank, seatOnLargest } from '../helpers/folded-solid.ts';
import { pairsOf } from '../helpers/panel-pairs.ts';
import { loadSolids, type Solid, type Solids } from '../helpers/solid.ts';

const examples = examplesIn(await loadFamily('baffle'));

describe.each([...examples])('$title', async ({ inputs }) => {
  const withSolids = await loadSolids();
  const parts = await make('baffle', { ...inputs, rule: 'k:0.5' });

  it('has the metal of its blank, the size it is said to have, and its gap where flanges meet', () => {
    for (const { part, flat, result } of parts) {
      if (part === undefined || flat === undefined) throw new Error('no part');
      withSolids((solids) => {
        const { panels } = foldBlank(solids, part, flat);
        // With the neutral line in mid-sheet the bend zones keep the volume they have in the flat.
        const zones = flat.bends.reduce(
          (sum, { parentTangent: [a, b], childTangent: [c, d] }) =>
            sum + signedArea(polygon(a, c, d, b)),
          0,
        );
        const metal =
          [...panels.values()].reduce((sum, p) => sum + solids.volume(p), 0) +
          zones * part.thicknessMm;
        expect(metal / solids.volume(blankSolid(solids, flat))).toBeCloseTo(1, 9);
        expect(result.blank?.areaMm2).toBeCloseTo(
          solids.volume(blankSolid(solids, flat)) / part.thicknessMm,
          4,
        );
        // The outside of every flange is further out than its bend.
        const size = solids.size(
          solids.move(solids.union([...panels.values()]), seatOnLargest(part, flat)),
        );
        expect(result.folded?.sizeMm).toEqual(size.map((v) => expect.closeTo(v, 6)));
        for (const { first, second, joined } of pairsOf(part)) {
          const [a, b] = [panels.get(first), panels.get(second)] as [Solid, Solid];
          if (!joined)
            expect(solids.distance(a, b), `${first} and ${second}`).toBeGreaterThan(
              part.cornerGapMm - 1e-6,
            );
        }
      });
    }
  });
});

/**
 * A tank round a baffle, in the frame of the section at the baffle's face away from the deep end,
 * which lies at z > 0.
 */
interface Tank {
  readonly title: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly widthMm: number;
  /** At that face, at the left and at the right wall. */
  readonly depthsMm: readonly [number, number];
  /** How far the floor falls per millimetre towards the deep end. */
  readonly fall: number;
}

const COMMON = {
  width: 300,
  height: 240,
  thickness: 2,
  radius: 2,
  limber: 0,
  vent: 0,
  clearance: 1.5,
  flangeRoof: true,
  holeCount: 2,
};

/** One baffle in the middle of a tank of 602: bays of 300, its far face at 302. */
const TANKS: readonly Tank[] = [
  {
    title: 'a box, flanges right into its corners',
    inputs: COMMON,
    widthMm: 300,
    depthsMm: [240, 240],
    fall: 0,
  },
  {
    title: 'a floor that falls to the left',
    inputs: { ...COMMON, heightRight: 180 },
    widthMm: 300,
    depthsMm: [240, 180],
    fall: 0,
  },
  {
    title: 'a wedge',
    inputs: { ...COMMON, heightShallow: 140, tankLength: 602, longestBay: 300 },
    widthMm: 300,
    depthsMm: [240 - (302 * 100) / 602, 240 - (302 * 100) / 602],
    fall: 100 / 602,
  },
  {
    title: 'a wedge whose floor falls to the left as well, corners cut',
    inputs: {
      ...COMMON,
      limber: 30,
      vent: 20,
      heightRight: 210,
      heightShallow: 90,
      tankLength: 602,
      longestBay: 300,
    },
    widthMm: 300,
    depthsMm: [240 - (302 * 150) / 602, 210 - (302 * 150) / 602],
    fall: 150 / 602,
  },
];

const FAR = 1000;

/**
 * Blocks outside the tank: floor, left and right wall, roof. The floor's normal is that of the
 * plane y = x rise - z fall.
 */
const around = (
  solids: Solids,
  { widthMm, depthsMm: [left, right], fall }: Tank,
): { readonly side: string; readonly wall: Solid; readonly out: Vec3 }[] => {
  const block = (x: number, y: number, w: number, h: number): Solid =>
    solids.move(solids.prism(rectangle(x, y, w, h), 2 * FAR), { ...AT_HOME, o: [0, 0, -FAR] });
  const rise = (left - right) / widthMm;
  const [u, n] = [Math.hypot(1, rise), Math.hypot(rise, 1, fall)];
  const x: Pose['x'] = [1 / u, rise / u, 0];
  const z: Pose['z'] = [rise / n, -1 / n, -fall / n];
  const y: Pose['y'] = [
    z[1] * x[2] - z[2] * x[1],
    z[2] * x[0] - z[0] * x[2],
    z[0] * x[1] - z[1] * x[0],
  ];
  const floor = solids.move(solids.prism(rectangle(-FAR, -FAR, 2 * FAR, 2 * FAR), 50), {
    o: [0, 0, 0],
    x,
    y,
    z,
  });
  return [
    { side: 'floor', wall: floor, out: z },
    { side: 'right', wall: block(widthMm, -FAR, 50, 2 * FAR), out: [1, 0, 0] },
    { side: 'roof', wall: block(-FAR, left, 2 * FAR, 50), out: [0, 1, 0] },
    { side: 'left', wall: block(-50, -FAR, 50, 2 * FAR), out: [-1, 0, 0] },
  ];
};

describe.each(inTurns(TANKS, 0, 2))('in $title', async (tank) => {
  const withSolids = await loadSolids();
  const [made] = await make('baffle', tank.inputs);

  it('each flange lies on its wall, the clearance off all along, and nothing comes nearer', () => {
    if (made?.part === undefined || made.flat === undefined)
      throw new Error(JSON.stringify(made?.result.findings));
    const { part, flat } = made;
    expect(foldUp(part, flat).poses.get('baffle')?.o).toEqual([0, 0, 0]);
    withSolids((solids) => {
      const { panels } = foldBlank(solids, part, flat);
      for (const { side, wall, out } of around(solids, tank)) {
        for (const [id, panel] of panels)
          expect(solids.distance(panel, wall), `${id} and ${side}`).toBeGreaterThan(1.5 - 1e-6);
        const flange = panels.get(`${side} flange`) as Solid;
        expect(solids.distance(flange, wall)).toBeCloseTo(1.5, 6);
        // Pushed out by the clearance and its thickness, all of it is in the wall: it lies along
        // it.
        const pushed = solids.move(flange, {
          ...AT_HOME,
          o: [3.5 * out[0], 3.5 * out[1], 3.5 * out[2]],
        });
        expect(solids.commonVolume(pushed, wall) / solids.volume(flange)).toBeCloseTo(1, 6);
      }
    });
  });
});

it('a plate without flanges follows the rounded corners of its tank', async () => {
  const withSolids = await loadSolids();
  const bare = {
    ...COMMON,
    flangeRoof: false,
    flangeFloor: false,
    flangeLeft: false,
    flangeRight: false,
    wallRadius: 40,
    roofRadius: 25,
    heightRight: 180,
  };
  const [made] = await make('baffle', bare);
  if (made?.part === undefined || made.flat === undefined) throw new Error('no part');
  const { part, flat } = made;
  withSolids((solids) => {
    const plate = foldBlank(solids, part, flat).panels.get('baffle') as Solid;
    const tank = solids.prism(roundedSection, 10);
    const shell = solids.cut(
      solids.move(solids.prism(rectangle(-50, -50, 400, 400), 6), { ...AT_HOME, o: [0, 0, -2] }),
      [solids.move(tank, { ...AT_HOME, o: [0, 0, -4] })],
    );
    expect(solids.distance(plate, shell)).toBeCloseTo(1.5, 6);
    // The same all round: the plate is its tank's section less a rim of 1.5, whose area is the
    // girth less the turn of a circle.
    const { areaMm2 } = made.result.blank ?? { areaMm2: NaN };
    const holes = flat.cutouts.reduce(
      (sum, c) => sum + (c.kind === 'round' ? (Math.PI * c.diameterMm ** 2) / 4 : NaN),
      0,
    );
    const girth = solids.area(tank) - 2 * signedArea(roundedSection);
    expect(areaMm2 + holes).toBeCloseTo(
      signedArea(roundedSection) - 1.5 * (girth / 10) + Math.PI * 1.5 * 1.5,
      4,
    );
  });
});

/**
 * The section 300 wide, 240 deep at the left and 180 at the right, corners of 40 at the floor and
 * 25 at the roof.
 */
const roundedSection: Loop = [
  [0, 0, 40],
  [300, 60, 40],
  [300, 240, 25],
  [0, 240, 25],
].flatMap(([x, y, r], i, all): Vertex[] => {
  const [p, n] = [all[(i + 3) % 4], all[(i + 1) % 4]] as [number[], number[]];
  const dir = ([a = 0, b = 0]: number[], [c = 0, d = 0]: number[]) =>
    [(c - a) / Math.hypot(c - a, d - b), (d - b) / Math.hypot(c - a, d - b)] as const;
  const [a, b] = [dir(p, [x ?? 0, y ?? 0]), dir([x ?? 0, y ?? 0], n)];
  const turn = Math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]);
  const back = (r ?? 0) * Math.tan(turn / 2);
  return [
    { x: (x ?? 0) - back * a[0], y: (y ?? 0) - back * a[1], bulge: Math.tan(turn / 4) },
    { x: (x ?? 0) + back * b[0], y: (y ?? 0) + back * b[1], bulge: 0 },
  ];
});
