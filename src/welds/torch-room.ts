import { cosDeg, sinDeg } from '../geometry/degrees.ts';
import {
  between,
  type Box3,
  boxRound,
  depthInto,
  placeSolid,
  prism,
  type Solid,
} from '../geometry/convex-solid.ts';
import { isInside } from '../geometry/inside.ts';
import { convexPieces } from '../geometry/convex-pieces.ts';
import {
  AT_HOME,
  composePoses,
  invertPose,
  type Pose,
  posePoint,
  poseVector,
} from '../geometry/pose.ts';
import { along3, cross3, dot3, mix3, sub3, type Vec3 } from '../geometry/vec3.ts';
import type { FlatBend, FlatPanel, FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import type { FoldedBody } from '../fold/fold-up.ts';
import type { Joint } from '../fold/joint.ts';
import { slabOf } from '../fold/slab.ts';
import { bendSlices, bendZone } from '../fold/zone.ts';
import { PANEL_CHORD_MM, CONTACT_GAP_MM } from '../geometry/tolerance.ts';

/** Something that may stand in a torch's way: a body in a box of its own coordinates. */
export interface Obstacle extends Box3 {
  readonly name: string;
  /** Takes the root's coordinates to those of the box. */
  readonly toBox: Pose;
  /**
   * The body in the coordinates of the box; that of a panel is only made when the torch reaches
   * into it.
   */
  readonly solids: () => readonly Solid[];
  /**
   * Whether a line from point to point is certain to go through a panel; `false` proves nothing.
   */
  readonly isPierced?: (from: Vec3, to: Vec3) => boolean;
}

/**
 * A round bar: the point where its axis begins, and two unit vectors, one along it and one square
 * to it.
 */
export interface Bar {
  readonly from: Vec3;
  readonly axis: Vec3;
  readonly across: Vec3;
  readonly lengthMm: number;
  readonly radiusMm: number;
}

/** A bend is divided into slices of at most this many degrees. */
const SLICE_DEG = 15;

/** The panels and bends of a part folded up, without the metal of a fold that is left flat. */
export const obstaclesOf = (
  part: Part,
  flat: FlatPattern,
  { joints, poses }: FoldedBody,
  leftFlat?: string,
): Obstacle[] => [
  ...part.panels.map(({ id }) =>
    panelObstacle(
      flat.panels.find((p) => p.id === id) as FlatPanel,
      part.thicknessMm,
      poses.get(id) as Pose,
    ),
  ),
  ...joints
    .filter(({ fold }) => fold.id !== leftFlat && fold.angleDeg > 0 && fold.midSurface !== true)
    .map((joint) => zoneObstacle(joint, flat, poses.get(joint.fold.parent.panel) as Pose)),
];

const panelObstacle = (panel: FlatPanel, thicknessMm: number, pose: Pose): Obstacle => {
  const { low, high, outline } = slabOf(panel, thicknessMm);
  const solids = once(() =>
    convexPieces(panel.region, PANEL_CHORD_MM).map((piece) => prism(piece, 0, thicknessMm)),
  );
  const isPierced = (from: Vec3, to: Vec3): boolean => {
    const share = (thicknessMm / 2 - from[2]) / (to[2] - from[2]);
    return (
      share > 0 &&
      share < 1 &&
      isInside(outline, [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])])
    );
  };
  return { name: panel.id, toBox: invertPose(pose), low, high, solids, isPierced };
};

const zoneObstacle = (joint: Joint, flat: FlatPattern, pose: Pose): Obstacle => {
  const bend = flat.bends.find((b) => b.id === joint.fold.id) as FlatBend;
  const { placement } = flat.panels.find((p) => p.id === bend.parent) as FlatPanel;
  const zone = bendZone(joint, bend, placement, AT_HOME);
  // The frame lies along the fold and away from the parent, so that the box lies close round the
  // bend.
  const frame = invertPose({
    o: [0, 0, 0],
    x: zone.out,
    y: [zone.along[0], zone.along[1], 0],
    z: [0, 0, 1],
  });
  const slices = bendSlices(zone, bend.angleDeg, joint.thicknessMm, SLICE_DEG).map((slice) =>
    placeSolid(frame, slice),
  );
  return {
    name: `fold ${bend.id}`,
    toBox: composePoses(frame, invertPose(pose)),
    ...boxRound(slices.flatMap((slice) => slice.corners)),
    solids: () => slices,
  };
};

