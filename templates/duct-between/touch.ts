import {
  along3,
  arcOf,
  cosDeg,
  cross3,
  dot,
  dot3,
  piecesOf,
  sinDeg,
  sub3,
} from '../../src/template.ts';
import type { Vec2, Vec3 } from '../../src/template.ts';
import { type DuctEnd, placedAt } from './ends.ts';

/** An angle brought to more than -180 and at most 180 degrees. */
export const turnOf = (deg: number): number => {
  const turned = deg - 360 * Math.round(deg / 360);
  return turned === -180 ? 180 : turned;
};

/** Direction of a vector in a plane, degrees. */
export const directionOf = ([x, y]: Vec2): number => (Math.atan2(y, x) * 180) / Math.PI;

/** A straight side of an end in space, in the order of the loop. */
export interface Side {
  readonly from: Vec3;
  readonly to: Vec3;
  /** Direction in which it faces outwards in its own plane, degrees. */
  readonly facesDeg: number;
}

export const sidesOf = (end: DuctEnd): Side[] =>
  piecesOf(end.loop).flatMap(({ from, to, bulge }) =>
    bulge === 0
      ? [
          {
            from: placedAt(end.pose, from),
            to: placedAt(end.pose, to),
            facesDeg: directionOf([to[0] - from[0], to[1] - from[1]]) - 90,
          },
        ]
      : [],
  );

/** Gives the point of a loop that lies farthest out in a direction of its plane, degrees. */
const outermostOf = ({ loop }: DuctEnd): ((deg: number) => Vec2) => {
  const pieces = piecesOf(loop);
  const corners = pieces.map(({ from }) => from);
  const rounds = pieces.flatMap(({ from, to, bulge }) =>
    bulge > 0 ? [arcOf(from, to, bulge)] : [],
  );
  return (deg) => {
    const way: Vec2 = [cosDeg(deg), sinDeg(deg)];
    let best = corners[0] as Vec2;
    const take = (p: Vec2): void => {
      if (dot(p, way) > dot(best, way)) best = p;
    };
    for (const corner of corners) take(corner);
    for (const { centre, radius, startRad, sweepRad } of rounds) {
      const past = deg - (startRad * 180) / Math.PI;
      const turn = past - 360 * Math.floor(past / 360);
      if (turn * Math.PI <= sweepRad * 180)
        take([centre[0] + radius * way[0], centre[1] + radius * way[1]]);
    }
    return best;
  };
};

/**
 * Direction in which an end faces where the wall that stands on a straight side of the other end
 * touches it: there the wall's plane holds the side and the tangent of the end. Found by halving;
 * `undefined` where there is no one place.
 */
export const touchDeg = (end: DuctEnd, { from, to }: Side): number | undefined => {
  const way = end.name === 'near' ? -1 : 1;
  const outermost = outermostOf(end);
  /** How far the wall through the outermost point faces past that point's own direction. */
  const past = (deg: number): number => {
    const rise = sub3(placedAt(end.pose, outermost(deg)), from);
    const n = cross3(sub3(to, from), rise);
    return turnOf(directionOf([way * dot3(n, end.pose.x), way * dot3(n, end.pose.y)]) - deg);
  };
  let b = past(0);
  for (let i = 0; i < 360; i++) {
    const a = b;
    b = past(i + 1);
    if (!(a >= 0 && b < 0 && a - b < 90)) continue;
    let [low, high] = [i, i + 1];
    for (let halvings = 0; halvings < 48; halvings++) {
      const middle = (low + high) / 2;
      if (past(middle) >= 0) low = middle;
      else high = middle;
    }
    // Figures of equal directions differ by noise, which would make folds of nothing.
    return Math.round(low * 1e8) / 1e8;
  }
  return undefined;
};

/** The same for the tangent of the other end in a direction of its plane. */
export const tangentAt = (end: DuctEnd, deg: number): Side => {
  const from = placedAt(end.pose, outermostOf(end)(deg));
  const along = along3([0, 0, 0], end.pose.x, -sinDeg(deg));
  return { from, to: along3(along3(from, along, 1), end.pose.y, cosDeg(deg)), facesDeg: deg };
};
