import { arcOf, bulgeOf } from '../geometry/arc.ts';
import type { Loop, Vertex } from '../geometry/loop.ts';
import { type Piece, piecesOf } from '../geometry/piece.ts';
import { selfCrossing } from '../geometry/self-crossing.ts';
import { NEARLY_PARALLEL_SINE, SAME_POINT_MM } from '../geometry/tolerance.ts';
import {
  add,
  along,
  cross,
  distance,
  dot,
  leftOf,
  scale,
  sub,
  unit,
  type Vec2,
} from '../geometry/vec2.ts';

/**
 * A counter-clockwise outline with every edge moved outwards by a distance of its own, mm, inwards
 * where that is below 0; neighbours meet again where they then cross. Nothing where an edge has no
 * room left, or two neighbours meet no more.
 */
export const shiftEdges = (loop: Loop, outMm: (edge: number) => number): Loop | undefined => {
  const curves = piecesOf(loop).map((piece, i) => movedCurve(piece, outMm(i)));
  const joints = curves.map((curve, i) => {
    const before = curves.at(i - 1);
    return curve === undefined || before === undefined ? undefined : meetingOf(before, curve);
  });
  const made: Vertex[] = [];
  for (const [i, curve] of curves.entries()) {
    const [start, end] = [joints[i], joints[(i + 1) % joints.length]];
    if (curve === undefined || start === undefined || end === undefined) return undefined;
    const bulge = bulgeBetween(curve, start.after, end.before);
    if (bulge === undefined) return undefined;
    const { edge } = loop[i] as Vertex;
    if (distance(start.before, start.after) > SAME_POINT_MM)
      made.push({ x: start.before[0], y: start.before[1], bulge: 0 });
    made.push({
      x: start.after[0],
      y: start.after[1],
      bulge,
      ...(edge !== undefined && { edge }),
    });
  }
  return selfCrossing(made) === undefined ? made : undefined;
};

type Curve =
  | { readonly kind: 'line'; readonly at: Vec2; readonly dir: Vec2; readonly end: Vec2 }
  | {
      readonly kind: 'arc';
      readonly at: Vec2;
      readonly end: Vec2;
      readonly centre: Vec2;
      readonly radius: number;
      readonly sweepRad: number;
    };

const movedCurve = ({ from, to, bulge }: Piece, outMm: number): Curve | undefined => {
  if (bulge === 0) {
    const dir = unit(sub(to, from));
    const out = scale(leftOf(dir), -outMm);
    return { kind: 'line', at: add(from, out), end: add(to, out), dir };
  }
  const { centre, radius: r, sweepRad } = arcOf(from, to, bulge);
  const radius = r + Math.sign(bulge) * outMm;
  if (radius < SAME_POINT_MM) return undefined;
  const moved = (p: Vec2): Vec2 => along(centre, unit(sub(p, centre)), radius);
  return { kind: 'arc', at: moved(from), end: moved(to), centre, radius, sweepRad };
};

/** Where one ends and the next begins: one point, or two of a step between parallel edges. */
interface Meeting {
  readonly before: Vec2;
  readonly after: Vec2;
}

const meetingOf = (before: Curve, after: Curve): Meeting | undefined => {
  if (distance(before.end, after.at) < SAME_POINT_MM) return { before: after.at, after: after.at };
  const near = scale(add(before.end, after.at), 0.5);
  if (before.kind === 'line' && after.kind === 'line') {
    const sine = cross(before.dir, after.dir);
    if (Math.abs(sine) < NEARLY_PARALLEL_SINE) return { before: before.end, after: after.at };
    const k = cross(sub(after.at, before.at), after.dir) / sine;
    const at = along(before.at, before.dir, k);
    return { before: at, after: at };
  }
  const places = before.kind === 'arc' ? onArc(before, after) : onArc(after as Arc, before);
  const [at] = places.toSorted((p, q) => distance(p, near) - distance(q, near));
  return at === undefined ? undefined : { before: at, after: at };
};

type Arc = Extract<Curve, { kind: 'arc' }>;

/** Where a circle and a line or another circle meet; touching counts. */
const onArc = ({ centre, radius }: Arc, other: Curve): Vec2[] => {
  if (other.kind === 'line') {
    const foot = along(other.at, other.dir, dot(sub(centre, other.at), other.dir));
    return pairAt(foot, other.dir, radius ** 2 - distance(foot, centre) ** 2);
  }
  const between = sub(other.centre, centre);
  const far = Math.hypot(...between);
  if (far < SAME_POINT_MM) return [];
  const dir = unit(between);
  const reach = (far ** 2 + radius ** 2 - other.radius ** 2) / (2 * far);
  return pairAt(along(centre, dir, reach), leftOf(dir), radius ** 2 - reach ** 2);
};

/** Rounding may leave two curves that touch a little apart. */
const pairAt = (foot: Vec2, dir: Vec2, square: number): Vec2[] => {
  if (square < -SAME_POINT_MM) return [];
  const half = Math.sqrt(Math.max(0, square));
  return [along(foot, dir, half), along(foot, dir, -half)];
};

/** The bulge of what is left of a curve; nothing where nothing is left. */
const bulgeBetween = (curve: Curve, from: Vec2, to: Vec2): number | undefined => {
  if (curve.kind === 'line') return dot(sub(to, from), curve.dir) > SAME_POINT_MM ? 0 : undefined;
  const [a, b] = [sub(from, curve.centre), sub(to, curve.centre)];
  const turn = Math.atan2(cross(a, b), dot(a, b));
  const whole = Math.sign(curve.sweepRad) * 2 * Math.PI;
  // Half a turn may come out either way round by rounding; the sweep says which it is.
  const sweep = [turn, turn + whole, turn - whole]
    .filter((s) => s * curve.sweepRad > 0)
    .toSorted((p, q) => Math.abs(p - curve.sweepRad) - Math.abs(q - curve.sweepRad))[0];
  return sweep === undefined || Math.abs(sweep) > 2 * Math.PI - SAME_POINT_MM
    ? undefined
    : bulgeOf(sweep);
};
