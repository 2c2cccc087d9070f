import fc from 'fast-check';
import type { OpenCascadeInstance } from 'replicad-opencascadejs';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Pose } from '../../../src/geometry/pose.ts';
import { circle } from '../../../src/geometry/shapes.ts';
import { loadKernel } from '../../../src/solid/step.ts';
import { type Body, StepKernel } from '../../../src/solid/step-kernel.ts';
import { type Cope, copeOn, placesRound } from '../../../src/tube/cope/cope.ts';
import type { Tube } from '../../../src/tube/cope/cut-back.ts';
import type { Seat } from '../../../src/tube/cope/seat.ts';
import { fixedRuns, IS_FULL } from '../../helpers/extent.ts';
import { onBranch, type P } from './witness.ts';

/**
 * Copes against booleans of a solid kernel: seats are put together of its own cylinders and tori, in
 * the frame of the header, and share no sum with what is held to them.
 */

let occ: OpenCascadeInstance;
beforeAll(async () => {
  occ = await loadKernel();
});

const LONG = 400;
const rad = (deg: number): number => (deg * Math.PI) / 180;
const cross = (a: P, b: P): P => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const unit = (a: P): P => {
  const long = Math.hypot(...a);
  return [a[0] / long, a[1] / long, a[2] / long];
};
const poseAlong = (o: P, z: P): Pose => {
  const x = unit(cross(Math.abs(z[1]) < 0.7 ? [0, 1, 0] : [1, 0, 0], z));
  return { o, x, y: cross(z, x), z };
};

const rod = (k: StepKernel, from: P, way: P, diameterMm: number, long: number): Body =>
  k.move(k.prism(circle([0, 0], diameterMm / 2), long), poseAlong(from, way));

