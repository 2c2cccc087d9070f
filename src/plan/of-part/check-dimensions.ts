import { generalTolerance, type GeneralClass } from '../../data/tolerances/general.ts';
import { type FoldShare, type FoldedBody, foldUp } from '../../fold/fold-up.ts';
import { type Joint, turnAt } from '../../fold/joint.ts';
import { bendZone } from '../../fold/zone.ts';
import { withChords } from '../../geometry/chords.ts';
import { composePoses, invertPose, type Pose, posePoint } from '../../geometry/pose.ts';
import { NOISE_DEG, SAME_LENGTH_MM } from '../../geometry/tolerance.ts';
import type { Vec3 } from '../../geometry/vec3.ts';
import type { FlatBend, FlatPattern } from '../../model/flat.ts';
import type { Part } from '../../model/part.ts';
import type { StepCheck } from '../../contract/fold-plan.ts';

/** A fold that has just been made, and the part as it then is. */
export interface JustFolded {
  readonly part: Part;
  readonly flat: FlatPattern;
  readonly bend: FlatBend;
  /** The panel at the fold that was held. */
  readonly clamped: string;
  readonly share: FoldShare;
  readonly tolerance: GeneralClass;
}

/** A piece of the part, as points of its surface. */
interface Body {
  /** A panel, or the fold whose bent metal it is. */
  readonly of: string;
  readonly kind: 'panel' | 'bend';
  readonly isSwung: boolean;
  readonly points: readonly Reading[];
}

/** A point as a square on the clamped panel reads it, mm. */
interface Reading {
  /** Square to the clamped panel, from its face on the outside of the fold towards its inside. */
  readonly height: number;
  /** Along the clamped panel, square to the fold, away from the panel. */
  readonly out: number;
  readonly along: number;
}

/** A fold steeper than this is a hem, whose edge points back: its depth is read, not its height. */
const STEEP_DEG = 150;
/** What a tape is laid on has to be this long along the fold, mm; a shorter end is a corner. */
const LEAST_EDGE_MM = 5;
const CHORD_MM = 0.01;
const ZONE_STEPS = 64;

/**
 * What tape and square read after a fold, on the part folded up to that state and not by what it was
 * asked to be. A square on the outside of the clamped panel reads how high the swung side stands. Where
 * the fold is square, a tape along the clamped panel reads from its far edge, or from the outside of a
 * fold there, to the outside of the panel that was folded. Tolerances are those of ISO 2768-1.
 */
export const checksOf = (fold: JustFolded): StepCheck[] => {
  const { bend, share, tolerance } = fold;
  const deg = bend.angleDeg * share(bend.id);
  const bodies = bodiesOf(fold);
  const plusMinus = (mm: number): number | null => generalTolerance('length', mm, tolerance);
  const lengths = [
    ...(deg < STEEP_DEG ? heightOf(fold, bodies) : depthOf(fold, bodies)),
    ...(Math.abs(deg - 90) < NOISE_DEG ? overOf(fold, bodies) : []),
  ].map((c): StepCheck => ({ ...c, unit: 'mm', plusMinus: plusMinus(c.value) }));
  if (deg >= STEEP_DEG) return lengths;
  const shorter = Math.min(...[true, false].map((isSwung) => legMm(fold, bodies, isSwung)));
  return [
    ...lengths,
    {
      kind: 'angle',
      from: `the inside of ${fold.clamped}`,
      to: `the inside of ${otherSide(fold)}`,
      value: 180 - deg,
      unit: 'deg',
      plusMinus: generalTolerance('angle', shorter, tolerance),
    },
  ];
};

type Length = Omit<StepCheck, 'unit' | 'plusMinus'>;

const otherSide = ({ bend, clamped }: JustFolded): string =>
  clamped === bend.parent ? bend.child : bend.parent;

const heightOf = ({ clamped }: JustFolded, bodies: readonly Body[]): Length[] => {
  const top = farthest(
    bodies.filter((b) => b.isSwung),
    (p) => p.height,
  );
  return top === undefined || top.value < SAME_LENGTH_MM
    ? []
    : [{ kind: 'height', from: `the outside of ${clamped}`, to: top.name, value: top.value }];
};

/** From the free edge of a hem to the outside of its bend. */
const depthOf = (fold: JustFolded, bodies: readonly Body[]): Length[] => {
  const own = bodies.filter((b) => b.of === otherSide(fold) || b.of === fold.bend.id);
  const [far, near] = [farthest(own, (p) => p.out), farthest(own, (p) => -p.out)];
  return far === undefined || near === undefined
    ? []
    : [
        {
          kind: 'depth',
          from: near.name,
          to: `the outside of fold ${fold.bend.id}`,
          value: far.value + near.value,
        },
      ];
};

const overOf = (fold: JustFolded, bodies: readonly Body[]): Length[] => {
  const { flat, share, bend } = fold;
  const level = lyingWith(fold);
  const isBeside = ({ parent, child }: FlatBend): boolean => level.has(parent) || level.has(child);
  const beside = new Set(
    flat.bends.filter((b) => b.id !== bend.id && share(b.id) > 0 && isBeside(b)).map((b) => b.id),
  );
  const far = farthest(
    bodies.filter((b) => (b.kind === 'panel' ? level.has(b.of) : beside.has(b.of))),
    (p) => -p.out,
  );
  const face = farthest(
    bodies.filter((b) => b.of === otherSide(fold)),
    (p) => p.out,
  );
  if (far === undefined || face === undefined || !far.isEdge) return [];
  const by = flat.bends.find((b) => b.id === far.of);
  // Under 90 degrees the panel beyond goes on outwards from where the bend ends.
  if (by !== undefined && by.angleDeg * share(by.id) < 90 - NOISE_DEG) return [];
  return [
    {
      kind: 'over',
      from: far.name,
      to: `the outside of ${otherSide(fold)}`,
      value: far.value + face.value,
    },
  ];
};

