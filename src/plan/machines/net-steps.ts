import { invertPose, type Pose } from '../../geometry/pose.ts';
import type { FoldNet, NetFold } from './net.ts';
import { foldBits, foldedPose, turnedAbout } from './pre-fold.ts';
import { MOVING, type Side, STILL } from './stroke-rules.ts';

/** One step of the way from a panel to its neighbour. */
export interface Step {
  readonly to: number;
  readonly fold: number;
  readonly down: boolean;
}

/** The steps from every panel to its neighbours, indexed by panel. */
export const stepsOf = (net: FoldNet): readonly (readonly Step[])[] => {
  const steps: Step[][] = net.panels.map(() => []);
  net.folds.forEach(({ panels: [parent, child] }, fold) => {
    steps[parent]?.push({ to: child, fold, down: true });
    steps[child]?.push({ to: parent, fold, down: false });
  });
  return steps;
};

/**
 * Takes the coordinates of the panel that a step leads to into those of the panel it comes from. A
 * fold of the stroke is taken as the stroke begins.
 */
export const stepPose = (
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

/** The panels in depth-first order, the last neighbour first. */
export function namingFrom(steps: readonly (readonly Step[])[], start: number): number[] {
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

/** The side of every panel, the folds on the way to it, and the last step of that way. */
export interface Ways {
  readonly sides: readonly Side[];
  readonly paths: readonly number[];
  readonly last: readonly ({ readonly from: number; readonly step: Step } | undefined)[];
}

/** The way to every panel from the clamped one. The side changes at a fold of the stroke. */
export const waysFrom = (
  net: FoldNet,
  steps: readonly (readonly Step[])[],
  home: number,
  inStroke: (fold: number) => boolean,
): Ways => {
  const sides: Side[] = [];
  const paths: number[] = [];
  const last: ({ readonly from: number; readonly step: Step } | undefined)[] = [];
  const visit = (panel: number, side: Side, path: number): void => {
    sides[panel] = side;
    paths[panel] = path;
    for (const step of steps[panel] as readonly Step[]) {
      if (step.fold === last[panel]?.step.fold) continue;
      const crosses = inStroke(step.fold);
      last[step.to] = { from: panel, step };
      visit(
        step.to,
        crosses ? (side === STILL ? MOVING : STILL) : side,
        crosses ? path : path | foldBits(net, step.fold),
      );
    }
  };
  visit(home, STILL, 0);
  return { sides, paths, last };
};
