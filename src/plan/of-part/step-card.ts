import type { BoundingCylinder } from '../machines/bounding-cylinder.ts';
import type { Block, Stretch } from '../machines/holding.ts';
import { foldIdsOf, type NetFold } from '../machines/net.ts';
import type { Placement } from '../machines/placed-part.ts';
import { MOVING } from '../machines/stroke-rules.ts';
import type { Machine } from '../../model/machine.ts';
import type { Move } from '../search/cheapest.ts';
import { isFlip, orientationOf } from '../search/cost.ts';
import type { Lattice } from '../search/lattice.ts';
import type { Stroke } from '../search/stroke.ts';
import { checksOf } from './check-dimensions.ts';
import { keptDeg, shareWhen, withAngle } from './fold-state.ts';
import type { PartToFold } from './plan-steps.ts';
import { bendNamed } from './step-notes.ts';
import { takeOff } from './take-off.ts';
import type { FoldStep, StepCard, StepCheck } from '../../contract/fold-plan.ts';
import type { FoldShare } from '../../fold/fold-up.ts';

/** A step before it is told how it is laid, held, checked and let go. */
export type BareStep = Omit<FoldStep, 'card'> & Pick<StepCard, 'mark'>;

/** The steps of a plan with their cards; those beyond the moves of the machine are made by hand. */
export function withCards(
  fold: PartToFold,
  machine: Machine,
  { lattice, moves }: { readonly lattice: Lattice; readonly moves: readonly Move[] },
  steps: readonly BareStep[],
  madeBefore = 0,
): FoldStep[] {
  let made = madeBefore;
  const byMachine = moves.map((move, i): FoldStep => {
    const stroke = lattice.strokes[move.stroke] as Stroke;
    const { mark, ...step } = steps[i] as BareStep;
    const card = cardOf(fold, machine, { lattice, move, before: moves[i - 1], made, step });
    made |= stroke.bits;
    return { ...step, card: { ...card, mark } };
  });
  const done = new Set<string>();
  const share = shareWhen(lattice, fold.flat, made);
  return [
    ...byMachine,
    ...steps.slice(moves.length).map(({ mark, ...step }): FoldStep => {
      done.add(step.bend);
      const now: FoldShare = (id) => (done.has(id) ? 1 : share(id));
      return { ...step, card: { ...handCard(fold, step, now), mark } };
    }),
  ];
}

interface Moment {
  readonly lattice: Lattice;
  readonly move: Move;
  readonly before: Move | undefined;
  /** The folds made before, as bits. */
  readonly made: number;
  readonly step: Omit<FoldStep, 'card'>;
}

const cardOf = (
  fold: PartToFold,
  machine: Machine,
  { lattice, move, before, made, step }: Moment,
): Omit<StepCard, 'mark'> => {
  const { net } = lattice;
  const { placement } = move;
  const stroke = lattice.strokes[move.stroke] as Stroke;
  const first = net.folds[stroke.folds[0] as number] as NetFold;
  const ids = stroke.folds.flatMap((f) => foldIdsOf(net.folds[f] as NetFold));
  const bend = bendNamed(fold.flat, ids[0] as string);
  const keepsDeg = keptDeg(lattice, stroke, fold.flat);
  const share = withAngle(shareWhen(lattice, fold.flat, made), fold.flat, ids, keepsDeg);
  return {
    faceUp: first.up ? 'upper' : 'lower',
    swungSide: step.clampedSide === bend.parent ? bend.child : bend.parent,
    ...handling(lattice, before, move),
    keepsDeg,
    barFitted: machine.kind === 'folder' ? machine.isLeafBarFitted.value : null,
    tools: toolsAlong(stroke, placement, made).map(({ line, from, widthsMm }) => ({
      fromMm: line.to - from,
      widthsMm,
    })),
    ...weights(fold, lattice, stroke, placement, made),
    takeOff: takeOff(net, machine, stroke, placement, made) ?? null,
    checks: checksOf({
      ...fold,
      bend,
      clamped: step.clampedSide,
      share,
      tolerance: fold.tolerance ?? 'm',
    }),
  };
};

const handCard = (
  fold: PartToFold,
  step: Omit<FoldStep, 'card'>,
  share: FoldShare,
): Omit<StepCard, 'mark'> => {
  const bend = bendNamed(fold.flat, step.bend);
  const checks = checksOf({
    ...fold,
    bend,
    clamped: step.clampedSide,
    share,
    tolerance: fold.tolerance ?? 'm',
  });
  return {
    faceUp: bend.direction === 'up' ? 'upper' : 'lower',
    swungSide: bend.child,
    flipAbout: null,
    turnTo: null,
    keepsDeg: bend.angleDeg,
    barFitted: null,
    tools: [],
    ...massesOf(fold, [fold.flat.areaMm2, 0]),
    hand: 'both',
    takeOff: null,
    checks: step.way === 'by eye' ? checks.flatMap(roughly) : checks,
  };
};