/** Length of either leg, square to the fold: the panel alone. */
const legMm = (fold: JustFolded, bodies: readonly Body[], isSwung: boolean): number => {
  const of = isSwung ? otherSide(fold) : fold.clamped;
  const points = bodies.filter((b) => b.of === of).flatMap((b) => b.points);
  const deg = fold.bend.angleDeg * fold.share(fold.bend.id);
  const rad = isSwung ? (deg * Math.PI) / 180 : 0;
  const at = points.map((p) => Math.cos(rad) * p.out + Math.sin(rad) * p.height);
  return Math.max(...at) - Math.min(...at);
};

/** The panels that lie in one plane with the clamped one, through folds that are not made. */
const lyingWith = ({ flat, bend, clamped, share }: JustFolded): ReadonlySet<string> => {
  const found = new Set([clamped]);
  for (const id of found)
    for (const b of flat.bends) {
      if (b.id === bend.id || share(b.id) > 0) continue;
      if (b.parent === id) found.add(b.child);
      if (b.child === id) found.add(b.parent);
    }
  return found;
};

interface Farthest {
  readonly of: string;
  readonly value: number;
  readonly name: string;
  /** Whether it is reached along an edge, and not in a corner. */
  readonly isEdge: boolean;
}

/** Where the bodies reach farthest, and what is there: a fold before the panel that goes on from it. */
const farthest = (bodies: readonly Body[], reach: (p: Reading) => number): Farthest | undefined => {
  const value = Math.max(...bodies.flatMap((b) => b.points.map(reach)));
  const there = bodies
    .map((b) => ({ b, at: b.points.filter((p) => reach(p) > value - SAME_LENGTH_MM) }))
    .filter(({ at }) => at.length > 0);
  const first = there.find(({ b }) => b.kind === 'bend') ?? there[0];
  if (first === undefined) return undefined;
  const places = there.flatMap(({ at }) => at.map((p) => p.along));
  const isEdge = Math.max(...places) - Math.min(...places) >= LEAST_EDGE_MM;
  const { of, kind } = first.b;
  const name =
    kind === 'bend'
      ? `the outside of fold ${of}`
      : isEdge
        ? `the free edge of ${of}`
        : `the outermost corner of ${of}`;
  return { of, value, name, isEdge };
};

const bodiesOf = (fold: JustFolded): Body[] => {
  const { part, flat, bend, clamped, share } = fold;
  const body = foldUp(part, flat, share);
  const joint = body.joints.find((j) => j.fold.id === bend.id) as Joint;
  const home = invertPose(body.poses.get(clamped) as Pose);
  const reading = readingOn(joint, clamped, part.thicknessMm);
  const swung = beyond(flat, bend, otherSide(fold));
  const panels = flat.panels.map(({ id, region }): Body => {
    const pose = composePoses(home, body.poses.get(id) as Pose);
    return {
      of: id,
      kind: 'panel',
      isSwung: swung.has(id),
      points: withChords(region, CHORD_MM).flatMap(({ x, y }) =>
        [0, part.thicknessMm].map((z) => reading(posePoint(pose, [x, y, z]))),
      ),
    };
  });
  const zones = body.joints.flatMap((j): Body[] => {
    const own = flat.bends.find((b) => b.id === j.fold.id) as FlatBend;
    if (share(own.id) === 0 || own.midSurface === true) return [];
    const points = zonePoints(fold, body, j, own).map((p) => reading(posePoint(home, p)));
    const isSwung = own.id === bend.id || (swung.has(own.parent) && swung.has(own.child));
    return [{ of: own.id, kind: 'bend', isSwung, points }];
  });
  return [...panels, ...zones];
};

const zonePoints = (
  { flat, share, part }: JustFolded,
  { poses }: FoldedBody,
  joint: Joint,
  bend: FlatBend,
): Vec3[] => {
  const { angleDeg, insideRadiusMm } = turnAt(joint, share(bend.id));
  const bent = { ...joint, fold: { ...joint.fold, angleDeg, insideRadiusMm } };
  const { placement } = flat.panels.find((p) => p.id === bend.parent) as FlatPattern['panels'][0];
  const zone = bendZone(bent, bend, placement, poses.get(bend.parent) as Pose);
  return Array.from({ length: ZONE_STEPS + 1 }, (_, i) => (i * zone.rad) / ZONE_STEPS).flatMap(
    (rad) =>
      ([0, 1] as const).flatMap((end) => [0, part.thicknessMm].map((z) => zone.at(end, z, rad))),
  );
};

/** How a square reads on a clamped panel, of points in that panel's coordinates. */
const readingOn = (
  { fold, parentDir, childDir }: Joint,
  clamped: string,
  thicknessMm: number,
): ((p: Vec3) => Reading) => {
  const [dx, dy] = clamped === fold.parent.panel ? parentDir : childDir;
  return ([x, y, z]) => ({
    height: fold.direction === 'up' ? z : thicknessMm - z,
    out: dy * x - dx * y,
    along: dx * x + dy * y,
  });
};

/** The panels on one side of a fold, from the panel at the fold on. */
const beyond = (flat: FlatPattern, bend: FlatBend, first: string): ReadonlySet<string> => {
  const found = new Set([first]);
  for (const id of found)
    for (const b of flat.bends) {
      if (b.id === bend.id) continue;
      if (b.parent === id) found.add(b.child);
      if (b.child === id) found.add(b.parent);
    }
  return found;
};
