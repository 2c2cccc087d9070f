import { isInside } from '../geometry/inside.ts';
import { loopGap } from '../geometry/gap.ts';
import { type Loop, polygon } from '../geometry/loop.ts';
import { composePoses, invertPose, type Pose, posePoint, poseVector } from '../geometry/pose.ts';
import { pieceOf } from '../geometry/piece.ts';
import { circle } from '../geometry/shapes.ts';
import { subtract } from '../geometry/subtract.ts';
import { SETTLED_MM } from '../geometry/tolerance.ts';
import { along, distance, dot, leftOf, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { along3, dot3, type Vec3 } from '../geometry/vec3.ts';
import type { Tooth } from '../flatten/teeth.ts';
import type { Cutout } from '../model/part.ts';
import type { BodyPanel } from './body.ts';
import { slotLoop } from './tab-shape.ts';

/** A panel in the space where it meets another, and what was cut into it so far. */
export interface SitePanel {
  readonly panel: BodyPanel;
  readonly pose: Pose;
  readonly thicknessMm: number;
  readonly cutouts: readonly Cutout[];
  /** Where teeth of other tabs stand on it: the metal that they take. */
  readonly taken: readonly Loop[];
}

/** An edge whose teeth go into a panel. */
export interface Site {
  readonly edgeIndex: number;
  readonly edgeMm: number;
  /** Figures along the edge count against the way round the outline. */
  readonly isBackwards: boolean;
  /** From the edge to the near face of the panel, below 0 where it reaches into it, mm. */
  readonly shortMm: number;
  /** From the edge to its far face. */
  readonly toothMm: number;
  readonly one: SitePanel;
  readonly other: SitePanel;
  /** The slot for what of the edge lies between two places, as far off as the clearance says. */
  readonly slot: (from: number, to: number, clearanceMm: number) => SlotPlan;
}

export interface SlotPlan {
  readonly loop: (reliefMm: number) => Loop;
  /** The rectangle round it with its reliefs, so much larger all round, moved across by so much. */
  readonly round: (reliefMm: number, marginMm: number, movedMm: number) => Loop;
  /**
   * The slot where it runs out of an edge of the panel: open to the side from which `inwards`, in
   * space, points, and so much wider there.
   */
  readonly notch: (reliefMm: number, inwards: Vec3, outMm: number) => Loop;
  /** Across the slot, in space: which way it is moved by more than 0. */
  readonly across: Vec3;
}

/** Why an edge and a panel are no place for tabs. */
export type Misfit = 'side by side' | 'aslant';

/** A tooth stands steeper in its slot than this, degrees: flatter, it would be more gash than slot. */
const STEEP_ENOUGH_SINE = 0.5;
/** An edge may run out of the face that it stands on by so much over its length, mm. */
const ASLANT_MM = 0.1;

export function siteAt(one: SitePanel, edgeIndex: number, other: SitePanel): Site | Misfit {
  const { panel, pose, thicknessMm } = one;
  const { from, to } = pieceOf(panel.panel.outline, edgeIndex);
  const edgeMm = distance(from, to);
  const dir = unit(sub(to, from));
  const out: Vec3 = poseVector(pose, [dir[1], -dir[0], 0]);
  const run: Vec3 = poseVector(pose, [...dir, 0]);
  const normal = other.pose.z;
  const towards = dot3(out, normal);
  if (Math.abs(towards) < STEEP_ENOUGH_SINE) return 'side by side';
  if (Math.abs(dot3(run, normal)) * edgeMm > ASLANT_MM) return 'aslant';
  const [near, far] = towards > 0 ? [0, other.thicknessMm] : [other.thicknessMm, 0];
  const home = invertPose(other.pose);
  const heights = [0, thicknessMm];
  /** How far a face of the first panel is, at the edge, from a level of the other, along itself. */
  const wayTo = (z: number, level: number): number => {
    const at = posePoint(pose, [...from, z]);
    return (level - dot3(normal, sub3of(at, other.pose.o))) / towards;
  };
  const ways = (level: number): number[] => heights.map((z) => wayTo(z, level));
  const turned = poseVector(home, run);
  const alongIt = unit([turned[0], turned[1]]);
  const across = leftOf(alongIt);
  const start = posePoint(home, posePoint(pose, [...from, 0]));
  const begins = dot([start[0], start[1]], alongIt);
  const levels = heights.flatMap((z) =>
    [near, far].map((level) => {
      const at = along3(posePoint(pose, [...from, z]), out, wayTo(z, level));
      const own = posePoint(home, at);
      return dot([own[0], own[1]], across);
    }),
  );
  const [low, high] = [Math.min(...levels), Math.max(...levels)];
  const at = (x: number, y: number): Vec2 => along(along([0, 0], alongIt, begins + x), across, y);
  return {
    edgeIndex,
    edgeMm,
    isBackwards:
      from[0] > to[0] + SETTLED_MM || (Math.abs(from[0] - to[0]) <= SETTLED_MM && from[1] > to[1]),
    shortMm: Math.min(...ways(near)),
    toothMm: ways(far).reduce((sum, way) => sum + way / heights.length, 0),
    one,
    other,
    slot: (a, b, c) => ({
      loop: (reliefMm) => slotLoop(at, [a - c, b + c], [low - c, high + c], reliefMm),
      round: (reliefMm, marginMm, movedMm) => {
        const [x0, x1] = [a - c - marginMm, b + c + marginMm];
        const [y0, y1] = [
          low - c - reliefMm / 2 - marginMm + movedMm,
          high + c + reliefMm / 2 + marginMm + movedMm,
        ];
        return polygon(at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1));
      },
      notch: (reliefMm, inwards, outMm) => {
        const isLow = dot3(inwards, poseVector(other.pose, [...across, 0])) > 0;
        const [y0, y1] = isLow ? [low - c - outMm, high + c] : [low - c, high + c + outMm];
        return slotLoop(at, [a - c, b + c], [y0, y1], reliefMm, isLow ? 'low' : 'high');
      },
      across: poseVector(other.pose, [...across, 0]),
    }),
  };
}

