import {
  advise,
  figure,
  isInside,
  isOver,
  note,
  orMore,
  pieceGapsOf,
  reachOf,
  wholeDown,
  wholeUp,
} from '../../src/template.ts';
import type { Finding, HoleSpec, Loop, Vec2 } from '../../src/template.ts';
import { FITTING_GAP_MM, TOP_HOLES } from './fittings.ts';
import { bafflePlanes, beyondBaffleMm } from './baffle-planes.ts';
import type { TankPlan } from './inputs.ts';
import { levelOf, litresBelow } from './levels.ts';
import type { Sheet } from './panels.ts';
import { bodyOf, type Shape } from './planes.ts';
import type { BaffleLine } from './room.ts';
import { type Body, type Rod, rodsOf } from './solid.ts';
import { flangeMm, stationsOf } from './stations.ts';

/** The inputs with the sender where it leaves the reserve, and what is told of that. */
export interface PlacedSender {
  readonly v: TankPlan;
  readonly findings: readonly Finding[];
}

/**
 * The sender moved to the place nearest to the one that was given, on whole millimetres from it, at
 * which it reads empty when the reserve is left: the floor there lies low enough for its end, the top
 * as high as a length that is sold or was given asks for, if it is so anywhere, and it stays clear of walls, baffles and
 * other fittings. Screws move with it.
 */
export const placedSender = (
  v: TankPlan,
  shape: Shape,
  sheet: Sheet,
  lines: readonly BaffleLine[],
): PlacedSender => {
  const [first] = v.sender;
  if (v.senderAt !== 'reserve' || v.reserve === 0 || first === undefined)
    return { v, findings: [] };
  const body = bodyOf(shape);
  const rodOver = rodsOf(body);
  const isClear = clearPlaces(v, shape, sheet, lines);
  const given: Vec2 = [first.acrossMm, first.alongMm];
  const nearest = (withinMm: number): Vec2 | undefined => {
    const leaves = leavesReserve(v, body, withinMm);
    return nearestPlace(given, rangeMm(shape, given), (at) => {
      const rod = rodOver(at);
      return rod !== undefined && leaves(rod) && isClear([at[0] - given[0], at[1] - given[1]]);
    });
  };
  // Under a level top every place asks for the same length, which may lie between those that are sold.
  const near = nearest(v.senderStep);
  const found = near === undefined ? undefined : (nearest(EXACT_MM) ?? near);
  if (found === undefined) return { v, findings: [noPlace(v, shape, given, isClear)] };
  const [dx, dy] = [found[0] - given[0], found[1] - given[1]];
  if (dx === 0 && dy === 0) return { v, findings: [] };
  return {
    v: { ...v, sender: v.sender.map((hole) => moved(hole, dx, dy)) },
    findings: [
      note(
        'sender-moved',
        `sender stands at ${found.map((c) => figure(c)).join(',')}, the place nearest to ${given.map((c) => figure(c)).join(',')} at which it reads empty with reserve ${figure(v.reserve)} l left, clear of walls, baffles and other fittings.`,
      ),
    ],
  };
};

const moved = (hole: HoleSpec, dx: number, dy: number): HoleSpec => ({
  ...hole,
  acrossMm: hole.acrossMm + dx,
  alongMm: hole.alongMm + dy,
});

/** A length that is off by no more is the wanted one: nobody measures a level closer. */
const EXACT_MM = 1;

/** Whether a sender on a plumb line reads empty when the reserve is left, and shows more than that. */
const leavesReserve = (v: TankPlan, body: Body, withinMm: number): ((rod: Rod) => boolean) => {
  const levelMm = levelOf(body, v.reserve);
  return ({ lowMm, highMm }) => {
    const wanted = highMm - levelMm + v.senderEmpty;
    const room = highMm - lowMm - v.senderFoot;
    const length = v.senderLength ?? wholeDown(wanted / v.senderStep) * v.senderStep;
    return (
      wanted <= room &&
      length <= room &&
      length > v.senderEmpty + v.senderFull &&
      !isOver(Math.abs(wanted - length), withinMm)
    );
  };
};

