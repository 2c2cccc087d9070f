import type { Vec2 } from '../../geometry/vec2.ts';
import { overY } from '../../geometry/own-mirror.ts';
import { overlap } from '../../geometry/convex-polygon.ts';
import { SAME_ANGLE_RAD } from '../../geometry/tolerance.ts';

/**
 * The first angle, in degrees, at which a convex polygon that turns about the origin by `turnDeg`
 * (counter-clockwise when positive) meets a convex polygon that stays still; 0 when they overlap
 * before the turn, `undefined` when they never meet. The angle is exact: from apart, two polygons
 * can only meet where a corner of one, on its circle, reaches an edge of the other.
 */
export function turnContact(
  turning: readonly Vec2[],
  still: readonly Vec2[],
  turnDeg: number,
): number | undefined {
  if (overlap(turning, still)) return 0;
  if (turnDeg === 0) return undefined;
  if (turnDeg < 0) return turnContact(turning.map(overY), still.map(overY), -turnDeg);
  const most = (turnDeg * Math.PI) / 180;
  let first = Infinity;
  const meet = (onTurning: Vec2, onStill: Vec2): void => {
    const turn = positive(
      Math.atan2(onStill[1], onStill[0]) - Math.atan2(onTurning[1], onTurning[0]),
    );
    if (turn <= most && turn < first) first = turn;
  };
  for (const corner of turning) eachAtRadius(radiusOf(corner), still, (p) => meet(corner, p));
  for (const corner of still) eachAtRadius(radiusOf(corner), turning, (p) => meet(p, corner));
  return first === Infinity ? undefined : (first * 180) / Math.PI;
}

/** `Math.hypot` takes several times as long. */
const radiusOf = ([x, y]: Vec2): number => Math.sqrt(x * x + y * y);

/** Brings an angle into 0 to a full turn. A turn that is almost full is noise just below 0. */
const positive = (rad: number): number => {
  const turn = rad - 2 * Math.PI * Math.floor(rad / (2 * Math.PI));
  return turn > 2 * Math.PI - SAME_ANGLE_RAD ? 0 : turn;
};

/** Visits the points of a polygon's edges at a distance from the origin. */
function eachAtRadius(radius: number, polygon: readonly Vec2[], tell: (p: Vec2) => void): void {
  for (let i = 0; i < polygon.length; i++) {
    const a = polygon[i] as Vec2;
    const b = polygon[i + 1] ?? (polygon[0] as Vec2);
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const square = dx * dx + dy * dy;
    if (square === 0) continue;
    const half = (a[0] * dx + a[1] * dy) / square;
    const root = half * half - (a[0] * a[0] + a[1] * a[1] - radius * radius) / square;
    if (root < 0) continue;
    for (const t of [-half - Math.sqrt(root), -half + Math.sqrt(root)]) {
      if (t >= 0 && t <= 1) tell([a[0] + t * dx, a[1] + t * dy]);
    }
  }
}
