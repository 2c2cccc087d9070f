import {
  along,
  compose,
  invert,
  motionBetween,
  movePoint,
  pointExtents,
  STILL,
  sub,
  unit,
} from '../../src/template.ts';
import type { Motion2, Vec2 } from '../../src/template.ts';
import { type End, outOf, wallEnd } from './ends.ts';
import { type Shell, wallAt } from './shell.ts';
import type { DuctBox } from './inputs.ts';
import { sidePoint, wallSide } from './side.ts';
import { wallShape } from './wall.ts';

/** Index in the chain of the wall that stays as drawn; the others are placed beside it. */
export const rootOf = (chain: readonly number[]): number => (chain.length > 2 ? 1 : 0);

/**
 * Width and height of the net of some walls and their lips, mm: the blank is smaller by the
 * deductions of the bends, a few mm.
 */
export const netSize = (
  v: DuctBox,
  shell: Shell,
  seams: readonly boolean[],
  chain: readonly number[],
): readonly [number, number] => {
  const places: Motion2[] = [STILL];
  for (const i of chain.slice(1))
    places.push(compose(places.at(-1) as Motion2, besideMotion(v, shell, seams, i)));
  const home = invert(places[rootOf(chain)] as Motion2);
  const box = pointExtents(
    chain.flatMap((i, k) =>
      wallPoints(v, shell, seams, i).map((p) => movePoint(compose(home, places[k] as Motion2), p)),
    ),
  );
  return box === undefined ? [0, 0] : [box.maxX - box.minX, box.maxY - box.minY];
};

/** Motion that puts a wall at the right-hand side of the one before it. */
const besideMotion = (v: DuctBox, shell: Shell, seams: readonly boolean[], i: number): Motion2 => {
  const before = wallSide(v, shell, seams, i + 3, 'right');
  const own = wallSide(v, shell, seams, i, 'left');
  const [to, toFar] = [sidePoint(before, 0, 0), sidePoint(before, shell.depthMm, 0)];
  const [from, fromFar] = [sidePoint(own, 0, 0), sidePoint(own, shell.depthMm, 0)].map(
    ([x, y]): Vec2 => [-x, y],
  ) as [Vec2, Vec2];
  return motionBetween(from, unit(sub(fromFar, from)), to, unit(sub(toFar, to)));
};

const wallPoints = (v: DuctBox, shell: Shell, seams: readonly boolean[], i: number): Vec2[] => {
  const { outline, corners } = wallShape(v, shell, seams, i);
  const tips = (end: End, feet: readonly Vec2[]): Vec2[] => {
    const depth = wallEnd(v, shell, wallAt(shell, i), end).lip?.depthMm ?? 0;
    return feet.map((foot) => along(foot, [0, outOf(end)], depth));
  };
  return [
    ...outline.map(({ x, y }): Vec2 => [x, y]),
    ...tips('aperture', [corners.apertureLeft.onEnd, corners.apertureRight.onEnd]),
    ...tips('end', [corners.endLeft.onEnd, corners.endRight.onEnd]),
  ];
};
