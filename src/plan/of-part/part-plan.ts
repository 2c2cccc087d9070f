import { HEM_DEG } from '../../bending/hem.ts';
import { measuredRow, measuredSpringback } from '../../bending/rules/measured.ts';
import { springbackOf, stopAtDeg } from '../../bending/springback.ts';
import { usualOpeningMm } from '../../bending/v-die.ts';
import { figure } from '../../text/figures.ts';
import { type BendMark, bendMark, type MarkTool } from './bend-mark.ts';
import type { FlatBend, FlatPattern } from '../../model/flat.ts';
import type { MeasuredBend } from '../../model/bend-rule.ts';
import type { Machine } from '../../model/machine.ts';
import type { Material } from '../../model/material.ts';
import type { Part } from '../../model/part.ts';
import { type Beyond, beyondCapacity } from './capacity.ts';
import type { Move } from '../search/cheapest.ts';
import type { Lattice } from '../search/lattice.ts';
import { HEM_SWING_DEG, isBow, type PartNet, partNet } from './part-net.ts';
import { type PlanAnswer, planFolds } from '../search/plan.ts';
import { foldBits } from '../machines/pre-fold.ts';
import { rescueByPreFolds } from '../search/rescue.ts';
import { stepOf } from '../search/plan-result.ts';
import { whyNot } from '../search/reasons.ts';
import { bendLengthMm, bendNamed, stepNotes } from './step-notes.ts';
import type { Stroke } from '../search/stroke.ts';
import { noseRadiusMm } from './tool-radius.ts';
import type { Blocked, FoldPlan, FoldStep } from '../../contract/fold-plan.ts';
import type { StepResult } from '../../contract/panel-plan.ts';

/** A plan with what it was made from, for drawings of its steps. */
export interface PartPlan {
  readonly plan: FoldPlan;
  readonly answer: PlanAnswer;
  readonly machine: Machine;
}

export interface PartToFold {
  readonly part: Part;
  readonly flat: FlatPattern;
  readonly material: Material;
  /** What the shop measured of its own bends in this material. */
  readonly bends: readonly MeasuredBend[];
}

/** The most that is told of a part that cannot be folded. */
const MOST_BLOCKED = 6;

/**
 * Plans the folds of a part on one machine. A part without a fold to plan has no steps and is
 * feasible.
 */
export function planPart(fold: PartToFold, given: Machine, budget?: number): PartPlan {
  const machine = setUpFor(fold, given);
  const { net, byHand } = netFor(fold, machine);
  const answer = planFolds(net, machine, {
    mostOrders: 0,
    explain: false,
    ...(budget !== undefined && { budget }),
  });
  const tooMuch = beyondCapacity(fold, machine);
  const feasible =
    tooMuch.length > 0
      ? false
      : answer.verdict === 'not decided'
        ? null
        : answer.verdict === 'feasible';
  return {
    answer,
    machine,
    plan: {
      machine: machine.id,
      feasible,
      steps:
        feasible === true
          ? [...stepsOf(fold, machine, answer), ...byHand.map((f) => handStep(fold, f.id))]
          : [],
      blockedBy:
        feasible === true
          ? []
          : [
              ...tooMuch.map((b) => tooWeak(b, wayOut(fold, given, tooMuch))),
              ...blockedStrokes(answer).map((b) => b.blocked),
            ].slice(0, MOST_BLOCKED),
      blockEachOther: (answer.blockingSet ?? []).map((f) => net.folds[f]?.id ?? ''),
    },
  };
}

const tooWeak = ({ bend, reason }: Beyond, suggestion: string): Blocked => ({
  bend,
  after: [],
  reason,
  touches: null,
  atDeg: null,
  suggestion,
});

/**
 * What is left of folds that a machine is too weak for: a stronger one elsewhere, or a row of slots
 * along them, so that they are folded by hand and welded up. The slots are tried: the rest has to
 * be foldable, and every slot needs its lands.
 */
function wayOut(fold: PartToFold, machine: Machine, tooMuch: readonly Beyond[]): string {
  const { part, flat } = fold;
  const ids = new Set(tooMuch.map((b) => b.bend));
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
  const names = `fold ${[...ids].join(', ')}`;
  const slit =
    hasRoom && planPart({ ...fold, part: slotted }, machine, SLOTTED_BUDGET).plan.feasible === true
      ? `slit it: cut ${names} as a row of slots (plate: slots behind the fold line), fold it by hand and weld it up`
      : `make it in pieces and weld them at ${names}`;
  return `have it pressed where a brake takes it (--fold-at service); or ${slit}`;
}

/** A row of slots as a plate has it when nothing else is said: lands of two thicknesses. */
const SLOT_LANDS = 2;
const SLOT_MM = 50;

/** For the question whether the rest of a slotted part can be folded. */
const SLOTTED_BUDGET = 100_000;

