import type { Loop } from '../geometry/loop.ts';
import { perimeter, signedArea } from '../geometry/measure.ts';
import { isInside } from '../geometry/inside.ts';
import { composePoses, invertPose, type Pose, posePoint, poseVector } from '../geometry/pose.ts';
import { along, type Vec2 } from '../geometry/vec2.ts';
import { mix3, type Vec3 } from '../geometry/vec3.ts';
import type { FlatPanel } from '../model/flat.ts';
import { facetsOf } from '../model/part.ts';
import { distanceToSlab, nearestOf, type Slab, slabOf } from '../fold/slab.ts';
import type { Seam } from '../welds/seam-along.ts';
import { type JointKind, kindOf, runOfSeam } from './joint-kind.ts';
import type { JoinedBody } from './joined-body.ts';

/** One straight stretch of a weld, in the coordinates of the whole. */
export interface WeldRun {
  readonly seam: Seam;
  /** Panels of the joined body, the one whose edge it is first. */
  readonly panels: readonly [string, string];
  readonly lengthMm: number;
  /** Clear distance of the metal on both sides, at the middle of the stretch. */
  readonly gapMm: number;
  /**
   * Places along the stretch on the metal of either panel, the middle first: of several at one
   * place, one lies on each face of the sheet and one between.
   */
  readonly places: readonly [readonly Vec3[], readonly Vec3[]];
}

/** A stretch and how its panels meet there. */
export interface KindOfRun {
  readonly run: WeldRun;
  readonly kind: JointKind;
}

/** The stretch of a seam between panels of the joined body. */
export const runOf = (joined: JoinedBody, seam: Seam): KindOfRun => {
  const { thicknessMm } = joined.part;
  const [home, other] = seam.panels.map((id) => slabNamed(joined, id)) as [Slab, Slab];
  const [at, there] = seam.panels.map((id) => joined.body.poses.get(id)) as [Pose, Pose];
  const toOther = composePoses(invertPose(there), at);
  const run = runOfSeam(seam);
  const pairs = SHARES.flatMap((share) =>
    [0.5, 0, 1].map((level): readonly [Vec3, Vec3] => {
      const own: Vec3 = [...along(seam.at, run, share * seam.lengthMm), level * thicknessMm];
      return [posePoint(at, own), posePoint(there, nearestOf(other, posePoint(toOther, own)))];
    }),
  );
  return {
    kind: kindOf(joined, seam, home, other, toOther),
    run: {
      seam,
      panels: seam.panels,
      lengthMm: seam.lengthMm,
      gapMm: gapAt(home, other, toOther, seam.at),
      places: [pairs.map(([own]) => own), pairs.map(([, met]) => met)],
    },
  };
};

/** Shares of a stretch from its middle, both ways in turn. */
const SHARES = [0, 0.2, -0.2, 0.38, -0.38];

/**
 * The clear distance of two panels at a place on the edge of one. Their sections there are rectangles,
 * and two rectangles are nearest to each other at a corner of one of them: of the edge itself, or of
 * the rim of the other that lies beside it.
 */
const gapAt = (home: Slab, other: Slab, toOther: Pose, at: Vec2): number => {
  const back = invertPose(toOther);
  const corners = [0, home.thicknessMm].map((z) => posePoint(toOther, [...at, z]));
  const met = corners.map((p) => nearestOf(other, p));
  const rim = met.flatMap(([x, y]) => [0, other.thicknessMm].map((z): Vec3 => [x, y, z]));
  return Math.min(
    ...corners.map((p, i) => distance3([p, met[i] as Vec3])),
    ...rim.map((q) => distanceToSlab(home, posePoint(back, q))),
  );
};

const distance3 = ([p, q]: readonly [Vec3, Vec3]): number =>
  Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);

const slabNamed = ({ flat, part }: JoinedBody, id: string): Slab =>
  slabOf(flat.panels.find((p) => p.id === id) as FlatPanel, part.thicknessMm);

/**
 * The end of a tooth in its slot is welded over from behind, and is no stretch of the seam beside it.
 * A chord of facets that stands in the wide opening of a ring is welded to its rim.
 */
export const isInHole = (joined: JoinedBody, { at, panels: [home, other] }: Seam): boolean => {
  const { part, body } = joined;
  const point = posePoint(body.poses.get(home) as Pose, [...at, part.thicknessMm / 2]);
  const [x, y, z] = posePoint(invertPose(body.poses.get(other) as Pose), point);
  const cutouts = part.panels.find(({ id }) => id === other)?.cutouts ?? [];
  const isFacet = facetsOf(part).has(home);
  return (
    Math.abs(z - part.thicknessMm / 2) < 1.5 * part.thicknessMm &&
    cutouts.some(
      (cutout) =>
        cutout.kind === 'loop' &&
        (!isFacet || isSlot(cutout.loop, part.thicknessMm)) &&
        isInside(cutout.loop, [x, y]),
    )
  );
};

/**
 * Whether a hole is as narrow as what a tooth is put through: twice the area of a slot over its edge
 * is less than its width.
 */
const isSlot = (loop: Loop, thicknessMm: number): boolean =>
  2 * Math.abs(signedArea(loop)) < MOST_SLOT * thicknessMm * perimeter(loop);

/** Widest slot, in thicknesses: a tooth, and a gap on both sides. */
const MOST_SLOT = 3;

/**
 * Whether a panel is what an edge is welded to, and not one farther off beside it, such as the next
 * facet of a fan. Flanges of one piece are welded to all that they lie along.
 */
export const isNearest = (
  joined: JoinedBody,
  { seam, panels: [home, other], gapMm }: WeldRun,
): boolean => {
  const { part, flat, body, pieceOf } = joined;
  const piece = pieceOf(other);
  const hangs = part.folds.filter(({ parent, child }) =>
    [parent.panel, child.panel].includes(home),
  );
  if (pieceOf(home) === piece && hangs.some((fold) => fold.midSurface !== true)) return true;
  const near = new Set(hangs.flatMap(({ parent, child }) => [parent.panel, child.panel]));
  const middle = posePoint(body.poses.get(home) as Pose, [...seam.at, part.thicknessMm / 2]);
  return flat.panels.every(({ id }) => {
    if (id === other || id === home || near.has(id) || pieceOf(id) !== piece) return true;
    const own = posePoint(invertPose(body.poses.get(id) as Pose), middle);
    return distanceToSlab(slabNamed(joined, id), own) > gapMm / 2;
  });
};

/** The two ends of a stretch and the way to one of the sides it can be welded from, in the whole. */
export const runInWhole = (
  { body }: JoinedBody,
  { seam }: WeldRun,
  side: number,
): { readonly from: Vec3; readonly to: Vec3; readonly middle: Vec3; readonly towards: Vec3 } => {
  const pose = body.poses.get(seam.home) as Pose;
  const own = seam.sides[side] ?? seam.sides[0];
  if (own === undefined) throw new Error(`no side of ${seam.name}`);
  const [from, to] = [posePoint(pose, own.from), posePoint(pose, own.to)];
  return { from, to, middle: mix3(from, 0.5, to, 0.5), towards: poseVector(pose, own.towards) };
};
