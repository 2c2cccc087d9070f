import { cosDeg, sinDeg } from '../../geometry/degrees.ts';
import { along3, cross3, mix3, scale3, type Vec3 } from '../../geometry/vec3.ts';
import type { Body } from './body.ts';

/**
 * What the end of a tube sits on, as it is measured on the job. Lengths in mm. The *node* is where
 * the branch's axis meets what it sits on: the foot of the common perpendicular on it where the two
 * axes pass each other. `angleDeg` lies between the axes, over 0 and up to 90; round the branch 0
 * degrees lies on the side of the acute angle, and degrees run right-handed about the axis away from
 * the node: counter-clockwise for whoever looks down the branch at the joint.
 */
export type Seat =
  | HeaderSeat
  /** `angleDeg` lies between the branch's axis and the plate. */
  | { readonly kind: 'plate'; readonly angleDeg: number }
  /**
   * The plane in which another piece of the same tube is welded on, which a saw cuts straight through:
   * `angleDeg` lies between it and the axis. Round the tube 0 degrees lies within the bend.
   */
  | { readonly kind: 'mitre'; readonly angleDeg: number }
  | BendSeat;

export interface HeaderSeat {
  readonly kind: 'header';
  readonly diameterMm: number;
  readonly angleDeg: number;
  /** How far the branch's axis passes beside the header's, towards the generator at 90 degrees. */
  readonly offsetMm: number;
  /** A branch that is on the header already, on which this one ends as well. */
  readonly beside?: OtherBranch | undefined;
}

/** A branch from the same header, whose axis meets the header's. */
export interface OtherBranch {
  readonly diameterMm: number;
  /** Between its axis and the header's direction on which this branch has its acute side, to 180. */
  readonly angleDeg: number;
  /** How it is turned about the header from this branch, right-handed about that direction. */
  readonly roundDeg: number;
  /** How far along that direction its node lies from this one's. */
  readonly apartMm: number;
}

/** A branch on the bend of a tube: its axis meets the bend's centre line. */
export interface BendSeat {
  readonly kind: 'bend';
  readonly diameterMm: number;
  /** Of the bend's centre line. */
  readonly bendRadiusMm: number;
  /** To the tangent at the node; the acute side is that of what lies behind the node. */
  readonly angleDeg: number;
  /** Where the branch leaves: 0 outside the bend, 90 beside it, 180 within. */
  readonly leavesDeg: number;
  /** How far the bend goes on before and behind the node; there the tube runs on straight. */
  readonly beforeDeg: number;
  readonly behindDeg: number;
}

/** The bodies that a seat is made of, in the frame of the branch (`body.ts`). */
export function bodiesOf(seat: Seat): readonly Body[] {
  switch (seat.kind) {
    case 'plate':
    case 'mitre':
      return [
        {
          kind: 'plate',
          through: [0, 0, 0],
          normal: [-cosDeg(seat.angleDeg), 0, sinDeg(seat.angleDeg)],
        },
      ];
    case 'header':
      return headerBodies(seat);
    case 'bend':
      return bendBodies(seat);
  }
}

/** The direction of the header: it leans towards the generator at 0 degrees. */
const headerDirection = (angleDeg: number): Vec3 => [sinDeg(angleDeg), 0, cosDeg(angleDeg)];

const headerBodies = ({ diameterMm, angleDeg, offsetMm, beside }: HeaderSeat): readonly Body[] => {
  const direction = headerDirection(angleDeg);
  const through: Vec3 = [0, -offsetMm, 0];
  const header: Body = { kind: 'tube', through, direction, radiusMm: diameterMm / 2 };
  if (beside === undefined) return [header];
  // Square to the header, in the plane of this branch, and on from there about the header.
  const up: Vec3 = [-cosDeg(angleDeg), 0, sinDeg(angleDeg)];
  const square = mix3(up, cosDeg(beside.roundDeg), cross3(direction, up), sinDeg(beside.roundDeg));
  return [
    header,
    {
      kind: 'tube',
      through: along3(through, direction, beside.apartMm),
      direction: mix3(direction, cosDeg(beside.angleDeg), square, sinDeg(beside.angleDeg)),
      radiusMm: beside.diameterMm / 2,
      isHalf: true,
    },
  ];
};

/**
 * The farthest that a bend is looked at on either side of the node: what lies beyond a quarter turn
 * stands across the branch's way only when it has come round the whole bend.
 */
const QUARTER_DEG = 90;

const bendBodies = (seat: BendSeat): readonly Body[] => {
  const { angleDeg, leavesDeg, bendRadiusMm, diameterMm } = seat;
  const tangent = headerDirection(angleDeg);
  const up: Vec3 = [-cosDeg(angleDeg), 0, sinDeg(angleDeg)];
  // The branch leaves along `up`, turned about the tangent from outside the bend by `leavesDeg`.
  const outward = mix3(up, cosDeg(leavesDeg), cross3(tangent, up), -sinDeg(leavesDeg));
  const centre = scale3(outward, -bendRadiusMm);
  const radiusMm = diameterMm / 2;
  const [beforeDeg, behindDeg] = [seat.beforeDeg, seat.behindDeg].map((d) =>
    Math.min(d, QUARTER_DEG),
  ) as [number, number];
  const leg = (deg: number, way: 1 | -1): Body => ({
    kind: 'tube',
    through: along3(centre, mix3(outward, cosDeg(deg), tangent, way * sinDeg(deg)), bendRadiusMm),
    direction: mix3(tangent, way * cosDeg(deg), outward, -sinDeg(deg)),
    radiusMm,
    isHalf: true,
  });
  return [
    { kind: 'bend', centre, outward, tangent, bendRadiusMm, radiusMm, beforeDeg, behindDeg },
    ...(seat.behindDeg < QUARTER_DEG ? [leg(behindDeg, 1)] : []),
    ...(seat.beforeDeg < QUARTER_DEG ? [leg(beforeDeg, -1)] : []),
  ];
};
