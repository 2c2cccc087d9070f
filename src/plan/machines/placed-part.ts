import { boxAround, type Box, type BoundingCylinder, cylinderRound } from './bounding-cylinder.ts';
import { composePoses, invertPose, type Pose } from '../../geometry/pose.ts';
import { type FoldNet, type NetFold } from './net.ts';
import type { Stretch } from './holding.ts';
import { turnPose } from './pre-fold.ts';
import { MOVING, type Side, STILL } from './stroke-rules.ts';
import { placeSolid, type Solid } from '../../geometry/convex-solid.ts';
import { SAME_DIRECTION, CONTACT_GAP_MM } from '../../geometry/tolerance.ts';
import { namingFrom, stepPose, stepsOf, type Ways, waysFrom } from './net-steps.ts';
import { type Reach, reachesOf } from './flat-reach.ts';

/** Which side of a stroke is clamped: that of its first fold's parent, or that of its child. */
export type Placement = 0 | 1;

/** A part laid on the machine with one side clamped, before the stroke. */
export interface PlacedPart {
  /** The side of every panel. */
  readonly sides: readonly Side[];
  /**
   * The folds, as bits, between every panel and the clamped panel of the first fold. These alone
   * move the panel.
   */
  readonly paths: readonly number[];
  /**
   * The panels, those of each side in the order in which they are named where several are in the
   * way.
   */
  readonly naming: readonly number[];
  /** Length of the first fold, whose middle lies at 0 along the machine, mm. */
  readonly foldMm: number;
  /** A panel in its place when the folds of `made` are made. */
  readonly panel: (panel: number, made: number) => PlacedPanel;
  /** A cylinder round every panel in that place. */
  readonly cylinders: (made: number) => readonly BoundingCylinder[];
  /**
   * The places of the lines of all the folds along the machine; `undefined` when they do not lie on
   * one line.
   */
  readonly lines: (made: number) => readonly Stretch[] | undefined;
  /** How far flat sheet reaches from a fold of the stroke on one side, mm. */
  readonly strip: (fold: number, side: Side, made: number) => number;
}

export interface PlacedPanel {
  readonly solids: readonly Solid[];
  readonly lessGap: readonly Solid[];
}

/** How many places of one panel are remembered, enough for the last few folds that were changed. */
const MOST_PLACED = 8;

/**
 * How a stroke begins: the angle between its sides, and the angle of the clamped side in the
 * machine, degrees; both are 0 for flat sheet.
 */
export interface Start {
  readonly startDeg: number;
  readonly stillStartDeg: number;
}

const FROM_FLAT: Start = { startDeg: 0, stillStartDeg: 0 };

/** The part on the machine for a stroke that makes some of its folds, clamped on one side. */
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
  const ways = waysFrom(net, steps, home, inStroke);
  const { sides, paths } = ways;
  const turnedHome = turnPose(stillStartDeg);
  const atHome = composePoses(turnedHome, invertPose(first.frames[placement]));
  const poseOf = posesAlong(net, ways, atHome, (fold) => (inStroke(fold) ? startDeg : undefined));
  const reaches = new Map<number, readonly Reach[]>();
  return {
    sides,
    paths,
    naming: [
      ...namingFrom(steps, home).filter((p) => sides[p] === STILL),
      ...namingFrom(steps, first.panels[1 - placement] as number).filter(
        (p) => sides[p] === MOVING,
      ),
    ],
    foldMm: first.lengthMm,
    panel: placedPanels(net, paths, poseOf),
    cylinders: cylindersRound(net, poseOf),
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

/** The place of a panel when the folds of a state are made. */
type PoseOf = (panel: number, made: number) => Pose;

/**
 * Successive states that are asked for differ in few folds, so the last pose of each panel is kept.
 */
const posesAlong = (
  net: FoldNet,
  { paths, last: ways }: Ways,
  atHome: Pose,
  startDegOf: (fold: number) => number | undefined,
): PoseOf => {
  const last: ({ readonly key: number; readonly pose: Pose } | undefined)[] = [];
  const poseOf = (panel: number, made: number): Pose => {
    const way = ways[panel];
    if (way === undefined) return atHome;
    const key = made & (paths[panel] as number);
    const known = last[panel];
    if (known?.key === key) return known.pose;
    const pose = composePoses(
      poseOf(way.from, made),
      stepPose(net, way.step, startDegOf(way.step.fold), made),
    );
    last[panel] = { key, pose };
    return pose;
  };
  return poseOf;
};

/** The panels in their places; those of the last few states are remembered. */
const placedPanels = (
  net: FoldNet,
  paths: readonly number[],
  poseOf: PoseOf,
): PlacedPart['panel'] => {
  const placed = net.panels.map(() => new Map<number, PlacedPanel>());
  return (panel, made) => {
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
  };
};

/** Cylinders round the panels; those of the state that was asked for last are kept. */
const cylindersRound = (net: FoldNet, poseOf: PoseOf): PlacedPart['cylinders'] => {
  const boxes = net.panels.map((p) => boxAround(p.solids));
  const cylinders: BoundingCylinder[] = [];
  const cylinderPoses: Pose[] = [];
  let cylindersMade: number | undefined;
  return (made) => {
    if (made === cylindersMade) return cylinders;
    cylindersMade = made;
    for (let panel = 0; panel < boxes.length; panel++) {
      const pose = poseOf(panel, made);
      if (cylinderPoses[panel] === pose) continue;
      cylinderPoses[panel] = pose;
      cylinders[panel] = cylinderRound(pose, boxes[panel] as Box);
    }
    return cylinders;
  };
};

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
