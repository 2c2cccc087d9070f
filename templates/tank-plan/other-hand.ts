import { along, hasStop, middle, sub, unit } from '../../src/template.ts';
import type { Vec2 } from '../../src/template.ts';
import { linkLowMm } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import { impossibleRoom, inwardsMm } from './limits.ts';
import { bodyOf, planesOf, shapeOf } from './planes.ts';
import type { Stepped } from './pools.ts';
import { type MeasuredRoom, measuredRoom } from './room.ts';

/** The other tank of a pair, where the right one is no mirror image of the left one. */
export interface OtherTank extends Stepped {
  /** Where its own link hole is in plan. */
  readonly linkAt: Vec2;
  /** Lower edge of its own link hole. */
  readonly linkMm: number | undefined;
}

/** Where the pipe that links a tank leaves it, in plan: along its side from the first corner of that. */
export const linkPlace = (v: TankPlan, { room: { corners } }: MeasuredRoom): Vec2 => {
  const side = v.linkOn - 1;
  const [from, to] = [corners[side], corners[(side + 1) % corners.length]] as [Vec2, Vec2];
  const [hole] = v.link;
  return hole === undefined ? middle(from, to) : along(from, unit(sub(to, from)), hole.acrossMm);
};

/** The tank of the other hand, where that differs and can be made. */
export const otherTank = ({ otherHand }: TankPlan): OtherTank | undefined => {
  if (otherHand === undefined) return undefined;
  const read = measuredRoom(otherHand);
  if ('findings' in read) return undefined;
  const shape = shapeOf(planesOf(read.value.room, inwardsMm(otherHand)));
  return hasStop(impossibleRoom(otherHand, read.value, shape))
    ? undefined
    : {
        body: bodyOf(shape),
        planes: shape.planes,
        linkAt: linkPlace(otherHand, read.value),
        linkMm: linkLowMm(otherHand, shape),
      };
};
