import { lacks } from '../model/measured.ts';
import { figure } from '../text/figures.ts';
import { isInside } from '../geometry/inside.ts';
import { loopExtents } from '../geometry/extents.ts';
import { invert, movePoint } from '../geometry/motion2.ts';
import { invertPose, type Pose, posePoint } from '../geometry/pose.ts';
import { distance, type Vec2 } from '../geometry/vec2.ts';
import { dot3 } from '../geometry/vec3.ts';
import { type Finding, warn } from '../model/finding.ts';
import { holeCalled } from '../model/hole-names.ts';
import type { FlatCutout, FlatPanel, FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import { foldUp } from './fold-up.ts';

/** Metal this near behind a hole, in thicknesses, leaves no room for a nut. */
const NEAR_THICKNESSES = 3;

/**
 * Two panels whose normals differ by less than this, as the cosine of the angle, lie flat on each
 * other.
 */
const FACING_COSINE = 0.999;

/**
 * Holes with another panel of the finished part right behind or in front of them, where a bolt
 * would meet metal.
 */
export const coveredHoles = (part: Part, flat: FlatPattern): Finding[] => {
  if (flat.cutouts.length === 0 || flat.panels.length < 3) return [];
  const { poses } = foldUp(part, flat);
  return flat.cutouts.flatMap((hole) => {
    if (hole.kind === 'loop' && hole.fold !== undefined) return [];
    const home = flat.panels.find((p) => p.id === hole.panel) as FlatPanel;
    const at = movePoint(invert(home.placement), centreOf(hole));
    const pose = poses.get(hole.panel) as Pose;
    const behind = flat.panels
      .filter((p) => p.id !== hole.panel)
      .map((p) => ({
        id: p.id,
        gapMm: gapTo(p, poses.get(p.id) as Pose, pose, at, part.thicknessMm, holesIn(flat, p)),
      }));
    const [nearest] = behind
      .filter((b) => b.gapMm < NEAR_THICKNESSES * part.thicknessMm)
      .toSorted((a, b) => a.gapMm - b.gapMm);
    if (nearest === undefined) return [];
    const message = `Hole ${holeCalled(hole)} in ${hole.panel} lies over ${nearest.id}, ${figure(Math.max(0, nearest.gapMm))} mm from it when folded: move it clear, give ${nearest.id} one too, or drill through both after folding.`;
    return [
      {
        ...warn('hole-covered', message),
        inputs: hole.inputs ?? [],
        panel: hole.panel,
        at: centreOf(hole),
        ...lacks(Math.max(0, nearest.gapMm), NEAR_THICKNESSES * part.thicknessMm),
      },
    ];
  });
};

const centreOf = (hole: FlatCutout): Vec2 => {
  if (hole.kind === 'round') return hole.centre;
  const box = loopExtents(hole.loop) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  return [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
};

const holesIn = ({ cutouts }: FlatPattern, { id }: FlatPanel): readonly FlatCutout[] =>
  cutouts.filter(({ panel }) => panel === id);

const isIn = (hole: FlatCutout, at: Vec2): boolean =>
  hole.kind === 'round' ? distance(hole.centre, at) < hole.diameterMm / 2 : isInside(hole.loop, at);

/**
 * Clear distance from a hole's panel to another panel square over the hole; infinite where that
 * panel does not cover it.
 */
const gapTo = (
  other: FlatPanel,
  otherPose: Pose,
  pose: Pose,
  at: Vec2,
  thicknessMm: number,
  holes: readonly FlatCutout[],
): number => {
  if (Math.abs(dot3(pose.z, otherPose.z)) < FACING_COSINE) return Infinity;
  // The middle of the hole, halfway through the sheet, in the other panel's coordinates.
  const [x, y, z] = posePoint(
    invertPose(otherPose),
    posePoint(pose, [at[0], at[1], thicknessMm / 2]),
  );
  // Where that panel has a hole of its own, the bolt goes through both.
  const isOpen = holes.some((hole) => isIn(hole, movePoint(other.placement, [x, y])));
  return isInside(other.region, [x, y]) && !isOpen
    ? Math.abs(z - thicknessMm / 2) - thicknessMm
    : Infinity;
};
