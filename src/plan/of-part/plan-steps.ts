import { HEM_DEG } from '../../bending/hem.ts';
import { measuredRow, measuredSpringback } from '../../bending/rules/measured.ts';
import { springbackOf, stopAtDeg } from '../../bending/springback.ts';
import { figure } from '../../text/figures.ts';
import { type BendMark, bendMark, type MarkTool } from './bend-mark.ts';
import type { FlatBend, FlatPattern } from '../../model/flat.ts';
import type { MeasuredBend } from '../../model/bend-rule.ts';
import type { Folder, Machine } from '../../model/machine.ts';
import type { Material } from '../../model/material.ts';
import type { Part } from '../../model/part.ts';
import type { Rolls, WideBends } from '../../model/wide-bends.ts';
import type { Move } from '../search/cheapest.ts';
import { foldIdsOf, type NetFold } from '../machines/net.ts';
import type { Lattice } from '../search/lattice.ts';
import { HEM_SWING_DEG } from './part-net.ts';
import type { PlanAnswer } from '../search/plan.ts';
import { foldBits } from '../machines/pre-fold.ts';
import { stepOf } from '../search/plan-result.ts';
import { helpOf } from './help-words.ts';
import { bendNamed, stepNotes } from './step-notes.ts';
import type { Stroke } from '../search/stroke.ts';
import { noseGapMm, noseRadiusMm, radiusAtGapMm } from '../machines/nose.ts';
import type { FoldNose, FoldStop } from '../../contract/fold-plan.ts';
import type { BareStep } from './step-card.ts';
import type { GeneralClass } from '../../data/tolerances/general.ts';
import type { StepResult } from '../../contract/panel-plan.ts';

/** A part with everything that its folding depends on. */
export interface PartToFold {
  readonly part: Part;
  readonly flat: FlatPattern;
  readonly material: Material;
  /** The shop's own measured bends in this material. */
  readonly bends: readonly MeasuredBend[];
  /** Class of ISO 2768-1 that check dimensions are told by; `m` when left out. */
  readonly tolerance?: GeneralClass;
  /** The shop's rolls; none when left out. */
  readonly rolls?: readonly Rolls[] | undefined;
  /** How bends wider than a tool makes them are formed; as the plan finds best when left out. */
  readonly wideBends?: WideBends | undefined;
}

/** The folds of a stroke, by name. */
export const namesOf = ({ net, strokes }: Lattice, stroke: number): readonly string[] =>
  (strokes[stroke] as Stroke).folds.flatMap((f) => foldIdsOf(net.folds[f] as NetFold));

/**
 * The steps of a plan as the shop reads them: which panel is clamped, to which angle, by which
 * mark. `made` are the folds made before, as bits.
 */
export function stepsOf(
  fold: PartToFold,
  machine: Machine,
  { lattice, moves }: PlanAnswer,
  made = 0,
): BareStep[] {
  const states = [made];
  for (const { stroke } of moves)
    states.push((states.at(-1) as number) | (lattice.strokes[stroke] as Stroke).bits);
  const steps = moves.map((_, i) => stepOf(lattice, moves, i, states[i] as number));
  return steps.map((step, i): BareStep => {
    const ids = namesOf(lattice, moves[i]?.stroke ?? -1);
    const bend = bendNamed(fold.flat, ids[0] as string);
    const first = step.inTwo?.stroke === 2 ? steps[step.inTwo.otherStep - 1] : undefined;
    // A fold that is finished now was marked while it still lay flat.
    const at = step.inTwo === undefined || first === undefined ? i : step.inTwo.otherStep - 1;
    const isMarked =
      first !== undefined &&
      (machine.kind === 'press brake' || first.clampedSide === step.clampedSide);
    const marking = { bend, side: step.clampedSide, made: states[at] as number };
    const mark = isMarked
      ? { distanceMm: null, from: `the mark of step ${at + 1}`, at: null, foot: null }
      : markOf(fold, machine, lattice, marking);
    const [inTwo, move, made] = [step.inTwo, moves[i] as Move, states[i] as number];
    const {
      notes: helpNotes,
      stopAtDeg,
      ...help
    } = helpOf({ lattice, move, made, bend, stopAtDeg: swingTo(fold, machine, bend) });
    const isOnMachine = help.way !== 'over a block';
    const stop = stopOf(fold, machine, bend);
    const turnedDeg = inTwo?.stroke === 1 ? step.stopAtDeg : stopAtDeg;
    const isFolded = isOnMachine && machine.kind === 'folder';
    const notes = [
      ...helpNotes,
      ...(i === 0 && isFolded ? noseNowNote(fold, machine, bend) : []),
      ...inTwoNotes(bend, step, first, mark.distanceMm !== null),
      ...stepNotes(fold, machine, { ids, inTwo, lattice, move, made }),
    ];
    return {
      bend: ids.join(' + '),
      clampedSide: clampedAt(bend, step.clampedSide),
      flip: step.flip,
      turnDeg: step.turnDeg,
      stopAtDeg: turnedDeg + (isOnMachine ? stop.offsetDeg : 0),
      ...(isOnMachine && { stop }),
      sightLineMm: mark.distanceMm,
      from: mark.from,
      mark: mark.at === null || mark.foot === null ? null : { at: mark.at, from: mark.foot },
      nose: isFolded ? noseOf(fold, machine, bend) : null,
      fingersMm: step.fingersMm.flat(),
      note: notes.join('; ') || null,
      ...help,
      ...(inTwo?.stroke === 1 && { byHandDeg: 0 }),
      ...(inTwo !== undefined && { inTwo }),
    };
  });
}

