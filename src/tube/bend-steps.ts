import { cross3, dot3, length3, sub3, unit3, type Vec3 } from '../geometry/vec3.ts';
import type { BendSheet } from './bend-sheet.ts';
import type { Pull, PullOrder } from './pull-order.ts';
import { walkedTube } from './walk.ts';

/** A bend as it is made, in its turn. */
export interface BendStep extends Pull {
  /** Where the mark is put that is laid on the bender's own mark, from the leading end, mm. */
  readonly markMm: number;
  /** Whether the tube is turned end for end before it. */
  readonly endForEnd: boolean;
  /**
   * How far the tube is turned about itself from the bend before, 0 at the first; more than 0 is
   * clockwise as seen from the end that is not clamped, looking towards the clamp.
   */
  readonly turnDeg: number;
  /** From the middle of one end to the middle of the other, straight across, once it is made, mm. */
  readonly checkMm: number;
  /**
   * How far the middle of the tube reaches to either side of the plane in which it is bent, mm: to the
   * side of the bender on which the bend looks to be counter-clockwise, and to the other.
   */
  readonly reachMm: { readonly counter: number; readonly other: number };
}

/**
 * The bends in the order in which they are made. The bender bends in one plane, so it is the tube that
 * is turned: back by the rotation of the bend's plane, which seen from the other end is the same way
 * round. Turned end for end about the upright, the next bend lies on the other side of the tube, half
 * a turn on. `referenceMm` is how far the bender's mark lies ahead of where the bend begins.
 */
export function bendSteps(sheet: BendSheet, { pulls }: PullOrder, referenceMm: number): BendStep[] {
  const rolls: number[] = [];
  sheet.bends.forEach(({ rotateDeg }, i) => rolls.push((rolls[i - 1] ?? 0) + rotateDeg));
  const made = new Set<number>();
  return pulls.map((pull, i): BendStep => {
    const before = pulls[i - 1];
    const bend = sheet.bends[pull.bend] as BendSheet['bends'][number];
    const endForEnd = before !== undefined && before.clampAt !== pull.clampAt;
    const on =
      before === undefined ? 0 : (rolls[pull.bend] as number) - (rolls[before.bend] as number);
    made.add(pull.bend);
    const { points } = partlyBent(sheet, made);
    const corner = [...made].filter((one) => one <= pull.bend).length;
    return {
      ...pull,
      markMm:
        pull.clampAt === 'lead'
          ? bend.startMm - referenceMm
          : bend.startMm + bend.arcMm + referenceMm,
      endForEnd,
      turnDeg: wrappedDeg((pull.clampAt === 'lead' ? on : -on) + (endForEnd ? 180 : 0)),
      checkMm: length3(sub3(points.at(-1) as Vec3, points[0] as Vec3)),
      reachMm: reachOf(points, corner, pull.clampAt),
    };
  });
}

/** An angle as a turn of more than -180 and at most 180. */
const wrappedDeg = (deg: number): number => {
  const turn = ((((deg + 180) % 360) + 360) % 360) - 180;
  return turn === -180 ? 180 : turn;
};

/** A tube on its way: ends and corners of its middle line, and the bends that are made of it. */
export interface PartlyBent {
  readonly points: readonly Vec3[];
  readonly bends: readonly (BendSheet['bends'][number] & { readonly place: number })[];
}

/**
 * The tube as it is cut off, with some of its bends made and straight at the others: the leading end at
 * the origin. `place` of a bend is that in the whole sheet.
 */
export const partlyBent = (sheet: BendSheet, made: ReadonlySet<number>): PartlyBent => {
  const { bends, straightsMm, waste } = sheet;
  const straights = [waste.leadMm + (straightsMm[0] ?? 0)];
  const bent: PartlyBent['bends'][number][] = [];
  let rotateDeg = 0;
  bends.forEach((bend, i) => {
    rotateDeg += bend.rotateDeg;
    const behind = straightsMm[i + 1] ?? 0;
    if (made.has(i)) {
      bent.push({ ...bend, rotateDeg, place: i });
      rotateDeg = 0;
      straights.push(behind);
    } else straights.push((straights.pop() ?? 0) + bend.arcMm + behind);
  });
  straights.push((straights.pop() ?? 0) + waste.tailMm);
  return { points: walkedTube({ bends: bent, straightsMm: straights }).points, bends: bent };
};

/**
 * How far points lie from the plane of the bend at one of them. What the clamp holds is turned about the
 * upright of the bender and the rest stays, so that it is the same all through the pull. From the clamp
 * the leading end is seen the other way round than the tail.
 */
const reachOf = (
  points: readonly Vec3[],
  corner: number,
  clampAt: Pull['clampAt'],
): BendStep['reachMm'] => {
  const [before, at, after] = [points[corner - 1], points[corner], points[corner + 1]] as [
    Vec3,
    Vec3,
    Vec3,
  ];
  const across = unit3(cross3(sub3(at, before), sub3(after, at)));
  const sides = points.map((p) => dot3(sub3(p, at), across) * (clampAt === 'lead' ? -1 : 1));
  return { counter: Math.max(0, ...sides), other: Math.max(0, ...sides.map((mm) => 0 - mm)) };
};
