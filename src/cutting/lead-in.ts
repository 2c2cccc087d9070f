import { loopExtents } from '../geometry/extents.ts';
import { pointGap } from '../geometry/gap.ts';
import { isInside } from '../geometry/inside.ts';
import { type Loop, vertexAt } from '../geometry/loop.ts';
import { endDirection, pieceOf, startDirection } from '../geometry/piece.ts';
import type { Region } from '../geometry/region.ts';
import { SAME_DIRECTION, SAME_POINT_MM } from '../geometry/tolerance.ts';
import { add, along, distance, leftOf, unit, type Vec2 } from '../geometry/vec2.ts';

/** What a pierce beside an outline needs, mm. */
export interface LeadIn {
  /** From the pierce to the outline. */
  readonly longMm: number;
  /** From the middle of the pierce to the nearest edge of anything else: its own half, and dross. */
  readonly clearMm: number;
}

/** What is round an outline: other metal that is wanted, and the sheet. */
export interface Surroundings {
  readonly others: readonly Region[];
  readonly stock: Region;
}

/** Where the cut of an outline begins. */
export interface Pierce {
  /** The outline, beginning there. */
  readonly outline: Loop;
  /** How long a lead-in finds room there, mm: no more than was asked for. */
  readonly roomMm: number;
}

/** Lengths of lead-in that are tried where the full one finds no room. */
const STEPS = 20;

/**
 * Where an outline is best pierced: the corner nearest to the lower left of its box that has room
 * outside for the lead-in; where none has, the one with most. Only corners behind a straight edge
 * are asked, since files of some readers must end with one; all, where none is straight.
 */
export const pierceOf = (outline: Loop, around: Surroundings, leadIn: LeadIn): Pierce => {
  const behindStraight = outline.flatMap((_, i) =>
    vertexAt(outline, i - 1).bulge === 0 ? [i] : [],
  );
  const asked = behindStraight.length > 0 ? behindStraight : outline.map((_, i) => i);
  const box = loopExtents(outline);
  const corner: Vec2 = [box?.minX ?? 0, box?.minY ?? 0];
  const byNearness = asked
    .map((i) => ({ i, far: distance(pointAt(outline, i), corner) }))
    .toSorted((a, b) => a.far - b.far);
  let best = { i: byNearness[0]?.i ?? 0, roomMm: 0 };
  for (const { i } of byNearness) {
    const roomMm = roomAt(outline, i, around, leadIn);
    if (roomMm > best.roomMm + SAME_POINT_MM) best = { i, roomMm };
    if (roomMm === leadIn.longMm) break;
  }
  const { i, roomMm } = best;
  return { outline: [...outline.slice(i), ...outline.slice(0, i)], roomMm };
};

const pointAt = (loop: Loop, i: number): Vec2 => [vertexAt(loop, i).x, vertexAt(loop, i).y];

/** The longest lead-in for which a pierce outside a corner has room. */
const roomAt = (
  outline: Loop,
  i: number,
  around: Surroundings,
  { longMm, clearMm }: LeadIn,
): number => {
  const [at, out] = [pointAt(outline, i), outwards(outline, i)];
  if (out === undefined) return 0;
  for (let step = STEPS; step > 0; step--) {
    const room = (longMm * step) / STEPS;
    if (isFree(along(at, out, room), outline, around, room, clearMm)) return room;
  }
  return 0;
};

/** Away from the metal, between the two edges of a corner; the metal lies on the left of both. */
const outwards = (outline: Loop, i: number): Vec2 | undefined => {
  const n = outline.length;
  const [before, after] = [
    endDirection(pieceOf(outline, (i + n - 1) % n)),
    startDirection(pieceOf(outline, i)),
  ];
  const [x, y] = add(leftOf(before), leftOf(after));
  return Math.hypot(x, y) < SAME_DIRECTION ? undefined : unit([-x, -y]);
};

/** A pierce at an outer corner is as far from its edges as it is from the corner, or nearly. */
const OWN_SHARE = 0.7;

const isFree = (
  p: Vec2,
  own: Loop,
  { others, stock }: Surroundings,
  roomMm: number,
  clearMm: number,
): boolean =>
  !isInside(own, p) &&
  pointGap(p, own) >= OWN_SHARE * roomMm &&
  isInMetal(p, stock) &&
  [stock.outline, ...stock.holes].every((loop) => pointGap(p, loop) >= clearMm) &&
  others.every(
    (other) =>
      !isInMetal(p, other) &&
      [other.outline, ...other.holes].every((loop) => pointGap(p, loop) >= clearMm),
  );

const isInMetal = (p: Vec2, { outline, holes }: Region): boolean =>
  isInside(outline, p) && !holes.some((hole) => isInside(hole, p));
