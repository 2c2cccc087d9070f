import { HEM_DEG } from '../bending/hem.ts';
import { sinDeg } from '../geometry/degrees.ts';
import { isInside } from '../geometry/inside.ts';
import { invert, movePoint } from '../geometry/motion2.ts';
import { pieceOf, piecesOf } from '../geometry/piece.ts';
import { composePoses, invertPose, type Pose, posePoint, poseVector } from '../geometry/pose.ts';
import { NOISE_MM, NEARLY_PARALLEL_SINE, PARALLEL_SINE } from '../geometry/tolerance.ts';
import { along, cross, distance, leftOf, middle, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import {
  along3,
  cross3,
  dot3,
  length3,
  mix3,
  scale3,
  sub3,
  unit3,
  type Vec3,
} from '../geometry/vec3.ts';
import type { FlatPanel, FlatPattern } from '../model/flat.ts';
import type { FoldSide, Panel, Part } from '../model/part.ts';
import type { FoldedBody } from '../fold/fold-up.ts';
import { isWithin, nearestOf, type Slab, slabOf } from '../fold/slab.ts';

/**
 * One side a seam may be welded from: the line the torch is led along, and the way from it to the
 * middle of the room.
 */
export interface SeamSide {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly towards: Vec3;
}

/** A straight seam of the folded part, in the coordinates of the panel `home`. */
export interface Seam {
  /** As a message names it: `at corner A/B`. */
  readonly name: string;
  /** What it joins: these panels keep their places to each other. */
  readonly panels: readonly [string, string];
  readonly home: string;
  readonly lengthMm: number;
  /** One of them is enough. */
  readonly sides: readonly SeamSide[];
  /** Its middle, on the blank as it lies in `home`. */
  readonly at: Vec2;
  /** Whether one panel lies flat on the other, so that welding any one of the edges will do. */
  readonly isLap: boolean;
}

/** A shorter one, mm, is a tack. */
const LEAST_SEAM_MM = 10;

/** An edge runs along another panel when it is less than this out of parallel with its faces. */
const ALONG_DEG = 5;

/** An edge is looked at in steps of at most this many millimetres, or a hundredth of it. */
const STEP_MM = 5;
const MOST_STEPS = 100;

/** Just a thickness and the gap is a usual distance, on which rounding must decide nothing. */
const NEAR = 1.1;

/** Panels nearer to parallel than this, as the cosine, lie on each other or beside each other. */
const ALONGSIDE_COSINE = 0.98;

/**
 * Where free edges come to lie along another panel when the part is folded: within about a
 * thickness and the corner gap of its face or its edge. Panels that a fold joins have none, hems
 * neither; facets on the middle of the sheet are left out.
 */
export const cutSeams = (part: Part, flat: FlatPattern, { poses }: FoldedBody): Seam[] => {
  if (flat.panels.length < 3 || part.folds.some((f) => f.midSurface === true)) return [];
  // In the order of the part, so that it does not matter where the blank begins.
  const panels = part.panels
    .map(({ id }) => flat.panels.find((p) => p.id === id) as FlatPanel)
    .filter((panel) => !isHem(panel, part, flat));
  const slabs = panels.map((p) => slabOf(p, part.thicknessMm));
  const reachMm =
    NEAR *
    (part.thicknessMm +
      Math.max(part.cornerGapMm, ...(part.corners ?? []).map((c) => c.gapMm ?? 0)));
  const found: Found[] = [];
  for (const edge of panels.flatMap((p) => freeEdges(p, flat))) {
    for (const other of slabs) {
      if (other.id === edge.panel || areJoined(part, edge.panel, other.id)) continue;
      const seam = seamAlong(part, edge, other, between(poses, other.id, edge.panel), reachMm);
      if (seam !== undefined && !found.some((f) => isSame(f, seam, poses, reachMm)))
        found.push(seam);
    }
  }
  return found;
};

/**
 * Folded flat on a larger panel, with nothing folded on it: it holds by its fold and is not welded.
 */
const isHem = ({ id, areaMm2 }: FlatPanel, part: Part, flat: FlatPattern): boolean => {
  const [fold, ...more] = part.folds.filter(
    ({ parent, child }) => parent.panel === id || child.panel === id,
  );
  if (fold === undefined || more.length > 0 || fold.angleDeg < HEM_DEG) return false;
  const under = fold.parent.panel === id ? fold.child.panel : fold.parent.panel;
  return flat.panels.some((p) => p.id === under && p.areaMm2 > areaMm2);
};

type Found = Seam & { readonly along: Vec3 };

/** A straight edge of a panel at which no fold begins, in the panel's own coordinates. */
interface FreeEdge {
  readonly panel: string;
  readonly from: Vec2;
  readonly to: Vec2;
}

const freeEdges = ({ id, region, placement }: FlatPanel, { bends }: FlatPattern): FreeEdge[] => {
  const home = invert(placement);
  const tangents = bends.flatMap((b) => [
    ...(b.parent === id ? [b.parentTangent] : []),
    ...(b.child === id ? [b.childTangent] : []),
  ]);
  const folded = tangents.map(([p, q]) => [movePoint(home, p), movePoint(home, q)] as const);
  return piecesOf(region).flatMap(({ from, to, bulge }): FreeEdge[] => {
    const isFree =
      bulge === 0 &&
      distance(from, to) >= LEAST_SEAM_MM &&
      !folded.some((line) => liesOn(middle(from, to), line));
    return isFree ? [{ panel: id, from, to }] : [];
  });
};

const liesOn = (p: Vec2, [from, to]: readonly [Vec2, Vec2]): boolean =>
  distance(from, p) + distance(p, to) - distance(from, to) < NOISE_MM;

const areJoined = (part: Part, a: string, b: string): boolean =>
  part.folds.some(
    ({ parent, child }) =>
      (parent.panel === a && child.panel === b) || (parent.panel === b && child.panel === a),
  );

/** Takes the coordinates of a panel to those of another. */
const between = (poses: ReadonlyMap<string, Pose>, to: string, from: string): Pose =>
  composePoses(invertPose(poses.get(to) as Pose), poses.get(from) as Pose);

/** `toOther` takes the coordinates of the edge's panel to those of the other one. */
function seamAlong(
  part: Part,
  edge: FreeEdge,
  other: Slab,
  toOther: Pose,
  reachMm: number,
): Found | undefined {
  const dir = unit(sub(edge.to, edge.from));
  const run: Vec3 = [dir[0], dir[1], 0];
  const longMm = distance(edge.from, edge.to);
  if (Math.abs(poseVector(toOther, run)[2]) > sinDeg(ALONG_DEG)) return undefined;
  const boxed = stretchNearBox(
    other,
    toOther,
    [edge.from[0], edge.from[1], 0],
    run,
    longMm,
    reachMm,
  );
  if (boxed === undefined) return undefined;
  const pointAt = (u: number, z: number): Vec3 => [
    edge.from[0] + u * dir[0],
    edge.from[1] + u * dir[1],
    z,
  ];
  const isNear = (u: number): boolean =>
    [0, part.thicknessMm].some((z) => isWithin(other, posePoint(toOther, pointAt(u, z)), reachMm));
  const stretch = longestRun(boxed, isNear);
  if (stretch === undefined || stretch[1] - stretch[0] < Math.max(LEAST_SEAM_MM, 2 * reachMm))
    return undefined;
  const [from, to] = stretch;
  const middleAt = pointAt((from + to) / 2, part.thicknessMm / 2);
  const lies = isLap(toOther, middleAt, part.thicknessMm);
  const ways = waysOf(other, toOther, middleAt, run, reachMm);
  const inward = leftOf(dir);
  const sideOf = (towards: Vec3): SeamSide => {
    // The edge of the face that looks to this side, and half way over the gap.
    const z =
      part.thicknessMm *
      (towards[2] > NEARLY_PARALLEL_SINE ? 1 : towards[2] < -NEARLY_PARALLEL_SINE ? 0 : 0.5);
    const line = (u: number): Vec3 => {
      const p = pointAt(u, z);
      return mix3(
        p,
        0.5,
        posePoint(invertPose(toOther), nearestOf(other, posePoint(toOther, p))),
        0.5,
      );
    };
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

/** The stretch of an edge within reach of the box round a panel; a quick no for most pairs. */
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
  return leave - enter < LEAST_SEAM_MM ? undefined : [enter, leave];
};

/** The longest part of a stretch on which something holds, its ends to a hundredth of a step. */
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
 * The ways, square to the seam, in which the other panel goes on from it: one at a corner, two
 * where the edge stands on its face.
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

/** A smaller sum of two unit vectors has no direction to speak of: the panels lie in one plane. */
const LEAST_SUM = 0.2;

/**
 * The ways to weld from. Where two panels end in each other: from outside, between their backs, or
 * from inside. Where one stands on the other's face: from either side of it. In one plane, or one
 * on the other: square to either face.
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

/** By its panels; flanges round a corner of a third panel also by their folds. */
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

/** Where both panels end, the seam is found from either. */
const isSame = (a: Found, b: Found, poses: ReadonlyMap<string, Pose>, reachMm: number): boolean => {
  if (a.isLap || a.panels[0] !== b.panels[1] || a.panels[1] !== b.panels[0]) return false;
  const toA = between(poses, a.home, b.home);
  const apart = sub3(posePoint(toA, middleOf(b)), middleOf(a));
  return (
    length3(sub3(apart, scale3(a.along, dot3(apart, a.along)))) < 3 * reachMm &&
    length3(cross3(a.along, poseVector(toA, b.along))) < sinDeg(ALONG_DEG)
  );
};

const middleOf = ({ sides: [side] }: Seam): Vec3 =>
  side === undefined ? [0, 0, 0] : mix3(side.from, 0.5, side.to, 0.5);