/** What is set by eye is held to a card of its angle; the rest shows when both openings fit. */
const roughly = (check: StepCheck): StepCheck[] =>
  check.kind === 'angle' ? [{ ...check, plusMinus: null }] : [];

/**
 * How the part gets from the way that it lies for one stroke to that of the next: over about the axis
 * that leaves the smaller turn, then round. The heading is the direction of the drawing that points to
 * whoever works.
 */
const handling = (
  { net, strokes }: Lattice,
  last: Move | undefined,
  move: Move,
): Pick<StepCard, 'flipAbout' | 'turnTo'> => {
  if (last === undefined) return { flipAbout: null, turnTo: null };
  const [a, b] = [last, move].map(({ stroke, placement }) =>
    orientationOf(net, strokes[stroke] as Stroke, placement),
  ) as [ReturnType<typeof orientationOf>, ReturnType<typeof orientationOf>];
  const around = between180(b.headingDeg - a.headingDeg);
  if (!isFlip(a, b)) return { flipAbout: null, turnTo: wayOf(around, b.up) };
  return Math.abs(around) <= 90
    ? { flipAbout: 'across', turnTo: wayOf(around, b.up) }
    : { flipAbout: 'along', turnTo: wayOf(between180(around - 180), b.up) };
};

/**
 * To bring a direction of the drawing to the front that lies counter-clockwise of it, the part turns
 * clockwise, seen on the face that the drawing shows.
 */
const wayOf = (aroundDeg: number, isDrawnFaceUp: boolean): StepCard['turnTo'] => {
  if (aroundDeg === 0 || Math.abs(aroundDeg) === 180) return null;
  return aroundDeg > 0 === isDrawnFaceUp ? 'right' : 'left';
};

/** An angle to a tenth, from -180 to 180 degrees. */
const between180 = (deg: number): number =>
  Math.round(((((deg + 180) % 360) + 360) % 360) * 10) / 10 - 180;

/** A block of tools, mm along the machine; its left end, as whoever works sees it, is `from`. */
export interface ToolAlong {
  readonly line: Stretch;
  readonly from: number;
  readonly widthsMm: readonly number[];
}

/**
 * The tools of a stroke in their places: in the middle of what they hold, as far as there is room.
 * Whoever works has the higher measures on the left.
 */
export const toolsAlong = (stroke: Stroke, placement: Placement, made: number): ToolAlong[] => {
  const lines = stroke.placedParts[placement].lines(made) ?? [];
  if (lines.length === 0) return [];
  const line = {
    from: Math.min(...lines.map((l) => l.from)),
    to: Math.max(...lines.map((l) => l.to)),
  };
  const blocks = stroke.tools(made, placement, stroke.taken(made, placement)) ?? [];
  return blocks
    .filter(({ widthsMm }) => widthsMm.length > 0)
    .map((block) => ({ line, from: leftEnd(block, line), widthsMm: block.widthsMm }))
    .toSorted((a, b) => b.from - a.from);
};

const leftEnd = ({ room, widthsMm }: Block, line: Stretch): number => {
  const wide = widthsMm.reduce((sum, w) => sum + w, 0);
  const [from, to] = [Math.max(room.from, line.from), Math.min(room.to, line.to)];
  return Math.max(room.from + wide, Math.min(room.to, (from + to + wide) / 2));
};

/** Share of the fold's length by which the weight lies to one side, from where one hand lifts it. */
const ONE_HAND = 0.1;

const weights = (
  fold: PartToFold,
  { net }: Lattice,
  { placedParts }: Stroke,
  placement: Placement,
  made: number,
): Pick<StepCard, 'clampedKg' | 'swungKg' | 'hand'> => {
  const placed = placedParts[placement];
  const cylinders = placed.cylinders(made);
  const areas: [number, number] = [0, 0];
  let moment = 0;
  net.panels.forEach(({ areaMm2 }, panel) => {
    const side = placed.sides[panel] as 0 | 1;
    areas[side] += areaMm2;
    if (side === MOVING) moment += areaMm2 * (cylinders[panel] as BoundingCylinder).middle[2];
  });
  const [line] = placed.lines(made) ?? [{ from: 0, to: 0 }];
  const { from, to } = line as Stretch;
  const aside = moment / areas[MOVING] - (from + to) / 2;
  const hand = Math.abs(aside) <= ONE_HAND * (to - from) ? 'both' : aside > 0 ? 'left' : 'right';
  return { ...massesOf(fold, areas), hand };
};

const massesOf = (
  { flat, material }: PartToFold,
  [still, moving]: readonly [number, number],
): Pick<StepCard, 'clampedKg' | 'swungKg'> => {
  // What bends take up counts to either side alike.
  const all = (flat.areaMm2 * flat.thicknessMm * material.densityKgM3.value) / 1e9;
  return {
    clampedKg: (all * still) / (still + moving),
    swungKg: (all * moving) / (still + moving),
  };
};