const clampedAt = (bend: FlatBend, side: StepResult['clampedSide']): string =>
  side === 'parent' ? bend.parent : bend.child;

/**
 * The mark of a step. A fold made in part is no longer flat, and is not yet an outside that can be
 * measured from.
 */
const markOf = (
  fold: PartToFold,
  machine: Machine,
  { net }: Lattice,
  {
    bend,
    side,
    made,
  }: { readonly bend: FlatBend; readonly side: StepResult['clampedSide']; readonly made: number },
): BendMark => {
  const { flat } = fold;
  const ids = (isIn: (fold: number) => boolean): Set<string> =>
    new Set(net.folds.filter((_, f) => isIn(f)).flatMap(foldIdsOf));
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

/** The sight line of the nose, or the middle of the V. */
const toolOf = (fold: PartToFold, machine: Machine, bend: FlatBend): MarkTool =>
  machine.kind === 'press brake'
    ? { kind: 'v' }
    : { kind: 'nose', radiusMm: noseOf(fold, machine, bend).radiusMm };

/**
 * The nose that a bend is folded about: the one that the strips were measured with, where the part
 * goes by them, or one that the shop file names, or else a sharp one, assumed. The mark, the search
 * for contact and the pictures go by the same one.
 */
export const noseOf = (
  { bends, flat: { thicknessMm } }: PartToFold,
  machine: Folder,
  bend: FlatBend,
): FoldNose => {
  const own =
    bend.rule === 'measured'
      ? measuredRow(bends, { ...bend, thicknessMm })?.noseRadiusMm
      : undefined;
  const radiusMm = own ?? noseRadiusMm(machine, bend.insideRadiusMm);
  const isHem = bend.angleDeg >= HEM_DEG;
  const angleDeg = isHem ? hemSwingDeg(machine) : bend.angleDeg;
  return {
    radiusMm,
    gapMm: noseGapMm({ ...bend, thicknessMm, angleDeg }, radiusMm),
    basis: own === undefined && machine.noseRadiiMm === undefined ? 'assumed' : 'measured',
  };
};

/** A nose that stands this near to its place is left there, mm (common practice). */
const LEFT_ALONE_MM = 0.3;

/**
 * What comes of the nose as it stands now, by the gap that the shop has measured, where it is not
 * set anew for the first bend. A gap too small for the sheet pinches it and damages the jaw
 * (NAVEDTRA 14119, adjustment of a cornice brake: the jaw is set to the thickness at least).
 */
const noseNowNote = (fold: PartToFold, machine: Folder, bend: FlatBend): string[] => {
  const { value: nowMm, basis } = machine.noseSetbackMm;
  const { gapMm, radiusMm } = noseOf(fold, machine, bend);
  if (basis !== 'measured' || Math.abs(nowMm - gapMm) < LEFT_ALONE_MM || gapMm < 0) return [];
  const { thicknessMm } = fold.flat;
  const angleDeg = Math.min(bend.angleDeg, hemSwingDeg(machine));
  const leftMm = radiusAtGapMm({ thicknessMm, angleDeg }, nowMm, radiusMm);
  return [
    `the nose stands at a gap of ${figure(nowMm, 1)} mm, as measured: set it ${nowMm < gapMm ? 'back' : 'forward'} to ${figure(gapMm, 1)}, or ${leftMm < 0 ? 'it pinches the sheet' : `the radius comes out near ${figure(leftMm, 1)}`}`,
  ];
};

/** How far a hem is swung: as far as the machine goes, and then it is pressed flat. */
const hemSwingDeg = ({ maxAngleDeg }: Machine): number =>
  Math.min(HEM_SWING_DEG, maxAngleDeg?.value ?? HEM_SWING_DEG);

/**
 * How the dial or stop of the machine reads. Where strips say how much springs back, their angles
 * were read from that dial too, and how it reads is in them.
 */
const stopOf = (
  { bends, flat: { thicknessMm } }: PartToFold,
  { stopOffsetDeg }: Machine,
  bend: FlatBend,
): FoldStop =>
  bend.angleDeg < HEM_DEG && measuredSpringback(bends, { ...bend, thicknessMm }) !== undefined
    ? { offsetDeg: 0, basis: 'measured' }
    : {
        offsetDeg: stopOffsetDeg?.value ?? 0,
        basis: stopOffsetDeg?.basis === 'measured' ? 'measured' : 'assumed',
      };

/**
 * The angle that a fold is swung to. Hems are swung as far as the machine goes and then pressed
 * flat; nothing springs back from there.
 */
export const swingTo = (
  { material, bends, flat: { thicknessMm } }: PartToFold,
  machine: Machine,
  bend: FlatBend,
): number => {
  if (bend.angleDeg >= HEM_DEG) return hemSwingDeg(machine);
  const factor =
    measuredSpringback(bends, { ...bend, thicknessMm }) ??
    springbackOf(material, bend.insideRadiusMm, thicknessMm).factor;
  return stopAtDeg(bend.angleDeg, { factor });
};
