import { foldUp } from '../../src/fold/fold-up.ts';
import { composePoses, type Pose, posePoint } from '../../src/geometry/pose.ts';
import { dot3, length3, scale3, sub3, type Vec3 } from '../../src/geometry/vec3.ts';
import type { FlatPanel, FlatPattern } from '../../src/model/flat.ts';
import type { Part } from '../../src/model/part.ts';

/** A duct box as asked for, in mm: outside dimensions, or inside ones. */
export interface AskedDuct {
  readonly width: number;
  readonly height: number;
  readonly endWidth: number;
  readonly endHeight: number;
  /** Depth of the walls alone. */
  readonly depth: number;
  readonly offsetRight?: number;
  readonly offsetUp?: number;
}

/**
 * The part of space where `normal . p <= level`: the metal's side of a face, x to the right, y up,
 * z into the duct.
 */
export interface Face {
  readonly normal: Vec3;
  readonly level: number;
}

const cross3 = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const unit3 = (a: Vec3): Vec3 => scale3(a, 1 / length3(a));

/**
 * Corners of the two rectangles, counter-clockwise looking into the aperture from the bottom left
 * one.
 */
export const askedCorners = (asked: AskedDuct): readonly [near: Vec3[], far: Vec3[]] => {
  const { offsetRight: x = 0, offsetUp: y = 0 } = asked;
  const round = (w: number, h: number, cx: number, cy: number, z: number): Vec3[] =>
    (
      [
        [-1, -1],
        [1, -1],
        [1, 1],
        [-1, 1],
      ] as const
    ).map(([a, b]) => [cx + (a * w) / 2, cy + (b * h) / 2, z]);
  return [
    round(asked.width, asked.height, 0, 0, 0),
    round(asked.endWidth, asked.endHeight, x, y, asked.depth),
  ];
};

/**
 * The planes through the asked edges, bottom, right, top and left, by cross products of the corners
 * alone.
 */
export const askedFaces = (asked: AskedDuct): Face[] => {
  const [near, far] = askedCorners(asked);
  return near.map((a, i) => {
    const edge = sub3(near[(i + 1) % 4] as Vec3, a);
    // z runs into the duct, so x, y, z are left-handed: the cross product of edge and depth leads
    // outwards without a change of sign.
    const normal = unit3(cross3(sub3(far[i] as Vec3, a), edge));
    const out = dot3(normal, a) > 0 ? normal : scale3(normal, -1);
    return { normal: out, level: dot3(out, a) };
  });
};

const NAMES = ['bottom', 'right', 'top', 'left'];

/**
 * Poses of the panels of a folded blank in the duct, when its root, a wall, stands where it is
 * asked to: its outside face on the asked plane, the middle of the aperture's edge line in front of
 * the middle of the aperture. Poses are in the right-handed frame x, y, -z.
 */
export const ductPoses = (
  part: Part,
  flat: FlatPattern,
  asked: AskedDuct,
  insideThicknessMm = 0,
): Map<string, Pose> => {
  const i = NAMES.indexOf(part.root);
  const face = askedFaces(asked)[i] as Face;
  const [near] = askedCorners(asked);
  const x = unit3(flip(sub3(near[(i + 1) % 4] as Vec3, near[i] as Vec3)));
  const z = scale3(flip(face.normal), -1);
  const y = cross3(z, x);
  // The outside face meets the plane of the aperture straight out from the axis.
  const out: Vec3 = unit3([face.normal[0], face.normal[1], 0]);
  const reach = (face.level + insideThicknessMm) / dot3(face.normal, out);
  const seat: Pose = { o: scale3(out, reach), x, y, z };
  return new Map([...foldUp(part, flat).poses].map(([id, pose]) => [id, composePoses(seat, pose)]));
};

const flip = ([x, y, z]: Vec3): Vec3 => [x, y, -z];

/** All corners of a posed panel on its lower face (`z` 0) or its upper one, in x, y and depth. */
export const cornersOf = (panel: FlatPanel, pose: Pose, z: number): Vec3[] =>
  panel.region.map((v) => flip(posePoint(pose, [v.x, v.y, z])));
