import { cosDeg, sinDeg, turnedDeg } from '../../geometry/degrees.ts';
import { overY } from '../../geometry/own-mirror.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import { overlap } from '../../geometry/convex-polygon.ts';
import { CONTACT_GAP_MM } from '../../geometry/tolerance.ts';

/**
 * The contact is searched for in steps that move nothing by more than the gap that is left, but at
 * least by this, mm.
 */
const LEAST_STEP_MM = 0.02;

/**
 * The first angle, in degrees of the leg from where it starts, at which a leg of a press brake
 * meets the die. The die rises with the leg: its shoulders stand at V/2 tan(angle). `undefined`
 * when they never meet.
 */
export function dieContact(
  turnedLeg: readonly Vec2[],
  die: readonly Vec2[],
  { fromDeg, toDeg: turnDeg }: LegTurn,
  halfVMm: number,
): number | undefined {
  if (turnDeg < 0)
    return dieContact(
      turnedLeg.map(overY),
      die.map(overY),
      { fromDeg: -fromDeg, toDeg: -turnDeg },
      halfVMm,
    );
  const leg = fromDeg === 0 ? turnedLeg : turnedLeg.map((p) => turnedDeg(p, -fromDeg));
  // The die lies under the line of its own leg. A panel that stands up from the leg may reach over
  // to the other shoulder.
  const isOver = leg.every(([x, y]) => x >= -CONTACT_GAP_MM && y >= -CONTACT_GAP_MM);
  const riseMm = (halfVMm * sinDeg(turnDeg)) / cosDeg(turnDeg);
  if (isOver && (die.every(([x]) => x >= 0) || die.every(([, y]) => y + riseMm < -CONTACT_GAP_MM)))
    return undefined;
  if (leg.every(([x, y]) => x >= -CONTACT_GAP_MM && Math.abs(y) <= CONTACT_GAP_MM))
    return undefined;
  const radius = Math.max(...leg.map((p) => Math.hypot(...p)));
  const speedMm = ((radius + halfVMm / cosDeg(turnDeg) ** 2) * Math.PI) / 180;
  for (let deg = fromDeg; deg <= turnDeg;) {
    const [c, s] = [cosDeg(deg), sinDeg(deg)];
    const at = leg.map(([x, y]): Vec2 => [c * x - s * y, s * x + c * y]);
    const risen = die.map(([x, y]): Vec2 => [x, y + (halfVMm * s) / c]);
    if (overlap(at, risen)) return deg - fromDeg;
    deg += Math.max(gap(at, risen), LEAST_STEP_MM) / speedMm;
  }
  return undefined;
}

/**
 * The turn of a leg, degrees from flat, both counter-clockwise when positive. The leg stands at the
 * first angle when the turn begins.
 */
export interface LegTurn {
  readonly fromDeg: number;
  readonly toDeg: number;
}

/** The gap between polygons that do not overlap. */
const gap = (a: readonly Vec2[], b: readonly Vec2[]): number =>
  Math.sqrt(Math.min(cornersToEdges(a, b), cornersToEdges(b, a)));

/**
 * The square of the least distance. It uses plain numbers, because it is called at every step of a
 * swing.
 */
const cornersToEdges = (corners: readonly Vec2[], edges: readonly Vec2[]): number => {
  let least = Infinity;
  for (let i = 0; i < edges.length; i++) {
    const [fromX, fromY] = edges[i] as Vec2;
    const [toX, toY] = edges[i + 1] ?? (edges[0] as Vec2);
    const [dx, dy] = [toX - fromX, toY - fromY];
    const square = dx * dx + dy * dy;
    for (const [x, y] of corners) {
      const share =
        square === 0 ? 0 : Math.min(1, Math.max(0, ((x - fromX) * dx + (y - fromY) * dy) / square));
      const [offX, offY] = [x - fromX - share * dx, y - fromY - share * dy];
      const away = offX * offX + offY * offY;
      if (away < least) least = away;
    }
  }
  return least;
};
