import { describe, expect, it } from 'vitest';
import { polygon, rectangle } from '../../src/geometry/loop.ts';
import { AT_HOME, type Pose } from '../../src/geometry/pose.ts';
import type { Vec3 } from '../../src/geometry/vec3.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { loadFamily, make } from '../helpers/check-template.ts';
import { examplesIn, inTurns } from '../helpers/extent.ts';
import { blankSolid, foldBlank } from '../helpers/folded-solid.ts';
import { pairsOf } from '../helpers/panel-pairs.ts';
import { reportOf } from '../helpers/report-of.ts';
import { loadSolids, type Solid, type Solids } from '../helpers/solid.ts';

/**
 * A tank and what its inside must be, worked out by hand. Frame of the tank: x to the right from
 * the left plate, y from the deep end, z up from the inside corner of floor and deep end; all from
 * inside faces.
 */
interface Case {
  readonly title: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly length: number;
  readonly width: number;
  readonly deep: number;
  readonly shallow: number;
  readonly radius: number;
  readonly thickness: number;
  /** How far the wrap reaches beyond the inside of the plates. */
  readonly beyond: number;
}

const SLOPED = { deep: 320 - 1.5, shallow: 170 - 1.5 };
/**
 * Outside corners of the floor lie below inside ones by t tan(A / 2), A the bend: the offset of two
 * lines by t.
 */
const corner = (t: number, bendDeg: number): number => t * Math.tan((bendDeg * Math.PI) / 360);
const slopeOf = (rise: number, length: number): number =>
  (Math.atan2(rise, length) * 180) / Math.PI;

const CASES: readonly Case[] = [
  {
    title: 'a box, outside sizes, flush sides',
    inputs: { length: 604, width: 404, height: 304, thickness: 2, radius: 3, cornerGap: 1 },
    length: 600,
    width: 400,
    deep: 300,
    shallow: 300,
    radius: 3,
    thickness: 2,
    beyond: 2,
  },
  {
    title: 'a box, inside sizes, sides with flanges of 16 inside, 18 over all',
    inputs: {
      length: 500,
      width: 300,
      height: 200,
      measure: 'inside',
      ends: 'flanged',
      endFlange: 16,
      thickness: 2,
      radius: 2,
      longestBay: 250,
    },
    length: 500,
    width: 300,
    deep: 200,
    shallow: 200,
    radius: 2,
    thickness: 2,
    beyond: 18,
  },
  {
    title: 'a wedge, inside sizes, steep, a wide bend, sides with flanges',
    inputs: {
      length: 400,
      width: 260,
      height: 350,
      heightShallow: 120,
      measure: 'inside',
      ends: 'flanged',
      endFlange: 15,
      thickness: 1.5,
      radius: 10,
      longestBay: 150,
      cornerGap: 0.8,
    },
    length: 400,
    width: 260,
    deep: 350,
    shallow: 120,
    radius: 10,
    thickness: 1.5,
    beyond: 16.5,
  },
  {
    title: 'a wedge, outside sizes, flush sides',
    inputs: {
      length: 703,
      width: 243,
      height: 320,
      heightShallow: 170,
      thickness: 1.5,
      radius: 4,
      longestBay: 300,
    },
    length: 700,
    width: 240,
    // Floor and its outside run parallel: 150 over 703 of the outside.
    deep: SLOPED.deep - corner(1.5, 90 + slopeOf(150, 703)),
    shallow: SLOPED.shallow - corner(1.5, 90 - slopeOf(150, 703)),
    radius: 4,
    thickness: 1.5,
    beyond: 1.5,
  },
];

const AXES: Pick<Pose, 'x' | 'y' | 'z'> = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };

/** Swept along x: its loop's coordinates are y and z of the tank. */
const sweep = (solids: Solids, c: Case, loop: readonly (readonly [number, number])[]): Solid =>
  solids.move(solids.prism(polygon(...loop), c.width), {
    o: [0, 0, 0],
    x: [0, 1, 0],
    y: [0, 0, 1],
    z: [1, 0, 0],
  });

