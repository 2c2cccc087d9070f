import type { Placement } from './layout.ts';
import type { FoldNet, NetFold } from './net.ts';
import { STILL } from './rules.ts';
import type { Stroke } from './stroke.ts';

/** How the part lies for a stroke: what it costs to go on to the next depends on nothing else. */
export interface Lie {
  /** Visible face up. */
  readonly up: boolean;
  /** The way the blank's x axis is turned against the machine's, degrees, 0 to 360. */
  readonly headingDeg: number;
  /** From the fold back to the far edge of the clamped panel: where the stops stand. */
  readonly stopMm: number;
}

/**
 * The stated cost of a plan: fewest flips; of those fewest turns on the table; then stops set anew; then strokes in
 * which the larger part of the sheet has to be swung. Common practice. Each weighs more than all of the next.
 */
const FLIP = 1_000_000;
const TURN = 10_000;
const STOP = 100;
const SWUNG = 1;

export const lieOf = (net: FoldNet, stroke: Stroke, placement: Placement): Lie => {
  const first = stroke.folds[0] as number;
  const { up, headingDeg } = net.folds[first] as NetFold;
  const stopMm = stroke.layouts[placement].strip(first, STILL, -1);
  return { up, headingDeg: Math.round(((headingDeg + 180 * placement) % 360) * 10) / 10 % 360, stopMm: Math.round(stopMm * 10) / 10 };
};

export const isFlip = (a: Lie, b: Lie): boolean => a.up !== b.up;

/** How far the part is turned on the table between two strokes, 0 to 180 degrees; turned over, it may keep either end in front. */
export const turnDeg = (a: Lie, b: Lie): number => {
  const around = a.up === b.up ? 360 : 180;
  const turn = Math.abs(a.headingDeg - b.headingDeg) % around;
  return Math.min(turn, around - turn);
};

export const changeCost = (a: Lie, b: Lie): number => (isFlip(a, b) ? FLIP : 0) + (turnDeg(a, b) > 0 ? TURN : 0) + (a.stopMm === b.stopMm ? 0 : STOP);

export const swingCost = (net: FoldNet, stroke: Stroke, placement: Placement): number => {
  const { sides } = stroke.layouts[placement];
  let held = 0;
  net.panels.forEach(({ areaMm2 }, panel) => (held += sides[panel] === STILL ? areaMm2 : -areaMm2));
  // Halves of a symmetrical part differ by rounding alone.
  return held > -1e-6 ? 0 : SWUNG;
};
