import { pointGap } from '../geometry/gap.ts';
import { isInside } from '../geometry/inside.ts';
import type { Loop } from '../geometry/loop.ts';
import { pieceOf, piecesOf } from '../geometry/piece.ts';
import { posePoint } from '../geometry/pose.ts';
import { SAME_LENGTH_MM, SAME_POINT_MM } from '../geometry/tolerance.ts';
import { cross, dot, leftOf, scale, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import type { Vec3 } from '../geometry/vec3.ts';
import { type Body, grownOn, reachOf } from './body.ts';
import type { Shape } from './shape.ts';
import type { Skirt } from './skirts.ts';

/** What stands round the base of a finished piece, as it is seen along that. */

const outwardOf = (loop: Loop, i: number): Vec2 => {
  const { from, to } = pieceOf(loop, i);
  return scale(leftOf(unit(sub(to, from))), -1);
};

/** What is folded on at an edge of the base. */
const grownAt = (body: Body, base: Shape, i: number): ReturnType<typeof grownOn> => {
  const name = base.outline[i]?.edge;
  const root = body.part.panels.find(({ id }) => id === body.part.root);
  return grownOn(
    body,
    body.part.root,
    ({ parent }) => name !== undefined && root?.outline[parent.edge]?.edge === name,
  );
};

const isConvex = (loop: Loop): boolean =>
  loop.every((_, i) => {
    const [one, next] = [pieceOf(loop, i), pieceOf(loop, (i + 1) % loop.length)];
    return one.bulge === 0 && cross(sub(one.to, one.from), sub(next.to, next.from)) >= 0;
  });

/** How far metal stands out beyond an edge of the base, seen along it; an arc has none there. */
export const standsOut = (body: Body, base: Shape, i: number): number => {
  const piece = pieceOf(base.outline, i);
  if (piece.bulge !== 0) return 0;
  const out = outwardOf(base.outline, i);
  const dir: Vec3 = [...out, 0];
  const among = isConvex(base.outline) ? undefined : grownAt(body, base, i);
  return Math.max(
    among === undefined ? -Infinity : 0,
    reachOf(body, dir, among) - dot(out, piece.from),
  );
};

/** How far what stands on an edge of the base reaches out of it, less than 0 where it reaches in. */
export const standsIn = (body: Body, base: Shape, i: number, opens: 1 | -1): number => {
  const piece = pieceOf(base.outline, i);
  if (piece.bulge !== 0) return 0;
  const grown = grownAt(body, base, i);
  const isWall = grown.first.some(({ direction }) => (direction === 'up') === (opens === 1));
  if (!isWall) return 0;
  const out = outwardOf(base.outline, i);
  // The bend of the wall itself is told by how high the piece lies.
  const folds = new Set([...grown.folds].filter((id) => !grown.first.some((f) => f.id === id)));
  const reach = -reachOf(body, [-out[0], -out[1], 0], { panels: grown.panels, folds });
  return reach - dot(out, piece.from);
};

/** Whether the piece stands up from its base or hangs down. */
export const opensTowards = (body: Body): 1 | -1 =>
  reachOf(body, [0, 0, 1]) - body.part.thicknessMm >= reachOf(body, [0, 0, -1]) ? 1 : -1;

/** Whether all of a piece lies within an outline, seen along its base. */
export const holds = (outline: Loop, body: Body): boolean =>
  body.panels.every(({ region, pose }) =>
    piecesOf(region).every(({ from }) =>
      [0, body.part.thicknessMm].every((z) => {
        const [x, y] = posePoint(pose, [...from, z]);
        return isInside(outline, [x, y]) || pointGap([x, y], outline) < SEEN_MM;
      }),
    ),
  );

/** Metal this far outside an outline is taken to lie on it, mm: what two sums may differ by. */
const SEEN_MM = 1000 * SAME_POINT_MM;

export const greatest = (skirts: readonly Skirt[]): number =>
  Math.max(0, ...skirts.map(({ radiusMm }) => radiusMm));
export const least = (skirts: readonly Skirt[]): number =>
  Math.min(...skirts.map(({ radiusMm }) => radiusMm));

/** Inside radius of the bends that stand on the base. */
export const cornerRadius = ({ part }: Body, opens: 1 | -1): number =>
  Math.max(
    0,
    ...part.folds
      .filter((fold) => fold.parent.panel === part.root)
      .filter(({ direction }) => (direction === 'up') === (opens === 1))
      .map(({ insideRadiusMm }) => insideRadiusMm),
  );

/** Outside radius of the bends along the rim, 0 for one that is a cut edge. */
export const rimRadius = (body: Body, opens: 1 | -1): number => {
  const up: Vec3 = [0, 0, opens];
  const top = reachOf(body, up);
  const radii = body.zones
    .filter(({ fold }) => {
      const alone = { panels: new Set<string>(), folds: new Set([fold.id]) };
      return reachOf(body, up, alone) > top - SAME_LENGTH_MM;
    })
    .map(({ fold }) => fold.insideRadiusMm + body.part.thicknessMm);
  return radii.length === 0 ? 0 : Math.min(...radii);
};

/**
 * How high a convex edge of radius `inner` lies over the floor of a corner of radius `outer`, with a
 * gap beside it: plain geometry of two circles, one within the other.
 */
export const rides = (outer: number, inner: number, gapMm: number): number => {
  const free = outer - inner;
  return free <= gapMm ? 0 : free - Math.sqrt(free ** 2 - (free - gapMm) ** 2);
};