/** A seat as the kernel has it: header along X, the branch leaning towards +X over it. */
const solids = (k: StepKernel, seat: Seat): readonly Body[] => {
  switch (seat.kind) {
    case 'plate':
    case 'mitre':
      return [
        k.move(
          k.prism(
            [-1, 1].flatMap((s) => [
              { x: -s * LONG, y: -s * LONG, bulge: 0 },
              { x: s * LONG, y: -s * LONG, bulge: 0 },
            ]),
            50,
          ),
          { o: [0, 0, -50], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
        ),
      ];
    case 'header': {
      const { beside } = seat;
      const header = rod(k, [-LONG, 0, 0], [1, 0, 0], seat.diameterMm, 2 * LONG);
      if (beside === undefined) return [header];
      // Turned right-handed about X from +Z, which goes to -Y.
      const [b, g] = [rad(beside.angleDeg), rad(-beside.roundDeg)];
      const way: P = [Math.cos(b), Math.sin(b) * Math.sin(g), Math.sin(b) * Math.cos(g)];
      return [header, rod(k, [beside.apartMm, 0, 0], way, beside.diameterMm, LONG)];
    }
    case 'bend': {
      // The bend lies in the plane of X and its way out, which is turned from +Z by where it is left.
      const l = rad(seat.leavesDeg);
      const out: P = [0, Math.sin(l), Math.cos(l)];
      const at = (deg: number): P => {
        const [c, s] = [Math.cos(rad(deg)), Math.sin(rad(deg))];
        const big = seat.bendRadiusMm;
        return [big * s, big * (out[1] * (c - 1)), big * (out[2] * (c - 1))];
      };
      const way = (deg: number): P => [
        Math.cos(rad(deg)),
        -out[1] * Math.sin(rad(deg)),
        -out[2] * Math.sin(rad(deg)),
      ];
      const [from, to] = [-seat.beforeDeg, seat.behindDeg];
      const z = way(from);
      const x: P = [
        -Math.sin(rad(from)),
        -out[1] * Math.cos(rad(from)),
        -out[2] * Math.cos(rad(from)),
      ];
      const back: P = [-z[0], -z[1], -z[2]];
      return [
        k.move(k.revolved(circle([0, 0], seat.diameterMm / 2), seat.bendRadiusMm, to - from), {
          o: at(from),
          x,
          y: cross(z, x),
          z,
        }),
        rod(k, at(to), way(to), seat.diameterMm, LONG),
        rod(k, at(from), back, seat.diameterMm, LONG),
      ];
    }
  }
};

interface Found {
  readonly mm3: number;
  readonly middle: P;
}

/** The solids of a body, each with its volume and its middle. */
const pieces = (body: Body): Found[] => {
  const found: Found[] = [];
  const walk = new occ.TopExp_Explorer(body, occ.TopAbs_ShapeEnum.TopAbs_SOLID);
  for (; walk.More(); walk.Next()) {
    const sums = new occ.GProp_GProps();
    occ.BRepGProp.VolumeProperties(walk.Current(), sums, true, false, false);
    const at = sums.CentreOfMass();
    found.push({ mm3: sums.Mass(), middle: [at.X(), at.Y(), at.Z()] });
    sums.delete();
  }
  walk.delete();
  return found;
};

const placed = (seat: Seat): ((r: number, deg: number, z: number) => P) =>
  onBranch(seat.angleDeg, seat.kind === 'header' ? seat.offsetMm : 0);

const NEEDLE_MM = 0.01;

/** How far along a generator the kernel still finds the seat: the end of a needle cut by it. */
const endOfNeedle = (k: StepKernel, seat: Seat, all: readonly Body[], r: number, deg: number) => {
  const at = placed(seat);
  const [from, next] = [at(r, deg, -LONG / 2), at(r, deg, -LONG / 2 + 1)];
  const way: P = [next[0] - from[0], next[1] - from[1], next[2] - from[2]];
  const h = NEEDLE_MM / 2;
  const needle = k.move(
    k.prism(
      [
        { x: -h, y: -h, bulge: 0 },
        { x: h, y: -h, bulge: 0 },
        { x: h, y: h, bulge: 0 },
        { x: -h, y: h, bulge: 0 },
      ],
      LONG,
    ),
    poseAlong(from, way),
  );
  const ends = all.flatMap((body) =>
    pieces(k.common(needle, body)).map(({ mm3, middle }) => {
      const along = way.reduce((sum, w, i) => sum + w * ((middle[i] ?? 0) - (from[i] ?? 0)), 0);
      return along - LONG / 2 + mm3 / NEEDLE_MM ** 2 / 2;
    }),
  );
  return Math.max(...ends);
};

const header = (diameterMm: number, angleDeg: number, offsetMm = 0) =>
  ({ kind: 'header', diameterMm, angleDeg, offsetMm }) as const;

interface Joint {
  readonly tube: Tube;
  readonly seat: Seat;
}

/** Evenly between two figures: the usual doubles lie close to 0, where little is to be seen. */
const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.noBias(fc.integer({ min: 0, max: 10_000 })).map((i) => min + ((max - min) * i) / 10_000);

/** Of a torus the kernel takes seconds for each boolean. */
const KINDS: readonly string[] = ['header', 'plate', 'beside', ...(IS_FULL ? ['bend'] : [])];

/** Joints of all kinds; of those on headers the offset stays within what the header has room for. */
const joint: fc.Arbitrary<Joint> = fc
  .record({
    kind: fc.constantFrom(...KINDS),
    r: between(8, 25),
    wall: between(0.05, 0.5),
    more: between(0.05, 1),
    angleDeg: between(30, 90),
    aside: between(-0.95, 0.95),
    turn: between(-180, 180),
  })
  .map(({ kind, r, wall, more, angleDeg, aside, turn }): Joint => {
    const tube = { diameterMm: 2 * r, wallMm: wall * r };
    const thick = 2 * r * (1 + more);
    switch (kind) {
      case 'plate':
        return { tube, seat: { kind: 'plate', angleDeg } };
      case 'bend':
        return {
          tube,
          seat: {
            kind: 'bend',
            diameterMm: 2 * r * 1.4,
            bendRadiusMm: 5 * r,
            angleDeg: 60 + angleDeg / 3,
            leavesDeg: turn,
            beforeDeg: 40,
            behindDeg: 30,
          },
        };
      case 'beside':
        return {
          tube,
          seat: {
            ...header(thick, 30 + angleDeg / 2),
            beside: {
              diameterMm: 2 * r * 1.05,
              angleDeg: 100 + angleDeg / 2,
              roundDeg: turn / 4,
              apartMm: aside * r,
            },
          },
        };
      default:
        return { tube, seat: header(thick, angleDeg, aside * r * more) };
    }
  });

describe('random copes, against booleans of a solid kernel', () => {
  test('the curve lies where needles end that the seat cuts off', () => {
    let seen = 0;
    fc.assert(
      fc.property(joint, between(0, 60), ({ tube, seat }, turn) => {
        const made = copeOn(tube, seat);
        if (!made.ok) return;
        seen += 1;
        const k = new StepKernel(occ);
        const all = solids(k, seat);
        const [ri, ro] = [tube.diameterMm / 2 - tube.wallMm, tube.diameterMm / 2];
        for (const place of placesRound(2)) {
          const deg = place + turn;
          const ends = [ro, ri].map((r) => endOfNeedle(k, seat, all, r, deg));
          const label = `${JSON.stringify(seat)} at ${deg}`;
          expect(Math.abs(made.cope.knifeMm(deg) - (ends[0] as number)), label).toBeLessThan(0.01);
          // No layer stands farther out than the square cut goes back.
          expect(made.cope.fitMm(deg), label).toBeGreaterThan(Math.max(...ends) - 0.01);
        }
        k.free();
      }),
      { numRuns: fixedRuns(15) },
    );
    expect(seen).toBeGreaterThan(1);
  });

  test('pushed home, the cut wall bites nothing, and pushed farther it does', () => {
    fc.assert(
      fc.property(joint, between(0, 360), ({ tube, seat }, turn) => {
        const made = copeOn(tube, seat);
        if (!made.ok) return;
        const k = new StepKernel(occ);
        const { facets, mm2 } = wallPart(made.cope, seat, turn);
        const wall = k.polyhedron(facets);
        const at = placed(seat);
        const [from, to] = [at(0, 0, 0), at(0, 0, -HOME_MM)];
        const o: P = [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
        const farther = k.move(wall, { o, x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] });
        const bitten = (body: Body): number =>
          solids(k, seat)
            .flatMap((solid) => pieces(k.common(body, solid)))
            .reduce((sum, { mm3 }) => sum + mm3, 0);
        const label = JSON.stringify({ tube, seat, turn });
        // The bite as a layer over the whole cut, mm.
        expect(bitten(wall) / mm2, label).toBeLessThan(0.01);
        expect(bitten(farther) / mm2, label).toBeGreaterThan(0.01);
        k.free();
      }),
      { numRuns: fixedRuns(9) },
    );
  });
});

/** How far it is pushed on to be seen to touch. */
const HOME_MM = 0.5;
const PLACES = 5;
const STEP_DEG = 3;

/** A part of the cut wall as flat facets, some degrees round from a place, and how large its cut is. */
const wallPart = (cope: Cope, seat: Seat, turn: number) => {
  const [ri, ro] = [cope.tube.diameterMm / 2 - cope.tube.wallMm, cope.tube.diameterMm / 2];
  const at = placed(seat);
  const degs = Array.from({ length: PLACES + 1 }, (_, i) => turn + i * STEP_DEG);
  const high = Math.max(...degs.map((deg) => cope.fitMm(deg))) + 5;
  // A rectangle of the wall at each place: outside and inside, below and above.
  const rims = degs.map((deg): readonly [P, P, P, P] => {
    const low = cope.fitMm(deg);
    return [at(ro, deg, low), at(ri, deg, low), at(ri, deg, high), at(ro, deg, high)];
  });
  const quad = (a: P, b: P, c: P, d: P): (readonly [P, P, P])[] => [
    [a, b, c],
    [a, c, d],
  ];
  const facets = [
    ...rims.slice(1).flatMap((next, i) => {
      const last = rims[i] as readonly [P, P, P, P];
      return [0, 1, 2, 3].flatMap((c) => {
        const d = (c + 1) % 4;
        return quad(last[c] as P, next[c] as P, next[d] as P, last[d] as P);
      });
    }),
    ...quad(...(rims[0] as readonly [P, P, P, P])),
    ...quad(...(rims.at(-1) as readonly [P, P, P, P])),
  ];
  const mm2 = ((PLACES * STEP_DEG) / 360) * Math.PI * (ro * ro - ri * ri);
  return { facets, mm2 };
};