/**
 * The trapezium over the width, and at both ends of its floor a corner less a round bar that
 * touches floor and end.
 */
const cavityOf = (solids: Solids, c: Case): Solid => {
  const rise = c.deep - c.shallow;
  const whole = sweep(solids, c, [
    [0, 0],
    [c.length, rise],
    [c.length, c.deep],
    [0, c.deep],
  ]);
  const slope = Math.atan2(rise, c.length);
  const [cos, sin] = [Math.cos(slope), Math.sin(slope)];
  const corners = (
    [
      [0, 0, Math.PI / 2 + slope, 1],
      [c.length, rise, Math.PI / 2 - slope, -1],
    ] as const
  ).map(([y, z, bend, to]) => {
    const back = c.radius * Math.tan(bend / 2);
    const centre = [y + to * c.radius, z + back] as const;
    const quad = sweep(
      solids,
      c,
      to > 0
        ? [[y, z], [y + back * cos, z + back * sin], centre, [y, z + back]]
        : [[y, z], [y, z + back], centre, [y - back * cos, z - back * sin]],
    );
    return solids.cut(quad, [solids.cylinder([-1, ...centre], [1, 0, 0], c.radius, c.width + 2)]);
  });
  return solids.cut(whole, corners);
};

/** Where the root panel of each piece comes to lie. */
const poseOf = (c: Case, piece: string, bayBegins: readonly number[]): Pose => {
  const slope = Math.atan2(c.deep - c.shallow, c.length);
  if (piece === 'wrap') {
    const [y, z]: [Vec3, Vec3] = [
      [0, Math.cos(slope), Math.sin(slope)],
      [0, -Math.sin(slope), Math.cos(slope)],
    ];
    // Over 90 degrees the mould line is the innermost tangent of the bend, short of the corner by r
    // tan(A / 2) - r.
    const past = c.radius * Math.tan(Math.PI / 4 + slope / 2) - c.radius;
    return {
      o: [-c.beyond, past * y[1] - c.thickness * z[1], past * y[2] - c.thickness * z[2]],
      x: [1, 0, 0],
      y,
      z,
    };
  }
  if (piece === 'end-right')
    return { o: [c.width, 0, 0], x: [0, 1, 0], y: [0, 0, 1], z: [1, 0, 0] };
  if (piece === 'end-left') return { o: [0, 0, 0], x: [0, -1, 0], y: [0, 0, 1], z: [-1, 0, 0] };
  if (piece === 'top')
    return { o: [-c.beyond + c.thickness / 2, -c.thickness / 2, c.deep], ...AXES };
  const at = bayBegins[Number(piece.replace('baffle-', ''))] ?? NaN;
  return { o: [0, at, at * Math.tan(slope)], x: [1, 0, 0], y: [0, 0, 1], z: [0, -1, 0] };
};

type Placed = ReadonlyMap<string, readonly Solid[]>;

/** Panels and bends of every piece, at their place in the tank. */
const assembled = (
  solids: Solids,
  c: Case,
  parts: readonly MadePart[],
  bayBegins: readonly number[],
): Placed =>
  new Map(
    parts.map(({ part, flat, result }) => {
      if (part === undefined || flat === undefined)
        throw new Error(JSON.stringify(result.findings));
      const piece = result.piece ?? '';
      const { panels, bends } = foldBlank(solids, part, flat);
      return [
        piece,
        [...panels.values(), ...bends.values()].map((s) =>
          solids.move(s, poseOf(c, piece, bayBegins)),
        ),
      ];
    }),
  );

const placed = (all: Placed, piece: string): readonly Solid[] => {
  const found = all.get(piece);
  if (found === undefined) throw new Error(`no ${piece}`);
  return found;
};

const between = (solids: Solids, a: readonly Solid[], b: readonly Solid[]): number =>
  Math.min(...a.flatMap((p) => b.map((q) => solids.distance(p, q))));

