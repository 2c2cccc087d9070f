import { hullOf, overlap } from '../../geometry/convex-polygon.ts';
import { type Extents, jointExtents, pointExtents } from '../../geometry/extents.ts';
import { NOISE_MM } from '../../geometry/tolerance.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import {
  along3,
  cross3,
  dot3,
  length3,
  scale3,
  sub3,
  unit3,
  type Vec3,
} from '../../geometry/vec3.ts';
import { type Mesh, meshTriangleNormal } from '../../model/mesh.ts';
import { type Camera, seen } from './camera.ts';
import { Occluders, type SeenTriangle } from './occluders.ts';

/** A body in its place among others. */
export interface Body {
  readonly mesh: Mesh;
  /** What those that are alike have in common; they are drawn apart alike where they can be. */
  readonly id: string;
  /** Square to its largest panel, a unit vector: the way in which it is best drawn apart. */
  readonly square: Vec3;
}

/** Clear paper that is wanted between two bodies, as a share of the size of all of them. */
const CLEAR_SHARE = 0.07;
/** A way is followed in steps of this share of that size, and no farther than so many. */
const STEP_SHARE = 0.02;
const MOST_STEPS = 250;
/** A way out of the middle of metal costs this much more room than a free one. */
const BLOCKED_COST = 1.5;
/** So does a way that is not square to its largest panel, or another than that of one like it. */
const ASLANT_COST = 0.3;
const UNLIKE_COST = 0.3;
/** So does a way across the whole to the other side of it. */
const ACROSS_COST = 0.6;
/** Of the points of a body, so many are asked for what stands in their way. */
const ASKED_POINTS = 60;

/**
 * How far bodies are moved apart, so that none lies over another in the view: each in its turn along
 * one way, in which those before it are not in the way where there is such a one, and which takes
 * least room on a paper of the given shape. The first stays.
 */
export const movedApart = (
  bodies: readonly Body[],
  camera: Camera,
  [wide, high]: readonly [number, number],
): Vec3[] => {
  const shadows = bodies.map(({ mesh }) => hullOf(mesh.points.map((p) => flat(camera, p))));
  const all = pointExtents(shadows.flat());
  if (all === undefined) return bodies.map(() => STAYS);
  const size = Math.hypot(all.maxX - all.minX, all.maxY - all.minY);
  const middle = middleOf(bodies.map(({ mesh }) => middleOf(mesh.points)));
  const placed: Vec2[][] = [];
  const moves: Vec3[] = [];
  bodies.forEach((body, i) => {
    const shadow = grown(shadows[i] as Vec2[], (CLEAR_SHARE * size) / 2);
    const taken = jointExtents(placed.flatMap((p) => pointExtents(p) ?? []));
    let best: { readonly move: Vec3; readonly cost: number; readonly at: Vec2[] } | undefined;
    for (const way of i === 0 ? [] : waysOf(body)) {
      const found = firstClear(shadow, flat(camera, way), placed, STEP_SHARE * size);
      if (found === undefined) continue;
      const box = jointExtents([
        ...(taken === undefined ? [] : [taken]),
        pointExtents(found.at) as Extents,
      ]) as Extents;
      const room = Math.max((box.maxX - box.minX) / wide, (box.maxY - box.minY) / high);
      const like = bodies.slice(1, i).findIndex(({ id }) => id === body.id) + 1;
      const isUnlike = like > 0 && dot3(way, moves[like] as Vec3) <= 0;
      const cost =
        room *
          (1 +
            BLOCKED_COST * blockedShare(body.mesh, way, bodies.slice(0, i)) +
            (Math.abs(dot3(way, body.square)) < SQUARE_COSINE ? ASLANT_COST : 0) +
            (isUnlike ? UNLIKE_COST : 0) +
            (isAcross(body.mesh, way, middle, size) ? ACROSS_COST : 0)) +
        // Of two ways that take as much room the shorter one.
        (SHORTER * found.far) / size;
      if (best === undefined || cost < best.cost - NOISE_MM)
        best = { move: scale3(way, found.far), cost, at: found.at };
    }
    placed.push(best?.at ?? shadow);
    moves.push(best?.move ?? STAYS);
  });
  return moves;
};

