import { circle } from '../geometry/shapes.ts';
import type { Loop } from '../geometry/loop.ts';
import type { Pose } from '../geometry/pose.ts';
import { SAME_LENGTH_MM } from '../geometry/tolerance.ts';
import { along3, cross3, dot3, mix3, scale3, unit3, type Vec3 } from '../geometry/vec3.ts';
import { cosDeg, sinDeg } from '../geometry/degrees.ts';
import type { BendBody, Body as SeatBody } from '../tube/cope/body.ts';
import { type Span, spanOf } from '../tube/cope/cope.ts';
import { type Coped, endPose } from '../tube/cope/coped-tube.ts';
import { bodiesOf } from '../tube/cope/seat.ts';
import type { Body, StepKernel } from './step-kernel.ts';

/** One end of a coped tube: what it sits on, and where that frame stands. */
interface StepEnd {
  /** In the frame of `pose`: the axis of the tube is its z, away from the joint. */
  readonly bodies: readonly SeatBody[];
  readonly pose: Pose;
  /** How far the whole wall is cut back there, from the pose's origin. */
  readonly span: Span;
}

/** What is cut off reaches at least this much farther than the tube, mm. */
const OVER_MM = 10;

/**
 * The tube with all that lies behind its seats cut off, its end following the seat through the whole
 * wall as a hole saw leaves it. What is cut off is the seat, and whatever of the tube lies on its far
 * side.
 */
export const copedBody = (kernel: StepKernel, { asked, ends: copes }: Coped): Body => {
  const { lengthMm } = asked;
  const { diameterMm, wallMm } = asked.tube;
  const ends = copes.map(({ cope }, i): StepEnd => ({
    bodies: bodiesOf(cope.seat),
    pose: endPose(asked, i),
    span: spanOf(cope.fitMm),
  }));
  const [first, second] = ends.map(({ span }) => span);
  const low = Math.min(0, first?.leastMm ?? 0) - OVER_MM;
  const high = second === undefined ? lengthMm : lengthMm - Math.min(0, second.leastMm) + OVER_MM;
  const rod = (radiusMm: number): Body =>
    kernel.move(kernel.prism(circle([0, 0], radiusMm), high - low), {
      o: [0, 0, low],
      x: [1, 0, 0],
      y: [0, 1, 0],
      z: [0, 0, 1],
    });
  const whole = kernel.cut(rod(diameterMm / 2), [rod(diameterMm / 2 - wallMm)]);
  const reachMm = 2 * (high - low) + 2 * diameterMm + OVER_MM;
  const off = ends.flatMap((end) =>
    end.bodies.map((body) =>
      kernel.move(cutterOf(kernel, body, { reachMm, branchMm: diameterMm / 2 }), end.pose),
    ),
  );
  const middle: Vec3 = [0, 0, ((first?.mostMm ?? 0) + lengthMm - (second?.mostMm ?? 0)) / 2];
  return kernel.solidAt(kernel.cut(whole, off), middle);
};

interface Reach {
  readonly reachMm: number;
  readonly branchMm: number;
}

/** What takes off all that lies within a body of a seat, and beneath it. */
const cutterOf = (kernel: StepKernel, body: SeatBody, reach: Reach): Body => {
  switch (body.kind) {
    case 'plate':
      return below(kernel, body.through, body.normal, reach.reachMm);
    case 'tube':
      return tubeCutter(kernel, body, reach);
    case 'bend':
      return bendCutter(kernel, body);
  }
};

const rectangleOf = (half: number, from: number, to: number): Loop => [
  { x: -half, y: from, bulge: 0 },
  { x: half, y: from, bulge: 0 },
  { x: half, y: to, bulge: 0 },
  { x: -half, y: to, bulge: 0 },
];

/** Everything within reach behind a plane. */
const below = (kernel: StepKernel, through: Vec3, normal: Vec3, reachMm: number): Body => {
  const z = scale3(normal, -1);
  const x = unit3(cross3(Math.abs(z[1]) < Math.SQRT1_2 ? [0, 1, 0] : [1, 0, 0], z));
  return kernel.move(kernel.prism(rectangleOf(reachMm, -reachMm, reachMm), reachMm), {
    o: through,
    x,
    y: cross3(z, x),
    z,
  });
};

/**
 * A tube, and all that lies below it as seen along the branch: its section is half a disc on a block.
 * The block is wider than the tube where the whole branch meets it, so that no side of it grazes the
 * branch.
 */
const tubeCutter = (
  kernel: StepKernel,
  { through, direction, radiusMm, isHalf }: Extract<SeatBody, { kind: 'tube' }>,
  { reachMm, branchMm }: Reach,
): Body => {
  const z = direction;
  // Of the branch's axis, what is square to the tube: up, as its section is drawn.
  const y = unit3(along3([0, 0, 1], z, -z[2]));
  const x = cross3(y, z);
  const asideMm = Math.abs(dot3(x, through));
  const isCovering = asideMm + branchMm <= radiusMm + SAME_LENGTH_MM;
  const wide = isCovering ? radiusMm + branchMm : radiusMm;
  const section: Loop = [
    { x: -wide, y: -reachMm, bulge: 0 },
    { x: wide, y: -reachMm, bulge: 0 },
    ...(isCovering ? [{ x: wide, y: 0, bulge: 0 }] : []),
    { x: radiusMm, y: 0, bulge: 1 },
    { x: -radiusMm, y: 0, bulge: 0 },
    ...(isCovering ? [{ x: -wide, y: 0, bulge: 0 }] : []),
  ];
  const back = isHalf === true ? 0 : reachMm;
  return kernel.move(kernel.prism(section, reachMm + back), {
    o: along3(through, z, -back),
    x,
    y,
    z,
  });
};

/** The bent stretch of a tube. What lies beneath it hangs on nothing. */
const bendCutter = (kernel: StepKernel, bend: BendBody): Body => {
  const { centre, outward, tangent, bendRadiusMm, radiusMm, beforeDeg, behindDeg } = bend;
  const out = mix3(outward, cosDeg(beforeDeg), tangent, -sinDeg(beforeDeg));
  const z = mix3(tangent, cosDeg(beforeDeg), outward, sinDeg(beforeDeg));
  const x = scale3(out, -1);
  return kernel.move(
    kernel.revolved(circle([0, 0], radiusMm), bendRadiusMm, beforeDeg + behindDeg),
    { o: along3(centre, out, bendRadiusMm), x, y: cross3(z, x), z },
  );
};
