import type { Vec2 } from '../../geometry/vec2.ts';
import type { Section } from '../../model/machine.ts';
import { dieContact } from './die-contact.ts';
import type { TakenStretch } from './holding.ts';
import type { Body, BodyCheck } from './stroke-rules.ts';
import { cornersBetween, shadowOf, type Solid } from '../../geometry/convex-solid.ts';
import { mayMeet } from './swept-box.ts';
import { turnContact } from './turn-contact.ts';

/** Whether a body of the part reaches into one of the machine's on its way. */
export const reachesIn = ({ shadow }: Solid, check: BodyCheck): boolean =>
  check.bodies.some((body) => bodyContact(shadow, check, body.lessGap) !== undefined);

/**
 * The angle at which a body of the part first touches one of the machine's that it reaches into.
 * Where the two lay against each other from the start, it is the angle at which the body reaches
 * in.
 */
export function touchDeg(solid: Solid, check: BodyCheck): number | undefined {
  const outline = solid.shadow;
  const reached = shadowContact(outline, check, 'lessGap');
  return reached === undefined ? undefined : shadowContact(outline, check, 'whole') || reached;
}

const shadowContact = (
  outline: readonly Vec2[],
  check: BodyCheck,
  which: keyof Body,
): number | undefined => {
  let first: number | undefined;
  for (const body of check.bodies) {
    const deg = bodyContact(outline, check, body[which]);
    if (deg !== undefined && (first === undefined || deg < first)) first = deg;
  }
  return first;
};

/**
 * The first angle, degrees, at which a shadow of the part reaches into a section of the machine;
 * `undefined` when it never does. The machine's bodies have the same section all along, so a body of
 * the part meets them where its shadow does.
 */
const bodyContact = (
  outline: readonly Vec2[],
  { turnDeg, halfVMm, turnedDeg = 0 }: BodyCheck,
  section: Section,
): number | undefined => {
  const riseMm =
    halfVMm === undefined ? 0 : halfVMm * Math.tan((Math.abs(turnDeg + turnedDeg) * Math.PI) / 180);
  if (section.length < 3 || !mayMeet(outline, section, turnDeg, riseMm)) return undefined;
  return halfVMm === undefined
    ? turnContact(outline, section, turnDeg)
    : dieContact(outline, section, { fromDeg: turnedDeg, toDeg: turnedDeg + turnDeg }, halfVMm);
};

/**
 * The stretch along the machine where a body of the part meets those of a check, and the first
 * angle at which it does.
 */
export interface Taken extends TakenStretch {
  readonly atDeg: number;
}

/** The ends of a stretch are found to within this, mm. */
const STRETCH_END_MM = 0.01;

/**
 * The stretch along the machine in which a body meets those of a check. The part of the body beyond
 * one end of the stretch is halved until the end is found, which works because more of the body
 * never meets less.
 */
export function takenBy(solid: Solid, check: BodyCheck): Taken | undefined {
  const atDeg = touchDeg(solid, check);
  if (atDeg === undefined) return undefined;
  const zs = solid.corners.map((c) => c[2]);
  const [low, high] = [Math.min(...zs), Math.max(...zs)];
  // A piece of the body meets nothing that the whole of it does not meet.
  const met = check.bodies.filter(
    ({ lessGap }) => bodyContact(solid.shadow, check, lessGap) !== undefined,
  );
  const meets = (from: number, to: number): boolean => {
    const part = cornersBetween(solid, from, to);
    if (part.length === 0) return false;
    const shadow = shadowOf(part);
    return met.some(({ lessGap }) => bodyContact(shadow, check, lessGap) !== undefined);
  };
  return {
    from: firstWhere(low, high, (z) => meets(low, z)),
    to: -firstWhere(-high, -low, (z) => meets(-z, high)),
    atDeg,
    ...(check.atEnd === true && { atEnd: true }),
  };
}

/**
 * The least value for which a condition holds, found from below. It must hold at `high`, and once
 * it holds it must go on to hold.
 */
const firstWhere = (low: number, high: number, holds: (z: number) => boolean): number => {
  if (holds(low)) return low;
  let [out, inside] = [low, high];
  while (inside - out > STRETCH_END_MM) {
    const mid = (out + inside) / 2;
    if (holds(mid)) inside = mid;
    else out = mid;
  }
  return inside;
};
