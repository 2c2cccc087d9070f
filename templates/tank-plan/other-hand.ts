import { hasStop } from '../../src/template.ts';
import { linkLowMm } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import { impossibleRoom, inwardsMm } from './limits.ts';
import { bodyOf, planesOf, shapeOf } from './planes.ts';
import { measuredRoom } from './room.ts';
import { type Body } from './solid.ts';

/** The other tank of a pair, where the right one is no mirror image of the left one. */
export interface OtherTank {
  readonly body: Body;
  /** Lower edge of its own link hole. */
  readonly linkMm: number | undefined;
}

/** The tank of the other hand, where that differs and can be made. */
export const otherTank = ({ otherHand }: TankPlan): OtherTank | undefined => {
  if (otherHand === undefined) return undefined;
  const read = measuredRoom(otherHand);
  if ('findings' in read) return undefined;
  const shape = shapeOf(planesOf(read.value.room, inwardsMm(otherHand)));
  return hasStop(impossibleRoom(otherHand, read.value, shape))
    ? undefined
    : { body: bodyOf(shape), linkMm: linkLowMm(otherHand, shape) };
};
