import { boxAround, type Box, type BoundingCylinder, cylinderRound } from './bounding-cylinder.ts';
import { composePoses, invertPose, type Pose } from '../../geometry/pose.ts';
import { type FoldNet, type NetFold } from './net.ts';
import type { Stretch } from './holding.ts';
import { foldBits, foldedPose, turnedAbout, turnPose } from './pre-fold.ts';
import { MOVING, type Side, STILL } from './rules.ts';
import { placeSolid, type Solid } from '../../geometry/convex-solid.ts';
import { SAME_DIRECTION, CONTACT_GAP_MM } from '../../geometry/tolerance.ts';

/** Which side of a stroke is clamped: that of its first fold's parent, or of its child. */
export type Placement = 0 | 1;

/** A part laid on the machine for one stroke, with one side clamped, before the stroke. */
export interface PlacedPart {
  /** By panel. */
  readonly sides: readonly Side[];
  /**
   * By panel: the folds, as bits, between it and the clamped panel of the first fold. They alone
   * move it.
   */
  readonly paths: readonly number[];
  /** The panels, each side's in the order in which they are named where several are in the way. */
  readonly naming: readonly number[];
  /** A panel where it lies when the folds of `made` are made. */
  readonly panel: (panel: number, made: number) => PlacedPanel;
  /** By panel: a cylinder round it there. */
  readonly cylinders: (made: number) => readonly BoundingCylinder[];
  /**
   * Where the lines of all the folds lie along the machine; `undefined` when they do not lie on one
   * line.
   */
  readonly lines: (made: number) => readonly Stretch[] | undefined;
  /** How far flat sheet reaches from a fold of the stroke on one side, mm. */
  readonly strip: (fold: number, side: Side, made: number) => number;
}

export interface PlacedPanel {
  readonly solids: readonly Solid[];
  readonly lessGap: readonly Solid[];
}

/** How many places of one panel are remembered: those of the last few folds that were changed. */
const MOST_PLACED = 8;

/** One step of the way from a panel to its neighbour. */
interface Step {
  readonly to: number;
  readonly fold: number;
  readonly down: boolean;
}

/**
 * How a stroke begins: between its sides, and the clamped one in the machine, degrees; from flat
 * both are 0.
 */
export interface Start {
  readonly startDeg: number;
  readonly stillStartDeg: number;
}

const FROM_FLAT: Start = { startDeg: 0, stillStartDeg: 0 };

export function placePart(
  net: FoldNet,
  stroke: readonly number[],
  placement: Placement,
  { startDeg, stillStartDeg }: Start = FROM_FLAT,
): PlacedPart {
  const first = net.folds[stroke[0] as number] as NetFold;
  const home = first.panels[placement];
  const inStroke = (fold: number): boolean => stroke.includes(fold);
  const steps = stepsOf(net);
  const sides: Side[] = [];
  const paths: number[] = [];
  const ways: ({ readonly from: number; readonly step: Step } | undefined)[] = [];
  const visit = (panel: number, side: Side, path: number): void => {
    sides[panel] = side;
    paths[panel] = path;
    for (const step of steps[panel] as readonly Step[]) {
      if (step.fold === ways[panel]?.step.fold) continue;
      const crosses = inStroke(step.fold);
      ways[step.to] = { from: panel, step };
      visit(
        step.to,
        crosses ? (side === STILL ? MOVING : STILL) : side,
        crosses ? path : path | foldBits(net, step.fold),
      );
    }
  };
  visit(home, STILL, 0);
  const turnedHome = turnPose(stillStartDeg);
  const atHome = composePoses(turnedHome, invertPose(first.frames[placement]));
  // States are asked for one after the other that differ in few folds: the last pose of each panel
  // is kept.
  const last: ({ readonly key: number; readonly pose: Pose } | undefined)[] = [];
  const poseOf = (panel: number, made: number): Pose => {
    const way = ways[panel];
    if (way === undefined) return atHome;
    const key = made & (paths[panel] as number);
    const known = last[panel];
    if (known?.key === key) return known.pose;
    const pose = composePoses(
      poseOf(way.from, made),
      stepPose(net, way.step, inStroke(way.step.fold) ? startDeg : undefined, made),
    );
    last[panel] = { key, pose };
    return pose;
  };
  const reaches = new Map<number, readonly Reach[]>();
  const placed = net.panels.map(() => new Map<number, PlacedPanel>());
  const boxes = net.panels.map((p) => boxAround(p.solids));
  // Those of the state that was asked for last.
  const cylinders: BoundingCylinder[] = [];
  const cylinderPoses: Pose[] = [];
  let cylindersMade: number | undefined;
  return {
    sides,
    paths,
    naming: [
      ...namingFrom(steps, home).filter((p) => sides[p] === STILL),
      ...namingFrom(steps, first.panels[1 - placement] as number).filter(
        (p) => sides[p] === MOVING,
      ),
    ],
    panel: (panel, made) => {
      const known = placed[panel] as Map<number, PlacedPanel>;
      const key = made & (paths[panel] as number);
      const found = known.get(key);
      if (found !== undefined) return found;
      const pose = poseOf(panel, made);
      const { solids, lessGap } = net.panels[panel] as FoldNet['panels'][number];
      const fresh = {
        solids: solids.map((s) => placeSolid(pose, s)),
        lessGap: lessGap.map((s) => placeSolid(pose, s)),
      };
      if (known.size >= MOST_PLACED) known.clear();
      known.set(key, fresh);
      return fresh;
    },
    cylinders: (made) => {
      if (made === cylindersMade) return cylinders;
      cylindersMade = made;
      for (let panel = 0; panel < boxes.length; panel++) {
        const pose = poseOf(panel, made);
        if (cylinderPoses[panel] === pose) continue;
        cylinderPoses[panel] = pose;
        cylinders[panel] = cylinderRound(pose, boxes[panel] as Box);
      }
      return cylinders;
    },
    lines: (made) => {
      const found: Stretch[] = [];
      for (const fold of stroke) {
        const line = lineOf(net.folds[fold] as NetFold, sides, (panel) =>
          composePoses(invertPose(turnedHome), poseOf(panel, made)),
        );
        if (line === undefined) return undefined;
        found.push(line);
      }
      return found;
    },
    strip: (fold, side, made) => {
      const key = 2 * fold + side;
      const known = reaches.get(key) ?? reachesOf(net, steps, { fold, side, inStroke, sides });
      reaches.set(key, known);
      return known.find((r) => (made & r.path) === 0)?.mm ?? 0;
    },
  };
}