const middleOf = (points: readonly Vec3[]): Vec3 =>
  scale3(
    points.reduce<Vec3>((sum, p) => along3(sum, p, 1), STAYS),
    1 / points.length,
  );

/** Whether a body lies on the far side, seen along its way: farther than by chance. */
const isAcross = ({ points }: Mesh, way: Vec3, middle: Vec3, size: number): boolean =>
  dot3(way, sub3(middleOf(points), middle)) < -CHANCE_SHARE * size;

const CHANCE_SHARE = 0.05;

const SQUARE_COSINE = 0.99;
const STAYS: Vec3 = [0, 0, 0];
const SHORTER = 0.01;

const flat = (camera: Camera, p: Vec3): Vec2 => {
  const [x, y] = seen(camera, p);
  return [x, y];
};

/** A convex outline with clear paper round it. */
const grown = (hull: readonly Vec2[], by: number): Vec2[] =>
  hullOf(
    hull.flatMap(([x, y]) =>
      Array.from({ length: 8 }, (_, i): Vec2 => {
        const turn = (i * Math.PI) / 4;
        return [x + by * Math.cos(turn), y + by * Math.sin(turn)];
      }),
    ),
  );

const AXES: readonly Vec3[] = [
  [0, 0, 1],
  [-1, 0, 0],
  [1, 0, 0],
  [0, -1, 0],
  [0, 1, 0],
  [0, 0, -1],
];

const waysOf = ({ square }: Body): Vec3[] => [...AXES, square, scale3(square, -1)];

/** How far along a way an outline comes clear of the others; nothing for a way that is seen end on. */
const firstClear = (
  shadow: readonly Vec2[],
  way: Vec2,
  placed: readonly (readonly Vec2[])[],
  step: number,
): { readonly far: number; readonly at: Vec2[] } | undefined => {
  if (Math.hypot(...way) < END_ON) return undefined;
  for (let i = 0; i <= MOST_STEPS; i++) {
    const at = shadow.map(([x, y]): Vec2 => [x + i * step * way[0], y + i * step * way[1]]);
    if (placed.every((other) => !overlap(at, other))) return { far: i * step, at };
  }
  return undefined;
};

/** A way of which less than this is seen of each millimetre leads towards whoever looks. */
const END_ON = 0.25;

/** The share of a body that runs into others on its way. */
const blockedShare = (mesh: Mesh, way: Vec3, others: readonly Body[]): number => {
  const camera = lookingAgainst(way);
  const occluders = new Occluders(others.flatMap((other) => frontOf(other.mesh, camera)));
  const every = Math.max(1, Math.floor(mesh.points.length / ASKED_POINTS));
  const asked = mesh.points.filter((_, i) => i % every === 0);
  const stopped = asked.filter((p) => occluders.isHidden(seen(camera, along3(p, way, CLEAR_MM))));
  return stopped.length / asked.length;
};

/** What touches lies this far out of the way, mm. */
const CLEAR_MM = 0.05;

const lookingAgainst = (way: Vec3): Camera => {
  const side = cross3(Math.abs(way[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0], way);
  const right = length3(side) === 0 ? way : unit3(side);
  return { right, up: cross3(way, right), toward: way };
};

const frontOf = (mesh: Mesh, camera: Camera): SeenTriangle[] =>
  mesh.triangles.flatMap((triangle): SeenTriangle[] => {
    if (dot3(meshTriangleNormal(mesh, triangle), camera.toward) <= 0) return [];
    const [a, b, c] = triangle.corners.map((i) => seen(camera, mesh.points[i] as Vec3)) as [
      Vec3,
      Vec3,
      Vec3,
    ];
    return [[a, b, c]];
  });