describe.each(inTurns(CASES, 0, 2))('$title', async (c) => {
  const withSolids = await loadSolids();
  const parts = await make('tank', c.inputs);
  const report = await reportOf('tank', { ...c.inputs, dipStep: 37 });
  const gap = (c.inputs['cornerGap'] as number | undefined) ?? 0.5;
  const begins =
    report.tables.find((t) => t.title.startsWith('Bays'))?.rows.map((row) => row[1] ?? NaN) ?? [];

  it('holds what the kernel says, brim-full and at every dip of both tables', () => {
    withSolids((solids) => {
      const cavity = cavityOf(solids, c);
      const below = (z: number): number =>
        solids.commonVolume(
          cavity,
          solids.move(solids.prism(rectangle(-1, -1, c.width + 2, c.length + 2), z + 1), {
            ...AT_HOME,
            o: [0, 0, -1],
          }),
        ) * 1e-6;
      expect(report.figures.find((f) => f.name === 'gross volume')?.value).toBeCloseTo(
        solids.volume(cavity) * 1e-6,
        8,
      );
      for (const [end, over] of [
        ['deep', 0],
        ['shallow', c.deep - c.shallow],
      ] as const) {
        const table = report.tables.find((t) => t.title.startsWith(`Dip at the ${end} end`));
        expect(table?.rows.length).toBeGreaterThan(3);
        for (const [dip = NaN, litres] of table?.rows ?? []) {
          const wanted = over + dip === 0 ? 0 : below(over + dip);
          expect(litres, `${dip} mm at the ${end} end`).toBeCloseTo(wanted, 7);
        }
      }
    });
  });

  it('says of each piece that it stands where it was worked out to, with the solids that close up', () => {
    for (const { stopped, result, standing } of parts.map((part) =>
      part.stopped ? { ...part, standing: undefined } : part,
    )) {
      const piece = result.piece ?? '';
      expect([stopped, standing?.poses.length]).toEqual([false, Math.max(1, result.quantity)]);
      standing?.poses.forEach((pose, i) => {
        // Of baffles that are alike, each stands before a bay of its own.
        const own = piece.startsWith('baffle-')
          ? `baffle-${Number(piece.replace('baffle-', '')) + i}`
          : piece;
        const wanted = poseOf(c, own, begins);
        for (const axis of ['o', 'x', 'y', 'z'] as const)
          pose[axis].forEach((v, k) => expect(v, own).toBeCloseTo(wanted[axis][k] as number, 9));
      });
    }
  });

  it('closes up round its inside: each piece at its gap from the next, none in another', () => {
    withSolids((solids) => {
      const cavity = cavityOf(solids, c);
      const all = assembled(solids, c, parts, begins);
      const wrap = placed(all, 'wrap');
      // Floor, both ends and both bends lie on the inside, with the gap to the top left free.
      expect(wrap).toHaveLength(5);
      for (const metal of wrap) {
        expect(solids.distance(metal, cavity)).toBeLessThan(1e-6);
        expect(solids.commonVolume(metal, cavity)).toBeLessThan(1e-3);
      }
      const sunk = solids.move(cavity, { ...AT_HOME, o: [0, 0, -0.01] });
      expect(solids.commonVolume(wrap[0] as Solid, sunk)).toBeGreaterThan(
        0.009 * c.width * c.length * 0.9 * Math.cos(Math.atan2(c.deep - c.shallow, c.length)) ** 2,
      );
      const top = placed(all, 'top');
      expect(between(solids, top, wrap)).toBeCloseTo(gap, 6);
      expect(between(solids, top, [cavity])).toBeLessThan(1e-6);
      expect(solids.commonVolume(top[0] as Solid, cavity)).toBeLessThan(1e-3);
      for (const piece of ['end-left', 'end-right']) {
        const [plate, ...flanges] = placed(all, piece) as [Solid, ...Solid[]];
        expect(solids.distance(plate, cavity)).toBeLessThan(1e-6);
        expect(between(solids, [plate, ...flanges], wrap)).toBeCloseTo(gap, 6);
        expect(between(solids, [plate, ...flanges], top)).toBeCloseTo(gap, 6);
        for (const metal of [plate, ...flanges])
          expect(solids.commonVolume(metal, cavity)).toBeLessThan(1e-3);
        // What is farthest out is level with the edge of the wrap.
        const box = solids.box(solids.union([plate, ...flanges]));
        expect(piece === 'end-left' ? -box.low[0] : box.high[0] - c.width).toBeCloseTo(c.beyond, 6);
      }
    });
  });

  it('its baffles keep their clearance of 1 to floor, sides and roof', () => {
    withSolids((solids) => {
      const all = assembled(solids, c, parts, begins);
      const baffles = [...all.keys()].filter((id) => id.startsWith('baffle-'));
      expect(baffles.length).toBeGreaterThan(0);
      for (const id of baffles) {
        const baffle = placed(all, id);
        for (const shell of ['wrap', 'end-left', 'end-right', 'top'])
          expect(between(solids, baffle, placed(all, shell)), `${id} and ${shell}`).toBeCloseTo(
            1,
            6,
          );
      }
    });
  });
});