/**
 * The same with some folds made to half their angle first, for a part that is proved to have no
 * order otherwise. `undefined` where that does not help, or was not found to.
 */
export function rescuedPart(
  fold: PartToFold,
  { answer, machine, plan }: PartPlan,
  budget: number,
): PartPlan | undefined {
  if (answer.verdict !== 'impossible' || beyondCapacity(fold, machine).length > 0) return undefined;
  const rescued = rescueByPreFolds(answer.lattice.net, machine, {
    blockingSet: answer.blockingSet,
    budget,
  });
  if (rescued?.verdict !== 'feasible') return undefined;
  const byHand = netFor(fold, machine).byHand.map((f) => handStep(fold, f.id));
  return {
    answer: rescued,
    machine,
    plan: {
      ...plan,
      feasible: true,
      steps: [...stepsOf(fold, machine, rescued), ...byHand],
      blockedBy: [],
      blockEachOther: [],
    },
  };
}

/**
 * The part as this machine folds it: hems as far as it goes, every fold past its angle by what it
 * springs back.
 */
export const netFor = (fold: PartToFold, machine: Machine): PartNet =>
  partNet(
    fold.part,
    fold.flat,
    machine.maxAngleDeg?.value,
    ({ id, angleDeg }) => swingTo(fold, machine, bendNamed(fold.flat, id)) - angleDeg,
  );

/**
 * With the die that is usual for the sheet: the smallest V that is not too small for it, or the
 * widest there is.
 */
export const setUpFor = ({ flat }: PartToFold, machine: Machine): Machine => {
  if (machine.kind === 'folder' || machine.otherVsMm === undefined) return machine;
  const openings = [machine.vMm.value, ...machine.otherVsMm.value].toSorted((a, b) => a - b);
  const value =
    openings.find((v) => v >= usualOpeningMm(flat.thicknessMm)) ?? (openings.at(-1) as number);
  return { ...machine, vMm: { ...machine.otherVsMm, value } };
};

const namesOf = ({ net, strokes }: Lattice, stroke: number): readonly string[] =>
  (strokes[stroke] as Stroke).folds.map((f) => net.folds[f]?.id ?? '');

function stepsOf(fold: PartToFold, machine: Machine, { lattice, moves }: PlanAnswer): FoldStep[] {
  const states = [0];
  for (const { stroke } of moves)
    states.push((states.at(-1) as number) | (lattice.strokes[stroke] as Stroke).bits);
  const steps = moves.map((_, i) => stepOf(lattice, moves, i, states[i] as number));
  return steps.map((step, i): FoldStep => {
    const ids = namesOf(lattice, moves[i]?.stroke ?? -1);
    const bend = bendNamed(fold.flat, ids[0] as string);
    const first = step.inTwo?.stroke === 2 ? steps[step.inTwo.otherStep - 1] : undefined;
    // What is finished was marked while it still lay flat.
    const at = step.inTwo === undefined || first === undefined ? i : step.inTwo.otherStep - 1;
    const mark =
      first !== undefined &&
      (machine.kind === 'press brake' || first.clampedSide === step.clampedSide)
        ? { distanceMm: null, from: `the mark of step ${at + 1}` }
        : markOf(fold, machine, lattice, {
            bend,
            side: step.clampedSide,
            made: states[at] as number,
          });
    return {
      bend: ids.join(' + '),
      clampedSide: clampedAt(bend, step.clampedSide),
      flip: step.flip,
      turnDeg: step.turnDeg,
      stopAtDeg: step.inTwo?.stroke === 1 ? step.stopAtDeg : swingTo(fold, machine, bend),
      sightLineMm: mark.distanceMm,
      from: mark.from,
      fingersMm: step.fingersMm.flat(),
      note:
        [
          ...inTwoNotes(bend, step, first, mark.distanceMm !== null),
          ...stepNotes(fold, machine, {
            ids,
            inTwo: step.inTwo,
            lattice,
            move: moves[i] as Move,
            made: states[i] as number,
          }),
        ].join('; ') || null,
      ...(step.inTwo !== undefined && { inTwo: step.inTwo }),
    };
  });
}

const clampedAt = (bend: FlatBend, side: StepResult['clampedSide']): string =>
  side === 'parent' ? bend.parent : bend.child;

