import { posePoint, poseVector, type Pose } from '../geometry/pose.ts';
import { cross3, sub3, type Vec3 } from '../geometry/vec3.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import { type FoldedFile, regionOf } from '../measure/folded-file.ts';
import { NORMAL95 } from '../statistics/student.ts';
import type { BoltHole } from './bolt-holes.ts';
import type { FoldCause } from './causes.ts';

/**
 * Holes of a folded part that are bolted to others all at once. `spread` has three rows for each
 * hole, along the two directions of its panel and out of it, and a column for each independent
 * cause: the movement of the hole by one standard deviation of that cause. `motions` are the six
 * ways in which the part as a whole can still be pushed about.
 */
export interface Pattern {
  readonly holes: readonly BoltHole[];
  readonly spread: readonly (readonly number[])[];
  readonly motions: readonly (readonly number[])[];
}

/**
 * What is off apart from the folds, mm to either side: a hole cut into the part, and the one that
 * it has to meet.
 */
export interface HoleDoubts {
  readonly cutMm: (apartMm: number) => number;
  readonly otherMm: number;
}

/**
 * The pattern of some holes; `undefined` where a hole's panel is not found. An angle that is off is
 * no cause, because bolts pull the faces together.
 */
export const patternOf = (
  body: FoldedFile,
  causes: readonly FoldCause[],
  holes: readonly BoltHole[],
  faceMm: number,
  doubts: HoleDoubts,
): Pattern | undefined => {
  const regions = holes.map((h) => regionOf(body, h.panel));
  const places = holes.map(({ at }, i) => placeIn(body, regions[i], at, faceMm));
  if (places.some((p) => p === undefined)) return undefined;
  const known = places as readonly Placed[];
  const middle = middleOf(known);
  const own = Math.hypot(doubts.cutMm(sizeOf(known)) / Math.SQRT2, doubts.otherMm) / NORMAL95;
  const shared = causes
    .filter((c) => c.name !== 'the bend angle')
    .map(({ limit, step, more, less }) => {
      const [up, down] = [more, less].map((b) =>
        holes.map(({ at }, i) =>
          placeIn(b, regions[i], at, (faceMm * b.asked.thicknessMm) / body.asked.thicknessMm),
        ),
      );
      return known.map((place, i) =>
        componentsOf(
          place,
          (up as Placed[])[i],
          (down as Placed[])[i],
          limit / NORMAL95 / (2 * step),
        ),
      );
    });
  const rows = known.flatMap((place, i) =>
    ([0, 1, 2] as const).map((k) => ({
      spread: [
        ...shared.map((c) => c[i]?.[k] ?? 0),
        ...known.flatMap((_, j) => [0, 1].map((l) => (i === j && k === l ? own : 0))),
      ],
      motion: motionRow(place, middle, k),
    })),
  );
  return { holes, spread: rows.map((r) => r.spread), motions: rows.map((r) => r.motion) };
};

interface Placed {
  readonly at: Vec3;
  readonly axes: readonly [Vec3, Vec3, Vec3];
}

const middleOf = (places: readonly Placed[]): Vec3 =>
  places.reduce<Vec3>(
    (sum, { at }) => [
      sum[0] + at[0] / places.length,
      sum[1] + at[1] / places.length,
      sum[2] + at[2] / places.length,
    ],
    [0, 0, 0],
  );

/** The distance of the two holes that are farthest apart, mm. */
const sizeOf = (places: readonly Placed[]): number =>
  Math.max(...places.flatMap((a) => places.map((b) => Math.hypot(...sub3(a.at, b.at)))));

const placeIn = (
  body: FoldedFile,
  region: number | undefined,
  [x, y]: Vec2,
  z: number,
): Placed | undefined => {
  const pose: Pose | undefined = region === undefined ? undefined : body.folded.poses[region];
  return pose === undefined
    ? undefined
    : {
        at: posePoint(pose, [x, y, z]),
        axes: [
          poseVector(pose, [1, 0, 0]),
          poseVector(pose, [0, 1, 0]),
          poseVector(pose, [0, 0, 1]),
        ],
      };
};

const componentsOf = (
  { axes }: Placed,
  up: Placed | undefined,
  down: Placed | undefined,
  factor: number,
): readonly number[] => {
  const moved =
    up === undefined || down === undefined ? ([0, 0, 0] as const) : sub3(up.at, down.at);
  return axes.map(
    (axis) => factor * (axis[0] * moved[0] + axis[1] * moved[1] + axis[2] * moved[2]),
  );
};

/**
 * Rows of the six motions: three shifts, then three small turns about the middle of the holes, w x
 * (p - middle).
 */
const motionRow = ({ at, axes }: Placed, middle: Vec3, k: 0 | 1 | 2): number[] => {
  const axis = axes[k];
  const turn = cross3(sub3(at, middle), axis);
  return [...axis, ...turn];
};
