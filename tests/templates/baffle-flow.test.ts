import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily, make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { fixedRuns, shareOf } from '../helpers/extent.ts';
import { toFlatten } from '../helpers/flatten-js.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

const BY_HAND = {
  width: 400,
  height: 300,
  material: 's235',
  thickness: 2,
  radius: 2,
  rule: 'k:0.42',
};

describe('flow holes', () => {
  const inputs = fc.record({
    width: fc.integer({ min: 120, max: 700 }),
    height: fc.integer({ min: 100, max: 500 }),
    heightRight: fc.option(fc.integer({ min: 90, max: 500 }), { nil: undefined }),
    wallRadius: fc.constantFrom(0, 20, 45),
    roofRadius: fc.constantFrom(0, 30),
    limber: fc.constantFrom(undefined, 0, 40),
    vent: fc.constantFrom(undefined, 0, 30),
    flangeFloor: fc.boolean(),
    flangeLeft: fc.boolean(),
    flangeRight: fc.boolean(),
    flangeRoof: fc.boolean(),
    thickness: fc.constantFrom(1, 2, 3),
    radius: fc.constantFrom(1, 3),
    holeDiameter: fc.integer({ min: 8, max: 60 }),
    holeCount: fc.integer({ min: 0, max: 25 }),
    openPercent: fc.integer({ min: 5, max: 35 }),
    holeGap: fc.constantFrom(undefined, 7, 15),
    relief: fc.constantFrom('round', 'square', 'slit'),
    swage: fc.constantFrom('none', 'upright', 'level'),
    holesPanel: fc.constantFrom('', '60,50,30'),
  });
  test('keep their distance from each other, from every edge, from the bends and from other holes; by a geometry library', async () => {
    const template = await loadFamily('baffle');
    let whole = 0;
    fc.assert(
      fc.property(inputs, (given) => {
        const made = makeParts(template, given, UNPLANNED);
        if (!made.ok) throw new Error(JSON.stringify(made.problems));
        const [{ flat, stopped } = { flat: undefined, stopped: true }] = made.parts;
        if (stopped || flat === undefined) return;
        whole += 1;
        const [t, d] = [given.thickness, given.holeDiameter];
        const gap = given.holeGap ?? Math.max(2 * t, d / 2);
        const outline = toFlatten(flat.outline);
        const flow = flat.cutouts.flatMap((c) =>
          c.kind === 'round' && c.from.startsWith('flow') ? [c.centre] : [],
        );
        const others = flat.cutouts.flatMap((c) =>
          c.kind === 'round' && c.from.startsWith('holesPanel') ? [c] : [],
        );
        const tangents = flat.bends.map(
          ({ parentTangent: [a, b] }) =>
            new Flatten.Segment(new Flatten.Point(...a), new Flatten.Point(...b)),
        );
        for (const [i, [x, y]] of flow.entries()) {
          const centre = new Flatten.Point(x, y);
          expect(outline.contains(centre)).toBe(true);
          expect(outline.distanceTo(centre)[0]).toBeGreaterThan(d / 2 + gap - 1e-5);
          for (const line of tangents)
            expect(line.distanceTo(centre)[0]).toBeGreaterThan(d / 2 + Math.max(gap, 2 * t) - 1e-5);
          for (const [u, v] of flow.slice(i + 1))
            expect(Math.hypot(u - x, v - y)).toBeGreaterThan(d + gap - 1e-5);
          for (const o of others)
            expect(Math.hypot(o.centre[0] - x, o.centre[1] - y)).toBeGreaterThan(
              d / 2 + o.diameterMm / 2 + gap - 1e-5,
            );
        }
        const asked = given.holeCount > 0 ? given.holeCount : flow.length;
        expect(flow).toHaveLength(asked);
      }),
      { numRuns: fixedRuns(60, 5) },
    );
    expect(whole).toBeGreaterThan(shareOf(15));
  });

  test("stand in a staggered grid: the nearest neighbour of each is as near as any other's", async () => {
    const { flat } = await makeOne('baffle', { ...BY_HAND, holeDiameter: 30, openPercent: 15 });
    const centres = flat.cutouts.flatMap((c) => (c.kind === 'round' ? [c.centre] : []));
    const nearest = centres.map(([x, y], i) =>
      Math.min(...centres.flatMap(([u, v], k) => (k === i ? [] : [Math.hypot(u - x, v - y)]))),
    );
    expect(centres.length).toBeGreaterThan(20);
    for (const n of nearest) expect(n).toBeCloseTo(nearest[0] ?? NaN, 6);
    // Rows, level or upright, are apart by half the root of three of that.
    const apart = [0, 1].map((axis) => {
      const rows = [
        ...new Set(centres.map((c) => Math.round((c[axis] ?? NaN) * 1e6) / 1e6)),
      ].toSorted((a, b) => a - b);
      return rows.slice(1).map((at, i) => at - (rows[i] ?? NaN));
    });
    const wanted = ((nearest[0] ?? NaN) * Math.sqrt(3)) / 2;
    expect(apart.some((steps) => steps.every((step) => Math.abs(step - wanted) < 1e-5))).toBe(true);
  });

  test('stay off the tips that a sharp corner loses to the radius of the tank', async () => {
    const sharp = {
      width: 151,
      height: 304,
      heightRight: 409,
      wallRadius: 45,
      roofRadius: 30,
      flangeFloor: false,
      flangeLeft: false,
      flangeRight: false,
    };
    const { flat, result } = await makeOne('baffle', {
      ...sharp,
      limber: 0,
      vent: 30,
      thickness: 3,
      radius: 6,
      holeDiameter: 28,
      holeCount: 15,
      holeGap: 7,
      swage: 'upright',
    });
    expect(result.findings.map((f) => f.rule)).not.toContain('hole-off-metal');
    const outline = toFlatten(flat.outline);
    for (const hole of flat.cutouts)
      expect(
        outline.contains(
          new Flatten.Point(...(hole.kind === 'round' ? hole.centre : ([NaN, NaN] as const))),
        ),
      ).toBe(true);
  });

  test('that find no room are told the largest share, count or diameter that does, and it does', async () => {
    for (const [holeDiameter, tooMany] of [
      [18, 250],
      [40, 60],
      [75, 30],
    ] as const) {
      for (const [asked, input] of [
        [{ openPercent: 80 }, 'openPercent'],
        [{ holeCount: tooMany }, 'holeCount'],
        [{ holeCount: tooMany }, 'holeDiameter'],
        [{ holeCount: 9, holeDiameter: 400 }, 'holeDiameter'],
      ] as const) {
        const inputs = { ...BY_HAND, holeDiameter, ...asked };
        const [part] = await make('baffle', inputs);
        expect(rulesOf(part, 'stop')).toEqual(['flow-holes-do-not-fit']);
        const told =
          part?.result.findings[0]?.mends?.find((mend) => mend.input === input)?.atMost ?? NaN;
        expect(rulesOf((await make('baffle', { ...inputs, [input]: told }))[0], 'stop')).toEqual(
          [],
        );
        if (input !== 'holeDiameter')
          expect(
            rulesOf((await make('baffle', { ...inputs, [input]: told + 1 }))[0], 'stop'),
          ).toEqual(['flow-holes-do-not-fit']);
      }
    }
  });
});