const sub3of = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

/** The metal at the foot of a tooth: its reliefs, and so much more beside and below them. */
export const footOf = (
  { one: { panel }, edgeIndex }: Site,
  { from, to }: Pick<Tooth, 'from' | 'to'>,
  reliefMm: number,
  marginMm: number,
): Loop => {
  const piece = pieceOf(panel.panel.outline, edgeIndex);
  const dir = unit(sub(piece.to, piece.from));
  const into = leftOf(dir);
  const at = (x: number, y: number): Vec2 => along(along(piece.from, dir, x), into, y);
  const [x0, x1] = [from - reliefMm - marginMm, to + reliefMm + marginMm];
  const [y0, y1] = [SETTLED_MM, reliefMm / 2 + marginMm];
  return polygon(at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1));
};

/** Whether a stretch of metal is flat and whole: within the panel between its bends, off its holes. */
export const isOnMetal = ({ panel, cutouts, taken }: SitePanel, loop: Loop): boolean =>
  subtract(loop, panel.region, ([x, y], bulge) => ({ x, y, bulge }))?.length === 0 &&
  [...cutouts.map(holeOf), ...taken].every((hole) => areApart(loop, hole));

const holeOf = (cutout: Cutout): Loop =>
  cutout.kind === 'round' ? circle(cutout.centre, cutout.diameterMm / 2) : cutout.loop;

const areApart = (a: Loop, b: Loop): boolean => {
  const [p, q] = [a[0], b[0]];
  return (
    p !== undefined &&
    q !== undefined &&
    loopGap(a, b, SETTLED_MM) > 0 &&
    !isInside(a, [q.x, q.y]) &&
    !isInside(b, [p.x, p.y])
  );
};

export const placedIn = (space: Pose, panel: BodyPanel): Pose => composePoses(space, panel.pose);
