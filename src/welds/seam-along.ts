import { sinDeg } from '../geometry/degrees.ts';
import { isInside } from '../geometry/inside.ts';
import { pieceOf } from '../geometry/piece.ts';
import { invertPose, type Pose, posePoint, poseVector } from '../geometry/pose.ts';
import { NEARLY_PARALLEL_SINE, NOISE_MM, PARALLEL_SINE } from '../geometry/tolerance.ts';
import { along, cross, distance, leftOf, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { along3, length3, mix3, scale3, unit3, type Vec3 } from '../geometry/vec3.ts';
import type { FoldSide, Panel, Part } from '../model/part.ts';
import { isWithin, nearestOf, type Slab } from '../fold/slab.ts';

/**
 * One side that a seam may be welded from: the line that the torch is led along, and the direction
 * from it to the middle of the free space.
 */
export interface SeamSide {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly towards: Vec3;
}

/** A straight seam of the folded part, in the coordinates of the panel `home`. */
export interface Seam {
  /** Name of the seam in a message: `at corner A/B`. */
  readonly name: string;
  /** The panels that it joins, which keep their places to each other. */
  readonly panels: readonly [string, string];
  readonly home: string;
  readonly lengthMm: number;
  /** The direction that its edge runs in, a unit vector. */
  readonly along: Vec3;
  /** Sides to weld from; one of them is enough. */
  readonly sides: readonly SeamSide[];
  /** The middle of the seam, on the blank as it lies in `home`. */
  readonly at: Vec2;
  /** Whether one panel lies flat on the other, so that welding any one of the edges will do. */
  readonly isLap: boolean;
}

/** A seam shorter than this, mm, is a tack. */
export const LEAST_SEAM_MM = 10;

/** An edge of a facet shorter than this, mm, is the point in which its folds meet. */
export const LEAST_FACET_EDGE_MM = 0.5;

/** An edge runs along another panel when it is less than this out of parallel with its faces. */
export const ALONG_DEG = 5;

/** An edge is examined in steps of at most this many millimetres, or of a hundredth of it. */
const STEP_MM = 5;

const MOST_STEPS = 100;

/**
 * Two panels nearer to parallel than this, as the cosine, lie on each other or beside each other.
 */
const ALONGSIDE_COSINE = 0.98;

/** A straight edge of a panel where no fold begins, in the panel's own coordinates. */
export interface FreeEdge {
  readonly panel: string;
  readonly from: Vec2;
  readonly to: Vec2;
}

/**
 * The seam of an edge along another panel; `toOther` takes the coordinates of the edge's panel to
 * those of the other.
 */
export function seamAlong(
  part: Part,
  edge: FreeEdge,
  other: Slab,
  toOther: Pose,
  reachMm: number,
): Seam | undefined {
  const dir = unit(sub(edge.to, edge.from));
  const run: Vec3 = [dir[0], dir[1], 0];
  const longMm = distance(edge.from, edge.to);
  if (Math.abs(poseVector(toOther, run)[2]) > sinDeg(ALONG_DEG)) return undefined;
  const pointAt = (u: number, z: number): Vec3 => [
    edge.from[0] + u * dir[0],
    edge.from[1] + u * dir[1],
    z,
  ];
  const boxed = stretchNearBox(other, toOther, pointAt(0, 0), run, longMm, reachMm);
  if (boxed === undefined) return undefined;
  const isNear = (u: number): boolean =>
    [0, part.thicknessMm].some((z) => isWithin(other, posePoint(toOther, pointAt(u, z)), reachMm));
  const stretch = longestRun(boxed, isNear);
  // A short edge of a facet goes on in the next one.
  const least = longMm < LEAST_SEAM_MM ? longMm - NOISE_MM : Math.max(LEAST_SEAM_MM, 2 * reachMm);
  if (stretch === undefined || stretch[1] - stretch[0] < least) return undefined;
  const [from, to] = stretch;
  const middleAt = pointAt((from + to) / 2, part.thicknessMm / 2);
  const lies = isLap(toOther, middleAt, part.thicknessMm);
  const ways = waysOf(other, toOther, middleAt, run, reachMm);
  const inward = leftOf(dir);
  const sideOf = (towards: Vec3): SeamSide => {
    // The line lies at the edge of the face towards this side, and from there half way across the
    // gap.
    const z =
      part.thicknessMm *
      (towards[2] > NEARLY_PARALLEL_SINE ? 1 : towards[2] < -NEARLY_PARALLEL_SINE ? 0 : 0.5);
    const line = (u: number): Vec3 => halfWay(other, toOther, pointAt(u, z));
    return { from: line(from), to: line(to), towards };
  };
  return {
    name: nameOf(part, edge.panel, other.id),
    panels: [edge.panel, other.id],
    home: edge.panel,
    along: run,
    lengthMm: to - from,
    sides: bisectors([inward[0], inward[1], 0], ways, lies).map(sideOf),
    at: along(edge.from, dir, (from + to) / 2),
    isLap: lies,
  };
}

/** The point half way from a point of one panel to the nearest point of the other. */
const halfWay = (other: Slab, toOther: Pose, p: Vec3): Vec3 =>
  mix3(p, 0.5, posePoint(invertPose(toOther), nearestOf(other, posePoint(toOther, p))), 0.5);

/**
 * The stretch of an edge within reach of the box round a panel; it rules out most pairs quickly.
 */
const stretchNearBox = (
  { low, high, thicknessMm }: Slab,
  toOther: Pose,
  from: Vec3,
  run: Vec3,
  longMm: number,
  reachMm: number,
): readonly [number, number] | undefined => {
  const [start, way] = [posePoint(toOther, from), poseVector(toOther, run)];
  let [enter, leave] = [0, longMm];
  for (const i of [0, 1, 2] as const) {
    // The other face of the edge lies this far off along the side of the box.
    const rise = thicknessMm * toOther.z[i];
    const [least, most] = [
      low[i] - reachMm - Math.max(0, rise),
      high[i] + reachMm - Math.min(0, rise),
    ];
    if (Math.abs(way[i]) < PARALLEL_SINE) {
      if (start[i] < least || start[i] > most) return undefined;
      continue;
    }
    const [near, far] = [(least - start[i]) / way[i], (most - start[i]) / way[i]];
    [enter, leave] = [Math.max(enter, Math.min(near, far)), Math.min(leave, Math.max(near, far))];
  }
  return leave - enter < Math.min(LEAST_SEAM_MM, longMm - NOISE_MM) ? undefined : [enter, leave];
};

/**
 * The longest part of a stretch on which a condition holds; its ends are found to a hundredth of a
 * step.
 */
function longestRun(
  [start, end]: readonly [number, number],
  holds: (u: number) => boolean,
): readonly [number, number] | undefined {
  const count = Math.min(MOST_STEPS, Math.max(2, Math.ceil((end - start) / STEP_MM)));
  const at = (i: number): number => start + (i * (end - start)) / count;
  const near = Array.from({ length: count + 1 }, (_, i) => holds(at(i)));
  let best: readonly [number, number] | undefined;
  for (let i = 0; i <= count; i++) {
    if (near[i] !== true || near[i - 1] === true) continue;
    let j = i;
    while (near[j + 1] === true) j++;
    const run = [
      i === 0 ? start : edgeOf(at(i), at(i - 1), holds),
      j === count ? end : edgeOf(at(j), at(j + 1), holds),
    ] as const;
    if (best === undefined || run[1] - run[0] > best[1] - best[0]) best = run;
  }
  return best;
}

const edgeOf = (inside: number, outside: number, holds: (u: number) => boolean): number => {
  let [yes, no] = [inside, outside];
  for (let k = 0; k < 7; k++) {
    const mid = (yes + no) / 2;
    if (holds(mid)) yes = mid;
    else no = mid;
  }
  return yes;
};

/**
 * The directions, square to the seam, in which the other panel continues from it: one at a corner,
 * two where the edge stands on the panel's face.
 */
const waysOf = (other: Slab, toOther: Pose, at: Vec3, run: Vec3, reachMm: number): Vec3[] => {
  const there = poseVector(toOther, run);
  const flatWay = unit([-there[1], there[0]]);
  const [x, y] = nearestOf(other, posePoint(toOther, at));
  const steps = [1, -1].filter((sign) =>
    isInside(other.outline, along([x, y], flatWay, sign * 2 * reachMm)),
  );
  return (steps.length > 0 ? steps : [1, -1]).map((sign) =>
    poseVector(invertPose(toOther), [sign * flatWay[0], sign * flatWay[1], 0]),
  );
};

/** A smaller sum of two unit vectors has no useful direction: the panels lie in one plane. */
const LEAST_SUM = 0.2;

/**
 * The directions to weld from. Two panels that end at each other are welded from outside, between
 * their backs, or from inside. One that stands on the other's face is welded from either side of
 * it. Panels in one plane, or one on the other, are welded square to either face.
 */
const bisectors = (inward: Vec3, ways: readonly Vec3[], isLap: boolean): Vec3[] => {
  const sums = ways.map((way) => along3(inward, way, 1));
  const [only, second] = sums;
  if (only === undefined) return [];
  if (isLap || sums.some((sum) => length3(sum) < LEAST_SUM))
    return [
      [0, 0, 1],
      [0, 0, -1],
    ];
  return second === undefined
    ? [unit3(scale3(only, -1)), unit3(only)]
    : [unit3(only), unit3(second)];
};

const isLap = (toOther: Pose, at: Vec3, thicknessMm: number): boolean => {
  const level = posePoint(toOther, at)[2];
  return Math.abs(toOther.z[2]) > ALONGSIDE_COSINE && (level < 0 || level > thicknessMm);
};

/**
 * A seam is named by its panels; flanges round a corner of a third panel are named by their folds
 * as well.
 */
const nameOf = ({ panels, folds }: Part, a: string, b: string): string => {
  const sides = folds.flatMap(({ id, parent, child }) => [
    { id, on: parent, of: child.panel },
    { id, on: child, of: parent.panel },
  ]);
  const lineOf = ({ panel, edge }: FoldSide): Vec2 => {
    const { from, to } = pieceOf((panels.find((p) => p.id === panel) as Panel).outline, edge);
    return unit(sub(to, from));
  };
  const corner = sides
    .filter((s) => s.of === a)
    .flatMap((s) =>
      sides
        .filter(
          (o) =>
            o.of === b &&
            o.on.panel === s.on.panel &&
            Math.abs(cross(lineOf(s.on), lineOf(o.on))) > sinDeg(ALONG_DEG),
        )
        .map((o) => [s.id, o.id]),
    )[0];
  return `between ${a} and ${b}${corner === undefined ? '' : ` (corner ${corner.toSorted().join('/')})`}`;
};
