import { loopExtents } from '../geometry/extents.ts';
import type { Loop } from '../geometry/loop.ts';
import { composePoses, type Pose, poseVector } from '../geometry/pose.ts';
import { type Motion2, moveLoop } from '../geometry/motion2.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { FlatBend, FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import { foldUp } from './fold-up.ts';
import type { Joint } from './joint.ts';
import { rolledBody } from './rolled-body.ts';
import { foldedSeat } from './seat.ts';
import { bendZone } from './zone.ts';
import { NO_DIRECTION } from '../geometry/tolerance.ts';

/**
 * Overall outside size of the folded part, thickness and bends included, mm: along the drawing's x,
 * along its y, and square to the sheet, with the largest panel lying as it lies in the drawing.
 * `[0, 0, 0]` for a part without a blank.
 */
export const foldedSizeMm = (
  given: Part,
  onBlank: FlatPattern,
): [x: number, y: number, z: number] => {
  if (onBlank.panels.length === 0) return [0, 0, 0];
  const { part, flat } = rolledBody(given, onBlank, SIZE_DEG);
  const { joints, poses } = foldUp(part, flat);
  const seat = foldedSeat(flat, poses);
  const box = new Box();
  for (const panel of flat.panels)
    addPanel(box, panel.region, composePoses(seat, poses.get(panel.id) as Pose), part.thicknessMm);
  for (const joint of joints) {
    const bend = flat.bends.find((b) => b.id === joint.fold.id) as FlatBend;
    const placement = (
      flat.panels.find((p) => p.id === bend.parent) as FlatPattern['panels'][number]
    ).placement;
    addBend(box, joint, bend, placement, composePoses(seat, poses.get(bend.parent) as Pose));
  }
  return box.size();
};

/** A rolled wall is measured on as many flats as its part gives. */
const SIZE_DEG = 0;

class Box {
  private readonly low: [number, number, number] = [Infinity, Infinity, Infinity];
  private readonly high: [number, number, number] = [-Infinity, -Infinity, -Infinity];

  add(axis: 0 | 1 | 2, value: number): void {
    this.low[axis] = Math.min(this.low[axis], value);
    this.high[axis] = Math.max(this.high[axis], value);
  }

  size(): [number, number, number] {
    return [this.high[0] - this.low[0], this.high[1] - this.low[1], this.high[2] - this.low[2]];
  }
}

const AXES = [0, 1, 2] as const;

/**
 * Adds a panel's extent along each axis: that of its region along the axis' shadow on the panel,
 * and that of its two faces.
 */
const addPanel = (box: Box, region: Loop, pose: Pose, thicknessMm: number): void => {
  for (const axis of AXES) {
    const shadow: Vec2 = [pose.x[axis], pose.y[axis]];
    const [low, high] = extentAlong(region, shadow);
    for (const z of [0, thicknessMm]) {
      const rise = pose.o[axis] + z * pose.z[axis];
      box.add(axis, rise + low);
      box.add(axis, rise + high);
    }
  }
};

/** Least and greatest value of `axis . p` on a loop. */
const extentAlong = (loop: Loop, axis: Vec2): [number, number] => {
  const size = Math.hypot(axis[0], axis[1]);
  if (size < NO_DIRECTION) return [0, 0];
  const turned = moveLoop({ c: axis[0] / size, s: -axis[1] / size, x: 0, y: 0 }, loop);
  const box = loopExtents(turned);
  return box === undefined ? [0, 0] : [box.minX * size, box.maxX * size];
};

/**
 * Adds the extents of a bend zone, a stretch of a cylinder whose two ends run straight in the flat.
 * Along an axis w its surface is highest at its ends, or where R (w.out cos a -+ w.z sin a) + w.d
 * du/da = 0 along an end line; all of these points are added.
 */
const addBend = (box: Box, joint: Joint, bend: FlatBend, placement: Motion2, pose: Pose): void => {
  const zone = bendZone(joint, bend, placement, pose);
  if (zone.rad === 0 || bend.midSurface === true) return;
  for (const end of [0, 1] as const) {
    const [u0, u1] = zone.ends[end];
    for (const face of [0, joint.thicknessMm]) {
      const radius = zone.axisZ - face;
      for (const axis of AXES) {
        const side = poseVector(pose, zone.out)[axis] * Math.abs(radius);
        const rise = pose.z[axis] * radius;
        const slide =
          (poseVector(pose, [zone.along[0], zone.along[1], 0])[axis] * (u1 - u0)) / zone.rad;
        for (const a of stationary(side, rise, slide, zone.rad))
          box.add(axis, zone.at(end, face, a)[axis]);
      }
    }
  }
};

/** Angles in [0, end] where `side cos a + rise sin a + slide` is 0, and the two ends. */
const stationary = (side: number, rise: number, slide: number, end: number): number[] => {
  const size = Math.hypot(side, rise);
  const angles = [0, end];
  if (size < Math.abs(slide) || size === 0) return angles;
  const lean = Math.atan2(rise, side);
  const half = Math.acos(-slide / size);
  for (const a of [lean + half, lean - half]) {
    for (const turn of [-2 * Math.PI, 0, 2 * Math.PI])
      if (a + turn > 0 && a + turn < end) angles.push(a + turn);
  }
  return angles;
};
