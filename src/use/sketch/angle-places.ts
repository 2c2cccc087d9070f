import { pieceOf } from '../../geometry/piece.ts';
import { distance, scale, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import { type Pose, posePoint, poseVector } from '../../geometry/pose.ts';
import { cross3, dot3, length3, scale3, sub3, unit3, type Vec3 } from '../../geometry/vec3.ts';
import type { Panel, Part } from '../../model/part.ts';
import type { AnglePlace } from '../../paper/draw/lettered-view.ts';
import type { MadePart } from '../made-part.ts';
import { seatedPoses } from '../pack/space-dimensions.ts';

/** An angle is as large as asked for, and follows a change of it, within so many degrees. */
const SEEN_SAME_DEG = 0.05;
/** Two faces that are nearer than this to one plane have no angle to be seen, degrees. */
const FLAT_DEG = 1;

/**
 * Where a piece has the angle that an input asks for, and has the changed one where it is made with the
 * input larger by `byDeg`: between neighbours as they lie to each other, or from where the one would go
 * on without a fold; between two edges of one panel; between panels that stand off from each other, at a
 * corner of the one, beside a line along the other. The first of these that there is. An angle below 0
 * is as large as one above it.
 */
export const anglePlaces = (
  one: MadePart,
  changed: MadePart,
  angleDeg: number,
  byDeg: number,
): AnglePlace[] => {
  const [part, before, after] = [one.part, posesOf(one), posesOf(changed)];
  if (part === undefined || before === undefined || after === undefined) return [];
  const [was, is] = [Math.abs(angleDeg), Math.abs(angleDeg + byDeg)];
  const following = (were: readonly Wedge[], are: readonly Wedge[]): Wedge[] =>
    were.filter(({ openDeg }, i) => {
      const next = are[i]?.openDeg ?? 0;
      return (
        openDeg > FLAT_DEG &&
        openDeg < 180 - FLAT_DEG &&
        Math.abs(openDeg - was) < SEEN_SAME_DEG &&
        Math.abs(next - is) < SEEN_SAME_DEG
      );
    });
  const wedges = pairsOf(part).flatMap((pair) =>
    following(wedgesOf(part, pair, before), wedgesOf(part, pair, after)),
  );
  const edges = part.panels.flatMap((panel) => {
    const next = changed.part?.panels.find(({ id }) => id === panel.id);
    return next === undefined
      ? []
      : following(edgeWedges(part, panel, before), edgeWedges(part, next, after));
  });
  return (
    [
      wedges.filter(({ kind }) => kind === 'between'),
      wedges.filter(({ kind }) => kind === 'turned'),
      edges,
      wedges,
    ].find((found) => found.length > 0) ?? []
  );
};

const posesOf = ({ part, flat, stopped }: MadePart): ReadonlyMap<string, Pose> | undefined =>
  stopped || part === undefined || flat === undefined ? undefined : seatedPoses(part, flat);

/** All pairs of panels, those that share a fold first; more than these are no part of a sketch. */
const pairsOf = ({ panels, folds }: Part): (readonly [Panel, Panel])[] => {
  if (panels.length > MOST_PANELS) return [];
  const joined = new Set(
    folds.flatMap(({ parent, child }) => [
      `${parent.panel} ${child.panel}`,
      `${child.panel} ${parent.panel}`,
    ]),
  );
  const all = panels.flatMap((a, i) => panels.slice(i + 1).map((b) => [a, b] as const));
  const isJoined = ([a, b]: readonly [Panel, Panel]): boolean => joined.has(`${a.id} ${b.id}`);
  return [...all.filter(isJoined), ...all.filter((pair) => !isJoined(pair))];
};

const MOST_PANELS = 24;

interface Wedge extends AnglePlace {
  readonly openDeg: number;
  /** Between two neighbours, or by how much the fold turns the one. */
  readonly kind: 'between' | 'turned' | 'edges' | 'apart';
}

/** The angles that two panels can be seen to have, always in the same order. */
const wedgesOf = (
  part: Part,
  [a, b]: readonly [Panel, Panel],
  poses: ReadonlyMap<string, Pose>,
): Wedge[] => {
  const [poseA, poseB] = [poses.get(a.id), poses.get(b.id)];
  if (poseA === undefined || poseB === undefined) return [];
  const axis = cross3(poseA.z, poseB.z);
  if (length3(axis) < Math.sin((FLAT_DEG * Math.PI) / 180)) return [];
  const along = unit3(axis);
  const fold = part.folds.find(
    ({ parent, child }) =>
      [parent, child].some((s) => s.panel === a.id) &&
      [parent, child].some((s) => s.panel === b.id),
  );
  if (fold === undefined) return apart(part, [a, poseA], [b, poseB], along);
  const side = fold.parent.panel === a.id ? fold.parent : fold.child;
  const { from, to } = pieceOf(a.outline, side.edge);
  const tips = [from, to].map(([x, y]) => posePoint(poseA, [x, y, levelOf(part)]));
  const arms = [armOf(a, poseA, along, tips), armOf(b, poseB, along, tips)] as const;
  const back = [scale3(arms[0], -1), arms[1]] as const;
  return tips.flatMap((tip) => [wedge(tip, arms, 'between'), wedge(tip, back, 'turned')]);
};

const wedge = (tip: Vec3, arms: readonly [Vec3, Vec3], kind: Wedge['kind']): Wedge => ({
  tip,
  arms,
  openDeg: degBetween(...arms),
  kind,
});

/** Height of the faces by which a panel is measured is of no matter to the eye: the middle. */
const levelOf = ({ thicknessMm }: Part): number => thicknessMm / 2;

/** Square to the axis and within a panel, from the fold towards its metal. */
const armOf = (panel: Panel, pose: Pose, along: Vec3, tips: readonly Vec3[]): Vec3 => {
  const arm = unit3(cross3(along, pose.z));
  const [tip] = tips;
  const middle = posePoint(pose, middleOf(panel));
  return tip !== undefined && dot3(sub3(middle, tip), arm) < 0 ? scale3(arm, -1) : arm;
};

const middleOf = ({ outline }: Panel): Vec3 => [
  outline.reduce((sum, { x }) => sum + x, 0) / outline.length,
  outline.reduce((sum, { y }) => sum + y, 0) / outline.length,
  0,
];

/** At each corner of the one panel an arm along it, and one as the other lies. */
const apart = (
  part: Part,
  [a, poseA]: readonly [Panel, Pose],
  [, poseB]: readonly [Panel, Pose],
  along: Vec3,
): Wedge[] => {
  const [u, v] = [unit3(cross3(along, poseA.z)), unit3(cross3(along, poseB.z))];
  return a.outline.flatMap(({ x, y }) => {
    const tip = posePoint(poseA, [x, y, levelOf(part)]);
    const inward = dot3(sub3(posePoint(poseA, middleOf(a)), tip), u) < 0 ? scale3(u, -1) : u;
    return [v, scale3(v, -1)].map((other) => wedge(tip, [inward, other], 'apart'));
  });
};

/** At the ends of each straight edge of a panel, to each later one that runs otherwise. */
const edgeWedges = (part: Part, panel: Panel, poses: ReadonlyMap<string, Pose>): Wedge[] => {
  const pose = poses.get(panel.id);
  if (pose === undefined || panel.outline.length > MOST_EDGES) return [];
  const sides = panel.outline.flatMap(({ bulge }, i) => {
    const { from, to } = pieceOf(panel.outline, i);
    return bulge === 0 && distance(from, to) > 1 ? [{ from, to, way: unit(sub(to, from)) }] : [];
  });
  const inSpace = ([x, y]: Vec2): Vec3 => poseVector(pose, [x, y, 0]);
  return sides.flatMap(({ from, to, way }, i) =>
    sides
      .slice(i + 1)
      .flatMap((other) =>
        [other.way, scale(other.way, -1)].flatMap((arm) =>
          [[from, way] as const, [to, scale(way, -1)] as const].map(([[x, y], own]) =>
            wedge(posePoint(pose, [x, y, levelOf(part)]), [inSpace(own), inSpace(arm)], 'edges'),
          ),
        ),
      ),
  );
};

/** An outline with more edges is no polygon that was measured. */
const MOST_EDGES = 16;

const degBetween = (a: Vec3, b: Vec3): number =>
  (Math.atan2(length3(cross3(a, b)), dot3(a, b)) * 180) / Math.PI;