const once = <T>(make: () => T): (() => T) => {
  let made: { readonly value: T } | undefined;
  return () => (made ??= { value: make() }).value;
};

/** Whether a bar runs into something by more than sheet gives way. */
export function isMet(inRoot: Bar, obstacle: Obstacle): boolean {
  if (missesBox(inRoot, obstacle)) return false;
  const { toBox, solids, isPierced } = obstacle;
  const bar: Bar = {
    ...inRoot,
    from: posePoint(toBox, inRoot.from),
    axis: poseVector(toBox, inRoot.axis),
    across: poseVector(toBox, inRoot.across),
  };
  if (isPierced !== undefined && linesIn(bar).some(([from, to]) => isPierced(from, to)))
    return true;
  const near = solids().filter((solid) => !isBeside(bar, solid));
  if (near.length === 0) return false;
  const hull = hullOf(bar);
  return near.some((solid) => depthInto(hull, solid) > CONTACT_GAP_MM);
}

/**
 * Whether the bar itself, not its hull, misses a box, seen along the sides of the box; it rules out
 * most boxes quickly.
 */
const missesBox = (
  { from, axis, lengthMm, radiusMm }: Bar,
  { toBox, low, high }: Obstacle,
): boolean =>
  BOX_SIDES.some((i) => {
    const [x, y, z] = [toBox.x[i], toBox.y[i], toBox.z[i]];
    const start = toBox.o[i] + x * from[0] + y * from[1] + z * from[2];
    const slope = x * axis[0] + y * axis[1] + z * axis[2];
    const end = start + lengthMm * slope;
    const spread = radiusMm * Math.sqrt(Math.max(0, 1 - slope * slope));
    return (
      Math.min(high[i] - Math.min(start, end), Math.max(start, end) - low[i]) + spread <=
      CONTACT_GAP_MM
    );
  });

/**
 * The direction across the sheet comes first, because most panels lie on the far side of their own
 * plane.
 */
const BOX_SIDES = [2, 0, 1] as const;

/**
 * A bar is modelled as a prism with this many sides inside it, which is at most radius (1 - cos 15)
 * = 3.4 per cent of the radius thinner.
 */
const SIDES = 12;
const ROUND = Array.from({ length: SIDES }, (_, i): readonly [number, number] => [
  cosDeg((i * 360) / SIDES),
  sinDeg((i * 360) / SIDES),
]);

/**
 * Whether the bar lies on one side of a body, seen along the bar or square to it; a quick test that
 * rules bodies out.
 */
const isBeside = (bar: Bar, { corners }: Solid): boolean => {
  const levels = corners.map((c) => dot3(sub3(c, bar.from), bar.axis));
  if (Math.max(...levels) <= CONTACT_GAP_MM || Math.min(...levels) >= bar.lengthMm - CONTACT_GAP_MM)
    return true;
  const up = cross3(bar.axis, bar.across);
  return ROUND.some(([c, s]) => {
    const way = mix3(bar.across, c, up, s);
    return corners.every((p) => dot3(sub3(p, bar.from), way) >= bar.radiusMm - CONTACT_GAP_MM);
  });
};

/**
 * Lines within a thick bar, so far from its surface that the bar meets whatever they go through by
 * more than sheet gives way; a quick test that finds contact.
 */
const linesIn = (bar: Bar): (readonly [Vec3, Vec3])[] => {
  const inner = { ...bar, radiusMm: bar.radiusMm - 2 * CONTACT_GAP_MM };
  if (inner.radiusMm <= 0) return [];
  const [near, far] = [
    ringOf(inner, 2 * CONTACT_GAP_MM),
    ringOf(inner, bar.lengthMm - 2 * CONTACT_GAP_MM),
  ];
  return near.map((p, i) => [p, far[i] as Vec3]);
};

const hullOf = (bar: Bar): Solid => between(ringOf(bar, 0), ringOf(bar, bar.lengthMm));

const ringOf = ({ from, axis, across, radiusMm }: Bar, along: number): Vec3[] => {
  const up = cross3(axis, across);
  return ROUND.map(([c, s]) => along3(along3(from, axis, along), mix3(across, c, up, s), radiusMm));
};
