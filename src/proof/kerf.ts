import { arcOf } from '../geometry/arc.ts';
import type { Loop, Vertex } from '../geometry/loop.ts';
import { endDirection, type Piece, pieceOf, startDirection } from '../geometry/piece.ts';
import { cross, distance, middle, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { SAME_IN_FILE_MM, EXACT_MM, PARALLEL_SINE } from '../geometry/tolerance.ts';

/** An arc no larger than this, mm, is a corner that the cut goes round. */
const CORNER_MM = 1e-3;
/**
 * The edge that a cut line leaves, a distance to its left, or to its right when less than 0. Lines
 * and arcs are shifted. An arc round a corner shrinks to the corner, and two neighbours that lie
 * apart after the shift are extended until they cross.
 */
export const besideCut = (loop: Loop, leftMm: number): Loop => {
  if (leftMm === 0) return loop;
  const pieces = loop.flatMap((_, i) => shifted(pieceOf(loop, i), leftMm));
  const starts = pieces.map((p, i) => joint(pieces.at(i - 1) as Piece, p));
  return pieces.map((p, i): Vertex => {
    const [from, to] = [starts[i] as Vec2, starts[(i + 1) % pieces.length] as Vec2];
    return { x: from[0], y: from[1], bulge: p.bulge === 0 ? 0 : bulgeOver(p, from, to) };
  });
};

const shifted = (p: Piece, left: number): Piece[] => {
  if (p.bulge !== 0 && arcOf(p.from, p.to, p.bulge).radius - Math.sign(p.bulge) * left < CORNER_MM)
    return [];
  const [a, b] = [startDirection(p), endDirection(p)];
  return [
    {
      from: [p.from[0] - a[1] * left, p.from[1] + a[0] * left],
      to: [p.to[0] - b[1] * left, p.to[1] + b[0] * left],
      bulge: p.bulge,
    },
  ];
};

/**
 * The point where two neighbours meet: where they end already, or where they cross when extended.
 */
const joint = (before: Piece, after: Piece): Vec2 => {
  if (distance(before.to, after.from) < SAME_IN_FILE_MM) return before.to;
  const near = middle(before.to, after.from);
  const found = crossingsOf(before, after).sort((p, q) => distance(p, near) - distance(q, near))[0];
  return found ?? near;
};

/** All crossings of the whole lines and circles that two pieces lie on. */
const crossingsOf = (a: Piece, b: Piece): Vec2[] => {
  if (a.bulge !== 0 && b.bulge !== 0)
    return circlesCross(arcOf(a.from, a.to, a.bulge), arcOf(b.from, b.to, b.bulge));
  const [line, other] = a.bulge === 0 ? [a, b] : [b, a];
  const dir = unit(sub(line.to, line.from));
  if (other.bulge !== 0)
    return lineCrossesCircle(line.from, dir, arcOf(other.from, other.to, other.bulge));
  const otherDir = unit(sub(other.to, other.from));
  const across = cross(dir, otherDir);
  if (Math.abs(across) < PARALLEL_SINE) return [];
  const s = cross(sub(other.from, line.from), otherDir) / across;
  return [[line.from[0] + s * dir[0], line.from[1] + s * dir[1]]];
};

interface Circle {
  readonly centre: Vec2;
  readonly radius: number;
}

const lineCrossesCircle = (at: Vec2, dir: Vec2, { centre, radius }: Circle): Vec2[] => {
  const to = sub(centre, at);
  const foot = to[0] * dir[0] + to[1] * dir[1];
  const half = Math.sqrt(Math.max(0, radius ** 2 - cross(dir, to) ** 2));
  return [foot - half, foot + half].map((s): Vec2 => [at[0] + s * dir[0], at[1] + s * dir[1]]);
};

const circlesCross = (p: Circle, q: Circle): Vec2[] => {
  const between = sub(q.centre, p.centre);
  const d = Math.hypot(between[0], between[1]);
  if (d < EXACT_MM) return [];
  const along = (d * d + p.radius ** 2 - q.radius ** 2) / (2 * d);
  const half = Math.sqrt(Math.max(0, p.radius ** 2 - along ** 2));
  const dir = unit(between);
  return [half, -half].map((h): Vec2 => [
    p.centre[0] + along * dir[0] - h * dir[1],
    p.centre[1] + along * dir[1] + h * dir[0],
  ]);
};

/** The bulge of the arc on the same circle between two of its points. */
const bulgeOver = (p: Piece, from: Vec2, to: Vec2): number => {
  if (distance(p.from, from) < EXACT_MM && distance(p.to, to) < EXACT_MM) return p.bulge;
  const { centre } = arcOf(p.from, p.to, p.bulge);
  const angle = (q: Vec2): number => Math.atan2(q[1] - centre[1], q[0] - centre[0]);
  const turn = Math.sign(p.bulge) * (angle(to) - angle(from));
  return Math.sign(p.bulge) * Math.tan((turn - 2 * Math.PI * Math.floor(turn / (2 * Math.PI))) / 4);
};
