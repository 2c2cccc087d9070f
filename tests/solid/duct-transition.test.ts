import { describe, expect, it } from 'vitest';
import { foldUp } from '../../src/fold/fold-up.ts';
import { foldedSizeMm } from '../../src/fold/size.ts';
import type { Pose } from '../../src/geometry/pose.ts';
import type { Vec3 } from '../../src/geometry/vec3.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import type { Part } from '../../src/model/part.ts';
import { loadFamily, make, makeOne } from '../helpers/check-template.ts';
import { examplesIn } from '../helpers/extent.ts';
import { blankSolid, seatOnLargest } from '../helpers/folded-solid.ts';
import { apart, foldedTransition, type Point } from '../helpers/folded-transition.ts';
import { loadSolids, type Solid, type Solids } from '../helpers/solid.ts';
import { analytic, cornersOf, divisionOf, type Plan } from '../helpers/transition-plan.ts';

const examples = examplesIn(await loadFamily('duct-transition'));

/**
 * Every panel of the blank, with square edges, where it comes to lie; two that are folded on one
 * another meet in mid-sheet.
 */
const panelsOf = (solids: Solids, part: Part, flat: FlatPattern): Map<string, Solid> => {
  const { poses } = foldUp(part, flat);
  return new Map(
    flat.panels.map((p) => [
      p.id,
      solids.move(solids.prism(p.region, part.thicknessMm), poses.get(p.id) as Pose),
    ]),
  );
};

describe.each([...examples])('$title', async ({ inputs }) => {
  const withSolids = await loadSolids();
  const parts = await make('duct-transition', inputs);

  it('has the metal of its blank and the size it is said to have', () => {
    for (const { part, flat, result } of parts) {
      if (part === undefined || flat === undefined) throw new Error('no part');
      withSolids((solids) => {
        const panels = [...panelsOf(solids, part, flat).values()];
        const volume = flat.areaMm2 * part.thicknessMm;
        expect(solids.volume(blankSolid(solids, flat)) / volume).toBeCloseTo(1, 9);
        expect(panels.reduce((sum, panel) => sum + solids.volume(panel), 0) / volume).toBeCloseTo(
          1,
          9,
        );
        const seat = seatOnLargest(part, flat);
        const boxes = panels.map((panel) => solids.box(solids.move(panel, seat)));
        const size = [0, 1, 2].map(
          (axis) =>
            Math.max(...boxes.map((b) => b.high[axis] as number)) -
            Math.min(...boxes.map((b) => b.low[axis] as number)),
        );
        expect(foldedSizeMm(part, flat)).toEqual(size.map((v) => expect.closeTo(v, 6)));
        expect(result.folded?.sizeMm).toEqual(size.map((v) => expect.closeTo(v, 6)));
      });
    }
  });
});

/** On the middle of 1 mm sheet measured outside. */
const PLANS: readonly Plan[] = [
  { w: 200, d: 200, diameter: 120, h: 150, x: 0, y: 0, n: 12 },
  { w: 260, d: 90, diameter: 110, h: 170, x: 90, y: -35, n: 24 },
  { w: 100, d: 80, diameter: 180, h: 90, x: -60, y: 45, n: 24 },
];

const inputsOf = ({ w, d, diameter, h, x, y, n }: Plan) => ({
  width: w + 1,
  depth: d + 1,
  diameter: diameter + 1,
  length: h,
  offsetRight: x,
  offsetBack: y,
  divisions: n,
  thickness: 1,
  roundEdge: 'chords',
  cornerGap: 0,
});

const at = ([x, y]: readonly [number, number], z: number): Vec3 => [x, y, z];

/** The kernel's own cones, front right, back right, back left, front left. */
const conesOf = (solids: Solids, plan: Plan): Solid[] =>
  cornersOf(plan).map((corner, side) => {
    const arc = [0, 1, 2].map((half) =>
      at(divisionOf({ ...plan, n: 8 }, 2 * side + half), plan.h),
    ) as [Vec3, Vec3, Vec3];
    return solids.cone(at(corner, 0), arc);
  });

