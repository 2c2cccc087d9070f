import { usualOpeningMm } from '../../bending/v-die.ts';
import type { Machine } from '../../model/machine.ts';
import type { Fold, Part } from '../../model/part.ts';
import { isByEye, outsideIn } from './by-eye.ts';
import { handStep } from './by-hand.ts';
import { isFormed } from './is-formed.ts';
import { withoutFolds } from './pieces.ts';
import { type Beyond, beyondCapacity, leastFlangeFor, mostFoldMm } from './capacity.ts';
import { type PartNet, partNet } from './part-net.ts';
import { type PlanAnswer, planFolds } from '../search/plan.ts';
import { figure } from '../../text/figures.ts';
import { foldIdsOf, type FoldNet, type NetFold } from '../machines/net.ts';
import { bendLengthMm, bendNamed } from './step-notes.ts';
import type { Blocked, FoldPlan, FoldStep } from '../../contract/fold-plan.ts';
import { withCards } from './step-card.ts';
import { noseOf, type PartToFold, stepsOf, swingTo } from './plan-steps.ts';
import { restsOn } from './rests-on.ts';
import { blockedStrokes } from './blocked-strokes.ts';

/** A plan with what it was made from, for drawings of its steps. */
export interface PartPlan {
  readonly plan: FoldPlan;
  readonly answer: PlanAnswer;
  readonly machine: Machine;
}

/** The most blocked strokes that are reported of a part that cannot be folded. */
export const MOST_BLOCKED = 6;

/**
 * Plans the folds of a part on one machine. A part without a fold to plan has no steps and is
 * feasible.
 */
export function planPart(fold: PartToFold, given: Machine, budget?: number): PartPlan {
  const machine = setUpFor(fold, given);
  const { net, byHand } = netFor(fold, machine);
  const answer =
    net.folds.length > MOST_FOLDS
      ? undecided(net, machine)
      : planFolds(net, machine, {
          mostOrders: 0,
          explain: false,
          ...(budget !== undefined && { budget }),
        });
  const tooMuch = tooMuchFor(fold, machine, net);
  const feasible =
    tooMuch.length > 0
      ? false
      : answer.verdict === 'not decided'
        ? null
        : answer.verdict === 'feasible';
  const steps = feasible === true ? allSteps(fold, machine, answer, byHand) : [];
  return {
    answer,
    machine,
    plan: {
      machine: machine.id,
      feasible,
      steps,
      blockedBy:
        feasible === true
          ? []
          : [
              ...tooMuch.map((b) => tooWeak(b, wayOut(fold, given, tooMuch))),
              ...blockedStrokes(answer).map((b) => b.blocked),
            ].slice(0, MOST_BLOCKED),
      blockEachOther: (answer.blockingSet ?? []).flatMap((f) => foldIdsOf(net.folds[f] as NetFold)),
      restsOn: restsOn(machine, steps),
    },
  };
}

/** What the machine is too weak for: folds, and rows of folds that are made at one stroke. */
export const tooMuchFor = (fold: PartToFold, machine: Machine, net: FoldNet): Beyond[] => [
  ...beyondCapacity(fold, machine),
  ...rowsBeyond(fold, net),
];

/** Rows of folds, taken as one where there are many, that are too long together for the machine. */
const rowsBeyond = ({ flat }: PartToFold, net: FoldNet): Beyond[] =>
  net.folds.flatMap(({ id, ids = [] }) => {
    const sumMm = ids.reduce((sum, one) => sum + bendLengthMm(bendNamed(flat, one)), 0);
    const most = net.mostTogetherMm ?? Infinity;
    return sumMm <= most
      ? []
      : [
          {
            bend: id,
            reason: `its ${ids.length} folds, made at one stroke, are ${figure(sumMm, 0)} mm long together; the machine bends ${figure(most, 0)} mm of that sheet at most`,
          },
        ];
  });

/** The most folds that are planned: a state has a bit for each. */
export const MOST_FOLDS = 30;

/** The answer for a part of too many folds: nothing was tried. */
const undecided = (net: FoldNet, machine: Machine): PlanAnswer => ({
  ...planFolds({ ...net, panels: net.panels.slice(0, 1), folds: [] }, machine, { mostOrders: 0 }),
  verdict: 'not decided',
  moves: [],
});

/**
 * What the machine makes, then what is made by hand; from the folds that are made already, as bits.
 */
export const allSteps = (
  fold: PartToFold,
  machine: Machine,
  answer: PlanAnswer,
  byHand: readonly Fold[],
  made = 0,
): FoldStep[] => {
  const onMachine = answer.lattice.net.folds.flatMap(foldIdsOf);
  return withCards(
    fold,
    machine,
    answer,
    [
      ...stepsOf(fold, machine, answer, made),
      ...byHand.map((f) => handStep(fold, machine, f, onMachine)),
    ],
    made,
  );
};

const tooWeak = ({ bend, reason }: Beyond, suggestion: string): Blocked => ({
  bend,
  after: [],
  reason,
  touches: null,
  atDeg: null,
  suggestion,
});

