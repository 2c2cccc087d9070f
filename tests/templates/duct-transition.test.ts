import { describe, expect, test } from 'vitest';
import { distance, type Vec2 } from '../../src/geometry/vec2.ts';
import { checkTemplate, makeOne } from '../helpers/check-template.ts';
import { expectFoldsBack } from '../helpers/fold-back.ts';
import {
  apart,
  apexOf,
  edgesOf,
  FANS,
  fanOf,
  foldedTransition,
  type Point,
  seenFromFirst,
} from '../helpers/folded-transition.ts';
import { published } from '../helpers/published.ts';
import {
  analytic,
  cornersOf,
  divisionOf,
  drawn,
  type Plan,
  sum,
  trueLength,
} from '../helpers/transition-plan.ts';

checkTemplate('duct-transition');

/** Sizes on the middle of the sheet, for 1 mm sheet measured outside. */
const onMiddle = (width: number, depth: number, diameter: number) => ({
  width: width + 1,
  depth: depth + 1,
  diameter: diameter + 1,
  thickness: 1,
  material: 'dc01',
});

/** The square of 200 to the round of 120 in 150, of the published check, seam without a gap. */
const SQUARE = {
  ...onMiddle(200, 200, 120),
  length: 150,
  divisions: 12,
  roundEdge: 'chords',
  cornerGap: 0,
};

/** Nothing square or in line with anything. */
const OFFSET = {
  ...onMiddle(260, 90, 110),
  length: 170,
  offsetRight: 90,
  offsetBack: -35,
  divisions: 16,
  roundEdge: 'chords',
  cornerGap: 0,
};

describe('square to round, against the published true lengths', () => {
  const { expect: asked, tolerance } = published('duct', 'a7');
  const lengths = asked['true_lengths'] as Readonly<Record<string, number>>;

  test('fold lines, seam and chords', async () => {
    const { flat } = await makeOne('duct-transition', SQUARE);
    const long = flat.bends.map(({ centreLine: [p, q] }) => distance(p, q));
    const corner = ['0deg', '30deg', '60deg', '90deg'].map((at) => lengths[at] as number);
    const want = [...corner, ...corner, ...corner, ...corner];
    expect(long).toHaveLength(16);
    long.forEach((mm, i) => expect(Math.abs(mm - (want[i] as number))).toBeLessThan(tolerance));
    const edges = edgesOf(flat);
    expect(
      edges.filter((mm) => Math.abs(mm - (asked['half_seam'] as number)) < tolerance),
    ).toHaveLength(2);
    expect(
      edges.filter((mm) => Math.abs(mm - (asked['chord_step'] as number)) < tolerance),
    ).toHaveLength(12);
  });

  test('the round edge is as long as the circumference, or as much shorter as the chords are', async () => {
    const { given, expect: sums, tolerance: within } = published('duct', 'a9');
    const rims = await Promise.all(
      ['circumference', 'chords'].map(async (roundEdge) => {
        // Of the blank's edges only the chords are shorter than 35.
        const { flat } = await makeOne('duct-transition', { ...SQUARE, roundEdge });
        return edgesOf(flat).filter((mm) => mm < 35);
      }),
    );
    const [arcs = [], chords = []] = rims;
    for (const mm of arcs)
      expect(Math.abs(mm - (asked['arc_step'] as number))).toBeLessThan(tolerance);
    const [long, short] = [sum(arcs), sum(chords)];
    expect(arcs).toHaveLength(given['divisions'] as number);
    expect(Math.abs(long - (sums['circumference'] as number))).toBeLessThan(within);
    expect(Math.abs(short - (sums['sum_of_chords'] as number))).toBeLessThan(within);
    expect(Math.abs((short / long - 1) * 100 - (sums['error_pct'] as number))).toBeLessThan(within);
  });
});

const PLANS: readonly { readonly inputs: Record<string, unknown>; readonly plan: Plan }[] = [
  { inputs: SQUARE, plan: { w: 200, d: 200, diameter: 120, h: 150, x: 0, y: 0, n: 12 } },
  { inputs: OFFSET, plan: { w: 260, d: 90, diameter: 110, h: 170, x: 90, y: -35, n: 16 } },
  // The round end wider than the box, and hanging over it.
  {
    inputs: {
      ...onMiddle(100, 80, 180),
      length: 90,
      offsetRight: -60,
      offsetBack: 45,
      divisions: 24,
      roundEdge: 'chords',
      cornerGap: 0,
    },
    plan: { w: 100, d: 80, diameter: 180, h: 90, x: -60, y: 45, n: 24 },
  },
];