/** Whether the holes of the sender, all moved by so much, stay clear of what else is there. */
const clearPlaces = (
  v: TankPlan,
  shape: Shape,
  sheet: Sheet,
  lines: readonly BaffleLine[],
): ((by: Vec2) => boolean) => {
  const inside: Loop = shape.high.map(([x, y]) => ({ x, y, bulge: 0 }));
  const gapToSide = pieceGapsOf(inside);
  const sides = inside.map((_, side) => side);
  const [low, high] = ([Math.min, Math.max] as const).map((most): Vec2 => [
    most(...shape.high.map((p) => p[0])),
    most(...shape.high.map((p) => p[1])),
  ]) as [Vec2, Vec2];
  const planes = bafflePlanes(shape, stationsOf(v, shape, sheet), lines);
  const reach = (hole: HoleSpec): number => reachOf(hole.shape, v.thicknessMm) + FITTING_GAP_MM;
  const holes = v.sender.map((hole) => ({
    at: [hole.acrossMm, hole.alongMm] as const,
    reachMm: reach(hole),
  }));
  const others = TOP_HOLES.filter((input) => input !== 'sender').flatMap((input) =>
    v[input].map((hole) => ({
      at: [hole.acrossMm, hole.alongMm] as const,
      reachMm: reachOf(hole.shape, v.thicknessMm),
    })),
  );
  const behind = Math.max(v.thicknessMm, flangeMm(v));
  return ([dx, dy]) =>
    holes.every(({ at, reachMm }) => {
      const p: Vec2 = [at[0] + dx, at[1] + dy];
      if (p[0] < low[0] || p[0] > high[0] || p[1] < low[1] || p[1] > high[1]) return false;
      return (
        planes.every(({ frame }) => {
          const beyond = beyondBaffleMm(frame, p);
          return beyond + reachMm <= 0 || beyond - reachMm >= behind;
        }) &&
        others.every((o) => Math.hypot(o.at[0] - p[0], o.at[1] - p[1]) >= reachMm + o.reachMm) &&
        isInside(inside, p) &&
        sides.every((side) => gapToSide(p, side) >= reachMm)
      );
    });
};

/** The farthest that a place of the top lies from one, along x or y. */
const rangeMm = ({ high }: Shape, [x, y]: Vec2): number =>
  Math.ceil(Math.max(...high.map((p) => Math.max(Math.abs(p[0] - x), Math.abs(p[1] - y)))));

/**
 * The nearest place, on whole millimetres from a given one, at which something holds: squares round
 * it are looked through until none further out can be nearer.
 */
const nearestPlace = (
  [x, y]: Vec2,
  range: number,
  holds: (at: Vec2) => boolean,
): Vec2 | undefined => {
  let best: Vec2 | undefined;
  let nearest = Infinity;
  const tryAt = (dx: number, dy: number): void => {
    const far = Math.hypot(dx, dy);
    if (far >= nearest || !holds([x + dx, y + dy])) return;
    best = [x + dx, y + dy];
    nearest = far;
  };
  for (let ring = 0; ring <= range && ring < nearest; ring++)
    for (let side = -ring; side <= ring; side++) {
      tryAt(side, -ring);
      tryAt(side, ring);
      tryAt(-ring, side);
      tryAt(ring, side);
    }
  return best;
};

/** Step at which the whole top is looked through for the deepest place, mm. */
const LOOK_MM = 5;

const noPlace = (
  v: TankPlan,
  shape: Shape,
  given: Vec2,
  isClear: (by: Vec2) => boolean,
): Finding => {
  const body = bodyOf(shape);
  const rodOver = rodsOf(body);
  const range = rangeMm(shape, given);
  let low = Infinity;
  for (let dx = -range; dx <= range; dx += LOOK_MM)
    for (let dy = -range; dy <= range; dy += LOOK_MM) {
      const rod = isClear([dx, dy]) ? rodOver([given[0] + dx, given[1] + dy]) : undefined;
      if (rod !== undefined) low = Math.min(low, rod.lowMm);
    }
  const leastL = litresBelow(body, low + v.senderFoot + v.senderEmpty);
  const isTooLow = Number.isFinite(low) && leastL > v.reserve;
  return advise(
    'sender-no-place',
    ['sender', 'reserve'],
    Number.isFinite(low)
      ? `no place in the top that is clear of walls, baffles and other fittings leaves reserve ${figure(v.reserve)} l${isTooLow ? `: at the deepest of them ${figure(leastL)} l are left` : ''}`
      : 'no place in the top is clear of walls, baffles and other fittings',
    isTooLow ? [orMore('reserve', wholeUp(leastL), 0)] : [],
    isTooLow
      ? 'give less for senderFoot or senderEmpty'
      : 'give another senderLength, or move what stands in the way',
  );
};