/** A fold made in part is no longer flat, and not yet an outside that can be measured from. */
const markOf = (
  fold: PartToFold,
  machine: Machine,
  { net }: Lattice,
  {
    bend,
    side,
    made,
  }: { readonly bend: FlatBend; readonly side: StepResult['clampedSide']; readonly made: number },
): Pick<BendMark, 'distanceMm' | 'from'> => {
  const { flat } = fold;
  const ids = (isIn: (fold: number) => boolean): Set<string> =>
    new Set(net.folds.filter((_, f) => isIn(f)).map((f) => f.id));
  const done = ids((f) => (made & (1 << f)) !== 0);
  const inPart = ids((f) => (made & (1 << f)) === 0 && (made & foldBits(net, f)) !== 0);
  return bendMark(
    { ...flat, bends: flat.bends.filter((b) => !inPart.has(b.id)) },
    bend,
    clampedAt(bend, side),
    done,
    toolOf(fold, machine, bend),
  );
};

const inTwoNotes = (
  bend: FlatBend,
  { inTwo }: StepResult,
  first: StepResult | undefined,
  isMarkedAnew: boolean,
): string[] => {
  if (inTwo === undefined) return [];
  if (first?.inTwo === undefined)
    return [
      `folded in part now, to ${figure(inTwo.keepsDeg, 1)} deg, and finished in step ${inTwo.otherStep}`,
    ];
  return [
    `finishes fold ${bend.id}, which stands at ${figure(first.inTwo.keepsDeg, 1)} deg since step ${inTwo.otherStep}`,
    ...(isMarkedAnew ? [`mark it before step ${inTwo.otherStep}`] : []),
  ];
};

/**
 * The sight line of the nose, which is that of the strips where the part goes by them, or the
 * middle of the V.
 */
const toolOf = ({ bends, flat }: PartToFold, machine: Machine, bend: FlatBend): MarkTool => {
  if (machine.kind === 'press brake') return { kind: 'v' };
  const own =
    bend.rule === 'measured'
      ? measuredRow(bends, { ...bend, thicknessMm: flat.thicknessMm })?.noseRadiusMm
      : undefined;
  return { kind: 'nose', radiusMm: own ?? noseRadiusMm(machine, bend.insideRadiusMm) };
};

/** Hems are swung as far as the machine goes, and pressed flat; nothing springs back from there. */
const swingTo = (
  { material, bends, flat: { thicknessMm } }: PartToFold,
  machine: Machine,
  bend: FlatBend,
): number => {
  if (bend.angleDeg >= HEM_DEG)
    return Math.min(HEM_SWING_DEG, machine.maxAngleDeg?.value ?? HEM_SWING_DEG);
  const factor =
    measuredSpringback(bends, { ...bend, thicknessMm }) ??
    springbackOf(material, bend.insideRadiusMm, thicknessMm).factor;
  return stopAtDeg(bend.angleDeg, { factor });
};

const handStep = ({ flat }: PartToFold, id: string): FoldStep => {
  const bend = bendNamed(flat, id);
  const [from, note] = isBow(bend, flat.thicknessMm)
    ? [
        'the tangent lines at both its ends',
        `round a former of radius ${figure(bend.insideRadiusMm)}, by hand or in rolls: it is no fold`,
      ]
    : ['its row of slots', 'by hand along its slots, to the angle itself, then weld the slots up'];
  return {
    bend: id,
    clampedSide: bend.parent,
    flip: false,
    turnDeg: 0,
    stopAtDeg: bend.angleDeg,
    sightLineMm: null,
    from,
    fingersMm: [],
    note,
  };
};

/** A stroke that cannot be made from a state, and the way it is held. */
export interface BlockedStroke {
  readonly move: Move;
  /** Folds, as bits. */
  readonly made: number;
  readonly blocked: Blocked;
}

/**
 * What cannot be made, furthest on first: of both ways of holding the one in which the stroke gets
 * further.
 */
export function blockedStrokes({ lattice, deadEnds }: PlanAnswer): BlockedStroke[] {
  const { net, strokes } = lattice;
  const told = new Set<number>();
  return deadEnds.ends
    .toSorted((a, b) => bits(b.made) - bits(a.made))
    .flatMap(({ made, stroke }): BlockedStroke[] => {
      if (told.has(stroke)) return [];
      told.add(stroke);
      const reasons = ([0, 1] as const).flatMap((placement) => {
        const reason = whyNot(net, strokes[stroke] as Stroke, made, placement);
        return reason === undefined ? [] : [{ placement, reason }];
      });
      const [furthest] = reasons.toSorted(
        (a, b) => (b.reason.atDeg ?? -1) - (a.reason.atDeg ?? -1),
      );
      if (furthest === undefined) return [];
      const { text, touches, atDeg } = furthest.reason;
      const after = net.folds.filter((_, f) => (made & (1 << f)) !== 0).map((f) => f.id);
      return [
        {
          move: { stroke, placement: furthest.placement },
          made,
          blocked: {
            bend: namesOf(lattice, stroke).join(' + '),
            after,
            reason: text,
            touches,
            atDeg,
            suggestion: null,
          },
        },
      ];
    });
}

const bits = (n: number): number => (n === 0 ? 0 : (n & 1) + bits(n >>> 1));
