import { bulgeOf } from './arc.ts';
import type { Loop, Vertex } from './loop.ts';
import { circle } from './shapes.ts';
import { NOISE_MM, SAME_ANGLE_RAD } from './tolerance.ts';
import { distance, dot, length, sub, type Vec2 } from './vec2.ts';

/** A round spot, mm; a spot of radius 0 is a point. */
export interface Spot {
  readonly centre: Vec2;
  readonly radius: number;
}

/**
 * The convex hull of circles, counter-clockwise: the path of a tight belt round them, in tangent
 * lines and true arcs. Circles that the belt does not touch leave no trace. It is meant for some
 * dozens of circles, as the time grows with the cube of their number.
 *
 * A circle reaches c.u + r in the direction u, and the hull reaches as far as the farthest of them
 * (support functions: R. Schneider, Convex Bodies, section 1.7; cited from memory). The hull
 * therefore follows one circle after another, and changes from one to the next where both reach
 * equally far: along their common tangent.
 */
export function hullOfCircles(spots: readonly Spot[]): Loop {
  const [only] = spots;
  if (only === undefined) throw new RangeError('there is no hull round nothing');
  const turns = changeOvers(spots);
  const [first, second] = turns;
  if (first === undefined || second === undefined)
    return circle(largest(spots).centre, largest(spots).radius);
  return withoutPoints(
    turns.flatMap((turn, i) => arcAfter(turn, turns[(i + 1) % turns.length] as ChangeOver)),
  );
}

/**
 * The place where the belt leaves a circle for the next one, `to`: the direction that the belt
 * faces there.
 */
interface ChangeOver {
  readonly rad: number;
  readonly to: Spot;
}

const FULL = 2 * Math.PI;

const largest = (spots: readonly Spot[]): Spot =>
  spots.reduce((best, s) => (s.radius > best.radius ? s : best));

/**
 * The places where the farthest circle changes. Between two neighbouring directions of this list
 * the same circle reaches farthest all the way.
 */
function changeOvers(spots: readonly Spot[]): ChangeOver[] {
  const rads = spots
    .flatMap((from, i) => spots.flatMap((to, j) => (i === j ? [] : (tangentRad(from, to) ?? []))))
    .sort((a, b) => a - b);
  const starts = rads.filter((rad, i) => i === 0 || rad - (rads[i - 1] as number) > SAME_ANGLE_RAD);
  const farthest = starts.map((rad, i) =>
    farthestAt(spots, (rad + (starts[i + 1] ?? (starts[0] as number) + FULL)) / 2),
  );
  return farthest.flatMap((to, i) => {
    const from = farthest.at(i - 1) as Spot;
    return to === from ? [] : [{ rad: tangentRad(from, to) ?? (starts[i] as number), to }];
  });
}

function farthestAt(spots: readonly Spot[], rad: number): Spot {
  const facing: Vec2 = [Math.cos(rad), Math.sin(rad)];
  const reach = ({ centre, radius }: Spot): number => dot(centre, facing) + radius;
  return spots.reduce((best, s) => (reach(s) > reach(best) ? s : best));
}

/**
 * The direction, 0 to 2 pi, in which `to` begins to reach farther than `from` as one turns
 * counter-clockwise; none if one circle lies in the other. With d from centre to centre, d cos(w -
 * lean) = r(from) - r(to).
 */
function tangentRad(from: Spot, to: Spot): number | undefined {
  const way = sub(to.centre, from.centre);
  const less = from.radius - to.radius;
  const d = length(way);
  if (d - Math.abs(less) <= NOISE_MM) return undefined;
  const rad = Math.atan2(way[1], way[0]) - Math.atan2(Math.sqrt((d - less) * (d + less)), less);
  return rad - FULL * Math.floor(rad / FULL);
}

const touch = ({ centre, radius }: Spot, rad: number): Vec2 => [
  centre[0] + radius * Math.cos(rad),
  centre[1] + radius * Math.sin(rad),
];

/**
 * The arc on a circle, in halves where it is more than half of the circle, and the start of the
 * tangent line after it.
 */
function arcAfter({ rad, to: spot }: ChangeOver, next: ChangeOver): Vertex[] {
  const sweep = next.rad - rad - FULL * Math.floor((next.rad - rad) / FULL);
  const parts = sweep > Math.PI ? 2 : 1;
  const arcs = Array.from({ length: parts }, (_, k): Vertex => {
    const [x, y] = touch(spot, rad + (k * sweep) / parts);
    return { x, y, bulge: bulgeOf(sweep / parts) };
  });
  const [x, y] = touch(spot, next.rad);
  return [...arcs, { x, y, bulge: 0 }];
}

/**
 * The loop without the pieces of no length that come from circles of no radius, and from circles
 * that all but touch from inside.
 */
const withoutPoints = (loop: Loop): Loop =>
  loop.filter((v, i) => {
    const next = loop[(i + 1) % loop.length] as Vertex;
    return distance([v.x, v.y], [next.x, next.y]) > NOISE_MM;
  });
