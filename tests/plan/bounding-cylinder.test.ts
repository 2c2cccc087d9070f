import fc from 'fast-check';
import { expect, test } from 'vitest';
import { reachesIn } from '../../src/plan/machines/contacts.ts';
import {
  boxAround,
  cylinderRound,
  mayReach,
  mayTouch,
  sweepsOf,
} from '../../src/plan/machines/bounding-cylinder.ts';
import { bodiesOf } from '../../src/plan/machines/bodies.ts';
import { MOVING } from '../../src/plan/machines/stroke-rules.ts';
import { overlap } from '../../src/geometry/convex-polygon.ts';
import { placeSolid, prism, Solid } from '../../src/geometry/convex-solid.ts';
import { swingContact } from '../../src/plan/machines/swing-contact.ts';
import type { Pose } from '../../src/geometry/pose.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';

// The exact contacts are the witness: what they find, the cylinders must not have ruled out.

const whole = (most: number) => fc.integer({ min: -most, max: most });
const upTo = (most: number) => fc.integer({ min: 1, max: most });

const turned = (a: number, b: number): Pose => {
  const [ca, sa, cb, sb] = [Math.cos(a), Math.sin(a), Math.cos(b), Math.sin(b)];
  return { o: [0, 0, 0], x: [ca, sa, 0], y: [-sa * cb, ca * cb, sb], z: [sa * sb, -ca * sb, cb] };
};

/** A box somewhere off its own origin, turned about z and, if `tilt`, tipped over. */
const placed = (tilt: boolean) =>
  fc
    .record({
      at: fc.tuple(whole(40), whole(40)),
      size: fc.tuple(upTo(90), upTo(90), upTo(300)),
      to: fc.tuple(whole(160), whole(160), whole(60)),
      turn: whole(180),
      tip: tilt ? whole(180) : fc.constant(0),
    })
    .map(({ at: [x, y], size: [w, h, l], to, turn, tip }) => {
      const solid = prism(
        [
          [x, y],
          [x + w, y],
          [x + w, y + h],
          [x, y + h],
        ],
        -l / 2,
        l / 2,
      );
      const pose = { ...turned((turn * Math.PI) / 180, (tip * Math.PI) / 180), o: to };
      return { solid: placeSolid(pose, solid), cylinder: cylinderRound(pose, boxAround([solid])) };
    });

const reached = (deg: number | undefined): boolean => deg !== undefined;

test.each([false, true])(
  'panels that meet in their swing, tipped over: %s, have cylinders that may touch',
  (tilt) => {
    let [met, ruledOut] = [0, 0];
    fc.assert(
      fc.property(placed(tilt), placed(tilt), upTo(179), (a, b, turnDeg) => {
        const may = mayTouch(a.cylinder, b.cylinder, (turnDeg * Math.PI) / 180);
        if (!may) ruledOut += 1;
        if (!reached(swingContact(a.solid, b.solid, turnDeg))) return;
        met += 1;
        expect(may).toBe(true);
      }),
      { numRuns: fuzzRuns(600) },
    );
    expect(met).toBeGreaterThan(shareOf(30));
    expect(ruledOut).toBeGreaterThan(shareOf(30));
  },
);

test('what reaches into the machine has a cylinder that may', () => {
  const bar: Vec2[] = [
    [-20, 5],
    [20, 5],
    [20, 60],
    [-20, 60],
  ];
  let [met, ruledOut] = [0, 0];
  fc.assert(
    fc.property(placed(true), whole(179), (a, turnDeg) => {
      const check = {
        side: MOVING,
        bodies: bodiesOf([bar]),
        turnDeg,
        inSections: false,
        say: () => '',
      } as const;
      const may = sweepsOf([check, { ...check, turnDeg: turnDeg / 2 }]).some((s) =>
        mayReach(a.cylinder, s),
      );
      if (!may) ruledOut += 1;
      if (!reachesIn(a.solid, check)) return;
      met += 1;
      expect(may).toBe(true);
    }),
    { numRuns: fuzzRuns(600) },
  );
  expect(met).toBeGreaterThan(shareOf(30));
  expect(ruledOut).toBeGreaterThan(shareOf(30));
});

/** The same body with its upper end wider or narrower by a hair, which is a prism no more. */
const tapered = ({ corners, faces, edges }: Solid, share: number): Solid => {
  const n = corners.length / 2;
  const [mx, my] = ([0, 1] as const).map(
    (axis) => corners.reduce((sum, c) => sum + c[axis], 0) / corners.length,
  ) as [number, number];
  return new Solid(
    corners.map(([x, y, z], i) =>
      i < n ? [x, y, z] : [mx + (x - mx) * (1 + share), my + (y - my) * (1 + share), z],
    ),
    faces,
    edges,
  );
};

test('prisms meet between the angles at which slightly wider and slightly narrower bodies do', () => {
  let met = 0;
  fc.assert(
    fc.property(placed(false), placed(false), upTo(179), (a, b, turnDeg) => {
      const [wider, narrower] = [1e-4, -1e-4].map((share) => tapered(a.solid, share)) as [
        Solid,
        Solid,
      ];
      fc.pre(!overlap(wider.shadow, b.solid.shadow));
      expect([a.solid, b.solid, wider, narrower].map((s) => s.ring.isPrism)).toEqual([
        true,
        true,
        false,
        false,
      ]);
      const [early, deg, late] = [wider, a.solid, narrower].map(
        (s) => swingContact(s, b.solid, turnDeg) ?? Infinity,
      ) as [number, number, number];
      expect(early).toBeLessThanOrEqual(deg + 1e-6);
      expect(deg).toBeLessThanOrEqual(late + 1e-6);
      if (deg < Infinity) met += 1;
    }),
    { numRuns: fuzzRuns(600) },
  );
  expect(met).toBeGreaterThan(shareOf(30));
});
