import type { Vec3 } from '../geometry/vec3.ts';
import type { TubeGrade } from '../model/tube-grade.ts';
import { type BendSheet, bendSheet, NO_WASTE, type TubeBending } from './bend-sheet.ts';
import { type BendStep, bendSteps } from './bend-steps.ts';
import type { TubeLegs } from './centre-line.ts';
import { type BendErrors, type EndErrors, endErrors } from './end-errors.ts';
import { type BenderNeeds, type PullOrder, pullOrder } from './pull-order.ts';
import { type TubeBase, tubeMassKg } from './tube-part.ts';
import { walkedOffMm, walkedTube } from './walk.ts';

/** A tube that is bent round a former. */
export interface BentTube extends TubeBase {
  readonly kind: 'bent';
  /** What it was made of, so that the other hand is made of the same. */
  readonly asked: BentAsk;
  /** The ends and the corners of its centre line, in their order. */
  readonly points: readonly Vec3[];
  readonly sheet: BendSheet;
  readonly order: PullOrder;
  /** Its bends in the order in which they are made. */
  readonly steps: readonly BendStep[];
  /** How far the walked sheet lies from the points, mm. */
  readonly proofMm: number;
  readonly errors: EndErrors;
}

export interface BentAsk {
  readonly grade: TubeGrade;
  readonly diameterMm: number;
  readonly wallMm: number;
  readonly legs: TubeLegs;
  readonly bending: TubeBending & BenderNeeds & ReferenceMark;
  /** Left on at the ends to be trimmed to what they meet, mm. */
  readonly trims: { readonly leadMm: number; readonly tailMm: number };
  readonly within: BendErrors;
}

export interface ReferenceMark {
  /** Name of the bender; absent where the shop has none for this tube. */
  readonly bender?: string | undefined;
  /** How far the bender's mark lies ahead of where the bend begins, mm. */
  readonly referenceMm: number;
}

/**
 * A bent tube with all that is told of it. Where the bender needs more straight tube at an end than
 * there is, so much is left on.
 */
export function bentTube(asked: BentAsk): BentTube {
  const { grade, diameterMm, wallMm, legs, bending, trims, within } = asked;
  const bare = bendSheet(legs, bending, NO_WASTE);
  const held = bare.straightsMm.map(
    (mm, i, all) => mm + (i === 0 ? trims.leadMm : 0) + (i === all.length - 1 ? trims.tailMm : 0),
  );
  const order = pullOrder({ ...bare, straightsMm: held }, bending);
  const sheet = bendSheet(legs, bending, {
    leadMm: trims.leadMm + order.gripMm.lead,
    tailMm: trims.tailMm + order.gripMm.tail,
  });
  const points = [legs.ends[0], ...legs.corners.map(({ at }) => at), legs.ends[1]];
  return {
    kind: 'bent',
    asked,
    grade,
    diameterMm,
    wallMm,
    cutLengthMm: sheet.cutLengthMm,
    massKg: tubeMassKg(asked, sheet.finishedMm),
    points,
    sheet,
    order,
    steps: bendSteps(sheet, order, bending.referenceMm),
    proofMm: walkedOffMm(points, walkedTube(sheet).points),
    errors: endErrors(points, sheet, within),
  };
}

/**
 * The other hand: its mirror image across the plane of x and z, as a vehicle has it with y to the side.
 * Lengths and angles stay, and rotations go the other way.
 */
export const mirrorBentTube = ({ asked }: BentTube): BentTube => {
  const { legs } = asked;
  return bentTube({
    ...asked,
    legs: {
      ...legs,
      ends: [mirrored(legs.ends[0]), mirrored(legs.ends[1])],
      corners: legs.corners.map((corner) => ({
        ...corner,
        at: mirrored(corner.at),
        rotateDeg: corner.rotateDeg === 180 ? 180 : 0 - corner.rotateDeg,
      })),
    },
  });
};

const mirrored = ([x, y, z]: Vec3): Vec3 => [x, 0 - y, z];
