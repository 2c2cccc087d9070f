import { cosDeg, sinDeg } from '../../geometry/degrees.ts';
import type { BoundingCylinder } from '../machines/bounding-cylinder.ts';
import type { Placement } from '../machines/placed-part.ts';
import type { FoldNet, NetFold } from '../machines/net.ts';
import { type Help, STILL } from '../machines/stroke-rules.ts';
import type { Stroke } from './stroke.ts';
import { NOISE_MM2, SAME_LENGTH_MM } from '../../geometry/tolerance.ts';

/**
 * How the part lies for a stroke; the cost of going on to the next stroke depends on nothing else.
 */
export interface Orientation {
  /** Whether the visible face is up. */
  readonly up: boolean;
  /** Angle of the blank's x axis against the machine's, degrees, 0 to 360. */
  readonly headingDeg: number;
  /** Distance from the fold back to the far edge of the clamped panel, where the stops stand. */
  readonly stopMm: number;
}

/**
 * The stated cost of a plan: least help by hand (`HELPS`), where no order does without; then fewest
 * strokes in which the larger part of the sheet has to be swung;
 * then fewest with a small grip; then fingers set anew; then flips, stops set anew, and turns on the
 * table; then whether it begins turned over; then strokes after which the part tips over when it is
 * let go. The order is common practice: a person holds the sheet by its large side, and sets fingers
 * no oftener than needed. Each weighs more than all of the following together, for up to 30 strokes.
 */
const TIPS = 1;
const BEGINS_OVER = 32 * TIPS;
const TURN = 32 * BEGINS_OVER;
const STOP = 32 * TURN;
const FLIP = 32 * STOP;
const FINGERS = 32 * FLIP;
const GRIP = 32 * FINGERS;
const SWUNG = 32 * GRIP;
const HELP = 32 * SWUNG;

/**
 * What each help costs before anything else is looked at, so that a stroke of the machine as it
 * stands is taken wherever there is one; common practice: the less the hands do, the truer the fold.
 */
const HELPS: Readonly<Record<Help, number>> = {
  tight: 1,
  'short die': 2,
  'off the end': 2,
  'on packers': 3,
  'rest by hand': 5,
  'over a block': 8,
};

/** What the help of hands at a stroke costs; 0 for the machine as it stands. */
export const helpCost = ({ rules: { help } }: Stroke): number =>
  help === undefined ? 0 : HELP * HELPS[help];

export const orientationOf = (net: FoldNet, stroke: Stroke, placement: Placement): Orientation => {
  const first = stroke.folds[0] as number;
  const { up, headingDeg } = net.folds[first] as NetFold;
  const stopMm = stroke.placedParts[placement].strip(first, STILL, -1);
  return {
    up,
    headingDeg: (Math.round(((headingDeg + 180 * placement) % 360) * 10) / 10) % 360,
    stopMm: Math.round(stopMm * 10) / 10,
  };
};

export const isFlip = (a: Orientation, b: Orientation): boolean => a.up !== b.up;

/**
 * How far the part is turned on the table between two strokes, 0 to 180 degrees. A part that is
 * turned over may keep either end in front.
 */
export const turnDeg = (a: Orientation, b: Orientation): number => {
  const around = a.up === b.up ? 360 : 180;
  const turn = Math.abs(a.headingDeg - b.headingDeg) % around;
  return Math.min(turn, around - turn);
};

export const changeCost = (a: Orientation, b: Orientation): number =>
  (isFlip(a, b) ? FLIP : 0) + (turnDeg(a, b) > 0 ? TURN : 0) + (a.stopMm === b.stopMm ? 0 : STOP);

/** What it costs to begin a plan with a stroke. */
export const startCost = ({ up }: Orientation): number => (up ? 0 : BEGINS_OVER);

/** What it costs to go from the tools of one stroke to those of the next. */
export const toolsCost = (before: string, after: string): number =>
  before === after ? 0 : FINGERS;

/** Whether a stroke holds the part by less flat sheet than a safe grip takes. */
export const hasSmallGrip = (
  { folds, rules, placedParts }: Stroke,
  placement: Placement,
  made: number,
): boolean =>
  folds.some(
    (fold) => placedParts[placement].strip(fold, STILL, made) < rules.gripMm - SAME_LENGTH_MM,
  );

/**
 * Whether the part tips over when it is let go after a stroke, because its centre of gravity lies
 * beside what carries it. The middle of each panel stands for its centre of gravity. `made` holds
 * the folds made before, as bits.
 */
export const tips = (
  net: FoldNet,
  { placedParts, rules }: Stroke,
  placement: Placement,
  made: number,
): boolean => {
  const placedPart = placedParts[placement];
  const cylinders = placedPart.cylinders(made);
  const turned = rules.turns
    .map((turn) => turn * (rules.swingDeg - rules.startDeg))
    .map((deg) => ({ cos: cosDeg(deg), sin: sinDeg(deg) }));
  let [area, moment] = [0, 0];
  net.panels.forEach(({ areaMm2 }, panel) => {
    const { middle } = cylinders[panel] as BoundingCylinder;
    const { cos, sin } = turned[placedPart.sides[panel] as number] as {
      readonly cos: number;
      readonly sin: number;
    };
    area += areaMm2;
    moment += areaMm2 * (cos * middle[0] - sin * middle[1]);
  });
  // A part that balances right on the edge would otherwise be judged by rounding alone.
  return (
    moment < (rules.carriedMm[0] - SAME_LENGTH_MM) * area ||
    moment > (rules.carriedMm[1] + SAME_LENGTH_MM) * area
  );
};

/** What a stroke costs by itself. */
export const strokeCost = (
  net: FoldNet,
  stroke: Stroke,
  placement: Placement,
  { isTipped, isSmallGrip }: { readonly isTipped: boolean; readonly isSmallGrip: boolean },
): number =>
  helpCost(stroke) +
  swingCost(net, stroke, placement) +
  (isSmallGrip ? GRIP : 0) +
  (isTipped ? TIPS : 0);

const swingCost = (net: FoldNet, stroke: Stroke, placement: Placement): number => {
  const { sides } = stroke.placedParts[placement];
  let held = 0;
  net.panels.forEach(({ areaMm2 }, panel) => (held += sides[panel] === STILL ? areaMm2 : -areaMm2));
  // The halves of a symmetrical part differ by rounding alone.
  return held > -NOISE_MM2 ? 0 : SWUNG;
};