/**
 * What can still be done about folds that a machine is too weak for: have them bent on a stronger
 * machine elsewhere, or cut a row of slots along them, so that they are folded by hand and welded
 * up. The slots are tried: the rest has to be foldable, and every slot needs its lands.
 */
function wayOut(fold: PartToFold, machine: Machine, tooMuch: readonly Beyond[]): string {
  const { part, flat } = fold;
  // A row of folds that is too long together is named by all of them.
  const ids = new Set(tooMuch.flatMap((b) => b.bend.split(ROW)));
  const row = {
    longestMm: SLOT_MM,
    landMm: SLOT_LANDS * part.thicknessMm,
    widthMm: part.relief.leastSlotMm,
  };
  const slotted: Part = {
    ...part,
    folds: part.folds.map((f) => (ids.has(f.id) ? { ...f, slots: row } : f)),
  };
  const hasRoom = [...ids].every(
    (id) => bendLengthMm(bendNamed(flat, id)) - 2 * row.landMm > row.widthMm,
  );
  const names = [...ids].join(', ');
  const canBe = (piece: PartToFold): boolean =>
    planPart(piece, machine, SLOTTED_BUDGET).plan.feasible === true;
  const ways = [
    'have it pressed where a brake takes it (--fold-at service)',
    ...(hasRoom && canBe({ ...fold, part: slotted })
      ? [`slit it (slitAt ${names}), fold it by hand and weld it up`]
      : withoutFolds(fold, [...ids]).every(canBe)
        ? [`weld it there in place of a bend (weldAt ${names})`]
        : []),
  ];
  return ways.join('; or ');
}

/** Between the names of folds that are made as one. */
const ROW = ' + ';

/** Length of the lands of a row of slots when a plate states none, in thicknesses. */
const SLOT_LANDS = 2;
const SLOT_MM = 50;

/** Budget for the question whether the rest of a slotted part can be folded. */
const SLOTTED_BUDGET = 100_000;

/**
 * How far past its angle the shop itself says that a fold must be free to swing. The figure of a
 * built-in machine is a rule of thumb for sheet of any kind, and springback is known better than
 * that of a part.
 */
const ownOverbendDeg = ({ overbendDeg: { value, basis } }: Machine): number =>
  basis === 'measured' ? value : 0;

/**
 * The part as this machine folds it: hems as far as it goes, and every fold past its angle by its
 * springback, or by the overbend of the shop file where that is more.
 */
export const netFor = (fold: PartToFold, machine: Machine): PartNet => {
  const { net, byHand } = netOf(fold, machine);
  const mostTogetherMm = mostFoldMm(fold, machine);
  return {
    net: Number.isFinite(mostTogetherMm) ? { ...net, mostTogetherMm } : net,
    byHand: handsOrder(fold, byHand),
  };
};

/** Creases by eye come last of what hands do, from the outside in: only they are pulled to shape. */
const handsOrder = (fold: PartToFold, byHand: readonly Fold[]): readonly Fold[] => {
  const [others, creases] = [false, true].map((want) =>
    byHand.filter((f) => isByEye(fold, f, bendNamed(fold.flat, f.id)) === want),
  ) as [Fold[], Fold[]];
  return [...others, ...outsideIn(fold.part, fold.flat, creases)];
};

const netOf = (fold: PartToFold, machine: Machine): PartNet =>
  partNet(fold.part, fold.flat, {
    mostDeg: machine.maxAngleDeg?.value,
    isByHand: (f) =>
      f.slots !== undefined ||
      isFormed(f, bendNamed(fold.flat, f.id), fold.flat.thicknessMm, machine) ||
      isByEye(fold, f, bendNamed(fold.flat, f.id)),
    overbendOf: ({ id, angleDeg }) =>
      Math.max(
        swingTo(fold, machine, bendNamed(fold.flat, id)) - angleDeg,
        ownOverbendDeg(machine),
      ),
    ...(machine.kind === 'folder' && {
      noseRadiusOf: ({ id }) => noseOf(fold, machine, bendNamed(fold.flat, id)).radiusMm,
      leastFlangeOf: ({ id }) => leastFlangeFor(fold, machine, bendNamed(fold.flat, id)),
    }),
  });

/**
 * The machine with the die that is usual for the sheet: the smallest V that is not too small for
 * it, or the widest there is.
 */
export const setUpFor = ({ flat }: PartToFold, machine: Machine): Machine => {
  if (machine.kind === 'folder' || machine.otherVsMm === undefined) return machine;
  const openings = [machine.vMm.value, ...machine.otherVsMm.value].toSorted((a, b) => a - b);
  const value =
    openings.find((v) => v >= usualOpeningMm(flat.thicknessMm)) ?? (openings.at(-1) as number);
  return { ...machine, vMm: { ...machine.otherVsMm, value } };
};

/** A press brake with each of its other punches. */
export const setUpsOf = (machine: Machine): Machine[] =>
  machine.kind === 'folder'
    ? []
    : machine.punches
        .filter(({ id }) => id !== machine.punch)
        .map(({ id }) => ({ ...machine, punch: id }));