describe.each(PLANS)(
  '$plan.w x $plan.d to $plan.diameter, laid out by compasses',
  ({ inputs, plan }) => {
    test('gives the same outline', async () => {
      const { flat } = await makeOne('duct-transition', inputs);
      const own = flat.outline.map(({ x, y }): Vec2 => [x, y]);
      const points = drawn(plan);
      expect(own).toHaveLength(points.length);
      const want = seenFromFirst(points, 0);
      const misfits = own.map((_, start) =>
        Math.max(...seenFromFirst(own, start).map((p, i) => distance(p, want[i] as Vec2))),
      );
      expect(Math.min(...misfits)).toBeLessThan(1e-6);
    });

    test('folds back, in either hand, onto a rectangle and a circle, and the seam closes', async () => {
      for (const hand of ['left', 'right']) {
        const { part, flat } = await makeOne('duct-transition', { ...inputs, hand });
        if (part === undefined) throw new Error('no part');
        expectFoldsBack(part, flat);
        const { all, corners, divisions } = foldedTransition(flat, part.root);
        // Four corners, the divisions, and both ends of the seam's foot in one.
        expect(all).toHaveLength(4 + plan.n + 1);
        const [a, b, c, d] = corners as [Point, Point, Point, Point];
        expect([apart(a, b), apart(c, d), apart(b, c), apart(d, a)]).toEqual(
          [plan.d, plan.d, plan.w, plan.w].map((mm) => expect.closeTo(mm, 6)),
        );
        expect([apart(a, c), apart(b, d)]).toEqual(
          [1, 2].map(() => expect.closeTo(Math.hypot(plan.w, plan.d), 6)),
        );
        // Every point of the circle is as far from every corner as the plan and the height say.
        corners.forEach((corner, i) => {
          const found = divisions.map((p) => apart(corner, p));
          expect(found).toEqual(
            found.map((_, k) =>
              expect.closeTo(trueLength(plan, cornersOf(plan)[i] as Vec2, divisionOf(plan, k)), 6),
            ),
          );
        });
      }
    });
  },
);

describe.each(PLANS)(
  '$plan.w x $plan.d to $plan.diameter, against the ruled surface',
  ({ inputs, plan }) => {
    const { areaMm2, openedRad } = analytic(plan);

    /** What the blank has at so many divisions. */
    const measured = async (divisions: number): Promise<{ area: number; opened: number }> => {
      const { flat } = await makeOne('duct-transition', { ...inputs, divisions });
      const opened = sum(
        FANS.flatMap((corner) => {
          const fan = fanOf(flat, corner);
          const [x, y] = apexOf(fan);
          return fan.map((facet) => {
            const [[px, py], [qx, qy]] = facet
              .filter((p) => distance(p, [x, y]) > 1e-6)
              .map((p) => [p[0] - x, p[1] - y]) as unknown as [Vec2, Vec2];
            return Math.abs(Math.atan2(px * qy - py * qx, px * qx + py * qy));
          });
        }),
      );
      return { area: flat.areaMm2, opened };
    };

    test('the error of facets falls with the square of their number, to nothing', async () => {
      const [coarse, fine] = await Promise.all([48, 96].map(measured));
      if (coarse === undefined || fine === undefined) throw new Error('two');
      // Richardson: a third of the difference is what the finer one still lacks, but for terms of the
      // fourth order.
      expect(fine.area + (fine.area - coarse.area) / 3).toBeCloseTo(areaMm2, 1);
      expect(fine.opened + (fine.opened - coarse.opened) / 3).toBeCloseTo(openedRad, 5);
      expect(Math.abs(fine.area / areaMm2 - 1)).toBeLessThan(5e-4);
      expect(areaMm2 - coarse.area).toBeGreaterThan(areaMm2 - fine.area);
    });
  },
);