describe.each(PLANS)('$w x $d to $diameter, beside the cones of the kernel', async (plan) => {
  const withSolids = await loadSolids();

  it('the formula of the ruled surface is right, and the facets fall short of it by little', async () => {
    const { flat } = await makeOne('duct-transition', inputsOf({ ...plan, n: 96 }));
    withSolids((solids) => {
      const cones = conesOf(solids, plan).reduce((sum, cone) => sum + solids.area(cone), 0);
      const flats = flat.panels
        .filter((p) => !p.id.includes('-'))
        .reduce((sum, p) => sum + p.areaMm2, 0);
      expect((cones + flats) / analytic(plan).areaMm2).toBeCloseTo(1, 7);
      const short = cones + flats - flat.areaMm2;
      expect(short / (cones + flats)).toBeGreaterThan(0);
      expect(short / (cones + flats)).toBeLessThan(5e-4);
    });
  });

  it('folded, its round end lies on them, and no chord is further off than its rise', async () => {
    const { part, flat } = await makeOne('duct-transition', inputsOf(plan));
    if (part === undefined) throw new Error('no part');
    const { corners, divisions } = foldedTransition(flat, part.root);
    const home = standing(corners as [Point, Point, Point, Point], plan);
    withSolids((solids) => {
      const cones = conesOf(solids, plan);
      const points = divisions.map(home);
      const step = points.length / 4;
      points.forEach((p, i) => {
        const next = points[(i + 1) % points.length] as Vec3;
        const cone = cones[Math.floor(i / step)] as Solid;
        expect(solids.distanceTo(cone, p)).toBeLessThan(1e-6);
        // The rise of a chord: R (1 - cos(pi / n)).
        const half: Vec3 = [(p[0] + next[0]) / 2, (p[1] + next[1]) / 2, (p[2] + next[2]) / 2];
        expect(solids.distanceTo(cone, half)).toBeLessThan(
          (plan.diameter / 2) * (1 - Math.cos(Math.PI / plan.n)) + 1e-6,
        );
        expect(solids.distanceTo(cone, half)).toBeGreaterThan(1e-3);
      });
    });
  });
});

/** What takes the folded part to where the plan has it, given where its four corners are. */
const standing = (
  [a, b, c, d]: readonly [Point, Point, Point, Point],
  { w, d: depth }: Plan,
): ((p: Point) => Vec3) => {
  const unit = (from: Point, to: Point): Vec3 =>
    [0, 1, 2].map(
      (i) => ((to[i] as number) - (from[i] as number)) / apart(from, to),
    ) as unknown as Vec3;
  const [x, y] = [unit(d, a), unit(a, b)];
  const z: Vec3 = [x[1] * y[2] - x[2] * y[1], x[2] * y[0] - x[0] * y[2], x[0] * y[1] - x[1] * y[0]];
  expect(apart(c, d)).toBeCloseTo(depth, 6);
  return (p) => {
    const from = [0, 1, 2].map((i) => (p[i] as number) - (d[i] as number));
    const dot = (v: Vec3): number => v.reduce((sum, n, i) => sum + n * (from[i] as number), 0);
    return [dot(x) - w / 2, dot(y) - depth / 2, dot(z)];
  };
};

describe('the gap of a seam, as the kernel measures it', async () => {
  const withSolids = await loadSolids();

  it.each(['middle', 'corner'])('at a %s', async (seam) => {
    const [t, gap] = [1, 1.5];
    const { part, flat } = await makeOne('duct-transition', {
      ...inputsOf(PLANS[0] as Plan),
      seam,
      cornerGap: gap,
    });
    if (part === undefined) throw new Error('no part');
    withSolids((solids) => {
      const panels = panelsOf(solids, part, flat);
      const [first, last] = [part.panels[0], part.panels.at(-1)].map(
        (p) => panels.get(p?.id ?? '') as Solid,
      ) as [Solid, Solid];
      // Up the middle both lie in one plane. At a corner the inside edges are t sin(A / 2) nearer
      // than on the middle, A the turn between the front and the facet beside it. By hand: the
      // front rises 150 over 40, its normal is (0, -150, 40); the facet's edges (30, 60 - 30 sqrt
      // 3, 0) and (-100, 40, 150) have the normal below.
      const chord = 60 - 30 * Math.sqrt(3);
      const normal = [150 * chord, -4500, 1200 + 100 * chord] as const;
      const turn =
        seam === 'middle'
          ? 0
          : Math.acos((4500 * 150 + normal[2] * 40) / Math.hypot(150, 40) / Math.hypot(...normal));
      const half = turn / 2;
      expect(solids.distance(first, last)).toBeCloseTo(
        gap * Math.cos(half) - t * Math.sin(half),
        6,
      );
    });
  });
});