const stepsOf = (net: FoldNet): readonly (readonly Step[])[] => {
  const steps: Step[][] = net.panels.map(() => []);
  net.folds.forEach(({ panels: [parent, child] }, fold) => {
    steps[parent]?.push({ to: child, fold, down: true });
    steps[child]?.push({ to: parent, fold, down: false });
  });
  return steps;
};

/**
 * Takes the coordinates of the panel a step leads to to those of the one it comes from; over a fold
 * of the stroke, where that begins.
 */
const stepPose = (
  net: FoldNet,
  { fold, down }: Step,
  startDeg: number | undefined,
  made: number,
): Pose => {
  const pose =
    startDeg === undefined
      ? foldedPose(net, fold, made)
      : turnedAbout((net.folds[fold] as NetFold).frames, startDeg);
  return down ? pose : invertPose(pose);
};

/** Depth first, the last neighbour first. */
function namingFrom(steps: readonly (readonly Step[])[], start: number): number[] {
  const order: number[] = [];
  const open = [start];
  const seen = new Set(open);
  for (let panel = open.pop(); panel !== undefined; panel = open.pop()) {
    order.push(panel);
    for (const { to } of steps[panel] as readonly Step[]) {
      if (seen.has(to)) continue;
      seen.add(to);
      open.push(to);
    }
  }
  return order;
}

const lineOf = (
  fold: NetFold,
  sides: readonly Side[],
  poseOf: (panel: number) => Pose,
): Stretch | undefined => {
  const end = sides[fold.panels[0]] === STILL ? 0 : 1;
  const { o, x, y } = composePoses(poseOf(fold.panels[end]), fold.frames[end]);
  const isOnLine =
    Math.abs(o[0]) <= CONTACT_GAP_MM &&
    Math.abs(o[1]) <= CONTACT_GAP_MM &&
    x[0] > 1 - SAME_DIRECTION &&
    y[1] > 1 - SAME_DIRECTION;
  return isOnLine ? { from: o[2] - fold.lengthMm / 2, to: o[2] + fold.lengthMm / 2 } : undefined;
};

/** Sheet that reaches so far from a fold while none of the folds of `path` is made. */
interface Reach {
  readonly path: number;
  readonly mm: number;
}

interface StripQuestion {
  readonly fold: number;
  readonly side: Side;
  readonly inStroke: (fold: number) => boolean;
  readonly sides: readonly Side[];
}

/**
 * Sheet that lies flat with the panel at the fold, over folds that are not made yet; the widest
 * first.
 */
function reachesOf(
  net: FoldNet,
  steps: readonly (readonly Step[])[],
  { fold, side, inStroke, sides }: StripQuestion,
): readonly Reach[] {
  const { panels, frames } = net.folds[fold] as NetFold;
  const end = sides[panels[0]] === side ? 0 : 1;
  const reaches: Reach[] = [];
  const visit = (panel: number, pose: Pose, path: number, from: number): void => {
    const corners = (net.panels[panel] as FoldNet['panels'][number]).solids.flatMap(
      (s) => placeSolid(pose, s).corners,
    );
    reaches.push({ path, mm: Math.max(0, ...corners.map((c) => -c[0])) });
    for (const step of steps[panel] as readonly Step[]) {
      if (step.fold === from || inStroke(step.fold)) continue;
      visit(
        step.to,
        composePoses(pose, stepPose(net, step, undefined, 0)),
        path | foldBits(net, step.fold),
        step.fold,
      );
    }
  };
  visit(panels[end], invertPose(frames[end]), 0, fold);
  return reaches.toSorted((a, b) => b.mm - a.mm);
}