describe.each(CASES.filter((c) => c.inputs['ends'] !== 'flanged'))('$title', async (c) => {
  const withSolids = await loadSolids();
  const parts = await make('tank', c.inputs);
  const gap = (c.inputs['cornerGap'] as number | undefined) ?? 0.5;

  it('a plate at the side is the section of the inside less a rim as wide as the gap', () => {
    withSolids((solids) => {
      const plate = parts.find((p) => p.result.piece === 'end-right');
      if (plate?.flat === undefined) throw new Error('no plate');
      const cavity = cavityOf(solids, c);
      const section = solids.volume(cavity) / c.width;
      const girth = (solids.area(cavity) - 2 * section) / c.width;
      // Drawn in, an arc that turns by A loses A gap^2 / 2 less than its length times the gap, and
      // a square corner gap^2: the two bends turn by 180 degrees together.
      const rim = girth * gap - (Math.PI / 2) * gap ** 2 - 2 * gap ** 2;
      expect(solids.volume(blankSolid(solids, plate.flat)) / c.thickness).toBeCloseTo(
        section - rim,
        4,
      );
    });
  });
});

const examples = examplesIn(await loadFamily('tank'));

describe.each([...examples])('$title', async ({ inputs }) => {
  const withSolids = await loadSolids();
  const parts = await make('tank', { ...inputs, rule: 'k:0.5' });
  const report = await reportOf('tank', { ...inputs, rule: 'k:0.5' });

  it('each piece has the metal and size it is said to have, and flanges that meet keep their gap', () => {
    for (const { part, flat, result } of parts) {
      if (part === undefined || flat === undefined) throw new Error('no part');
      withSolids((solids) => {
        const blank = blankSolid(solids, flat);
        expect(result.blank?.areaMm2).toBeCloseTo(solids.volume(blank) / part.thicknessMm, 4);
        const { panels, bends } = foldBlank(solids, part, flat);
        for (const { first, second, joined } of pairsOf(part)) {
          const [a, b] = [panels.get(first), panels.get(second)] as [Solid, Solid];
          if (!joined)
            expect(solids.distance(a, b), `${first} and ${second}`).toBeGreaterThan(
              part.cornerGapMm - 1e-6,
            );
        }
        if (bends.size !== part.folds.length || part.folds.length === 0) return;
        // With the neutral line in mid-sheet folding keeps the volume.
        const metal = [...panels.values(), ...bends.values()].reduce(
          (sum, s) => sum + solids.volume(s),
          0,
        );
        expect(metal / solids.volume(blank)).toBeCloseTo(1, 9);
      });
    }
  });

  it('weighs empty what the kernel finds in its blanks', () => {
    withSolids((solids) => {
      const left = parts.filter((p) => p.result.hand === 'left');
      const kg = left.reduce(
        (sum, { flat, result }) =>
          sum +
          (flat === undefined
            ? NaN
            : solids.volume(blankSolid(solids, flat)) *
              result.quantity *
              result.material.densityKgM3 *
              1e-9),
        0,
      );
      expect(
        Math.abs((report.figures.find((f) => f.name === 'empty mass')?.value ?? NaN) / kg - 1),
      ).toBeLessThan(1e-6);
    });
  });
});
