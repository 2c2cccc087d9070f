import { misses } from '../../model/measured.ts';
import { middle } from '../../geometry/vec2.ts';
import { allowanceMm } from '../../bending/bend.ts';
import { bumpOf } from '../../bending/bump.ts';
import { HEM_DEG, hemFormOf } from '../../bending/hem.ts';
import { ruleProblem } from '../../bending/rule.ts';
import { setbackMm } from '../../bending/setback.ts';
import { figure } from '../../text/figures.ts';
import type { BendRule } from '../../model/bend-rule.ts';
import { type Finding, note, warn } from '../../model/finding.ts';
import type { FlatBend } from '../../model/flat.ts';
import type { Machine } from '../../model/machine.ts';
import type { Part } from '../../model/part.ts';
import type { Rolls, WideBends } from '../../model/wide-bends.ts';
import type { FoldStep } from '../../contract/fold-plan.ts';
import { isFormed } from './is-formed.ts';
import { type GivenRadius, givenRadius } from './given-radius.ts';
import { CALLIPER_MM } from '../../bending/rule-findings.ts';

/** The bends of a part, with the rule that each was cut by. */
export interface CutBends {
  readonly part: Part;
  readonly bends: readonly FlatBend[];
  readonly rule: BendRule;
}

/**
 * Bends that were cut for a radius which the machine that folds them does not give, and what that
 * does to the length, and bends that are no stroke for their radius, by the steps that form them.
 * Slotted folds are not made on the machine, and hems are pressed flat; bends of the shop's own have
 * a radius that was measured.
 */
export const radiusFindings = (
  cut: CutBends,
  machine: Machine,
  steps: readonly FoldStep[],
  asked: WideBendsAsked = {},
): Finding[] => [
  ...toolFindings(cut, machine),
  ...cut.bends.flatMap((bend) => wideFindings(cut, bend, machine, steps, asked)),
];

/** What was asked for of wide bends, and the shop's rolls. */
export interface WideBendsAsked {
  readonly wideBends?: WideBends | undefined;
  readonly rolls?: readonly Rolls[] | undefined;
}

/** What is to be known of a bend that was asked for as a fold and is far wider than a tool makes it. */
function wideFindings(
  { part }: CutBends,
  bend: FlatBend,
  machine: Machine,
  steps: readonly FoldStep[],
  { wideBends, rolls = [] }: WideBendsAsked,
): Finding[] {
  const step = steps.find((s) => s.bend === bend.id);
  const fold = part.folds.find((f) => f.id === bend.id);
  const isNoStroke =
    step !== undefined &&
    fold !== undefined &&
    fold.slots === undefined &&
    isFormed(fold, bend, part.thicknessMm, machine);
  if (!isNoStroke) return [];
  const at = middle(...bend.centreLine);
  const { bump } = step;
  if (bump !== undefined && bump.doubts.length > 0)
    return [
      {
        ...warn(
          'bump-doubtful',
          `Fold ${bend.id}, bumped in ${bump.hits} hits: ${bump.doubts.join('; ')}. Give another number of hits (--wide-bends 24), form it round a pipe or bar (--wide-bends former), or have it rolled.`,
        ),
        inputs: ['radius'],
        at,
      },
    ];
  if (bend.angleDeg >= HEM_DEG || fold.rolled === true) return [];
  const how = step.note ?? '';
  if (wideBends !== undefined || step.way === 'in rolls')
    return [
      {
        ...note('formed-by-hand', `Fold ${bend.id} is no stroke of ${machine.id}: ${how}.`),
        at,
      },
    ];
  const given = givenRadius(machine, part.thicknessMm, bend.insideRadiusMm);
  return [
    {
      ...warn('radius-beyond-nose', beyondText(bend, part.thicknessMm, machine, step, rolls)),
      inputs: ['radius'],
      at,
      ...misses(bend.insideRadiusMm, given?.radiusMm ?? bend.insideRadiusMm, 0),
    },
  ];
}

/** What a bend beyond the nose comes to, and the ways out. */
const beyondText = (
  bend: FlatBend,
  thicknessMm: number,
  machine: Machine,
  { way }: FoldStep,
  rolls: readonly Rolls[],
): string => {
  const given = givenRadius(machine, thicknessMm, bend.insideRadiusMm);
  const { hits, angleDeg, pitchMm, standOffMm } = bumpOf({ ...bend, thicknessMm });
  const planned = way === 'bumped' ? 'planned as bumped' : 'planned by hand round a former';
  const mends = [
    `bump it in ${hits} hits of ${figure(angleDeg, 1)} deg, ${figure(pitchMm, 1)} mm apart, its corners ${figure(standOffMm, 2)} mm off the arc (--wide-bends bumped marks their lines in the file, --wide-bends 24 takes so many)`,
    rolls.length === 0
      ? 'roll it (the shop file names no rolls)'
      : 'roll it elsewhere, for the rolls of the shop do not take it',
    'form it round a pipe or bar (--wide-bends former)',
    ...(given === undefined
      ? []
      : [`give radius ${figure(given.radiusMm, 1)}, as ${given.by}, gives it`]),
  ];
  return `Fold ${bend.id}: inside radius ${figure(bend.insideRadiusMm)} is far beyond what ${machine.id} gives at one stroke; it is ${planned}. ${sentence(mends)}.`;
};

const sentence = (ways: readonly string[]): string =>
  ways
    .map((way, i) => (i === 0 ? `${way.charAt(0).toUpperCase()}${way.slice(1)}` : way))
    .join('; or ');

function toolFindings(cut: CutBends, machine: Machine): Finding[] {
  const off = cut.bends.flatMap((bend) => offBy(cut, bend, machine)).filter(isWorthAWord);
  const [first] = off;
  if (first === undefined) return [];
  const { bend, given, longMm } = first;
  const alike = off.filter((o) => o.bend.insideRadiusMm === bend.insideRadiusMm);
  const names = alike.map((o) => o.bend.id);
  const others = off
    .filter((o) => !alike.includes(o))
    .map(
      (o) => `${o.bend.id} for ${figure(o.bend.insideRadiusMm)} (${figure(o.given.radiusMm, 1)})`,
    );
  const all = off.reduce((sum, o) => sum + o.longMm, 0);
  const tool = machine.kind === 'press brake' ? `its V of ${figure(machine.vMm.value)}` : given.by;
  const mend =
    machine.kind === 'press brake'
      ? 'or another die'
      : machine.noseRadiiMm === undefined
        ? 'name the nose radii that there are (noseRadii in the shop file), or bend it about a bar'
        : 'put a rounder nose in, or bend it about a bar';
  return [
    {
      ...warn(
        'radius-not-given',
        `Fold${names.length === 1 ? '' : 's'} ${names.join(', ')}: cut for an inside radius of ${figure(bend.insideRadiusMm)}, but on ${machine.id} ${tool} gives about ${figure(given.radiusMm, 1)}${others.length === 0 ? '' : `; ${others.join(', ')}`}. Folded there, fold ${bend.id} comes out ${figure(Math.abs(longMm))} mm ${longMm > 0 ? 'long' : 'short'} over its two legs, and the blank is ${figure(Math.abs(all))} mm too ${all > 0 ? 'long' : 'short'} for all of them. Give radius ${figure(given.radiusMm, 1)}, ${mend}.`,
      ),
      inputs: ['radius'],
      at: middle(...bend.centreLine),
      ...misses(bend.insideRadiusMm, given.radiusMm, 0),
    },
  ];
}

interface OffRadius {
  readonly bend: FlatBend;
  readonly given: GivenRadius;
  /** How much too long the two legs come out together. */
  readonly longMm: number;
}

const offBy = ({ part, rule }: CutBends, bend: FlatBend, machine: Machine): OffRadius[] => {
  const fold = part.folds.find((f) => f.id === bend.id);
  const { thicknessMm } = part;
  const isByHand =
    fold?.slots !== undefined ||
    bend.midSurface === true ||
    bend.angleDeg === 0 ||
    (fold !== undefined && isFormed(fold, bend, thicknessMm, machine));
  if (isByHand || bend.rule === 'measured' || hemFormOf({ ...bend, thicknessMm }) !== undefined)
    return [];
  const given = givenRadius(machine, thicknessMm, bend.insideRadiusMm);
  if (given === undefined) return [];
  const lost = (radiusMm: number): number =>
    deductionMm(fold?.rule ?? rule, bend, thicknessMm, radiusMm);
  return [{ bend, given, longMm: lost(given.radiusMm) - lost(bend.insideRadiusMm) }];
};

/** A radius this many times the one that the tool makes is seen by anybody (common practice). */
const SEEN_TIMES = 4;

const isWorthAWord = ({ bend, given, longMm }: OffRadius): boolean =>
  Math.abs(longMm) >= CALLIPER_MM || bend.insideRadiusMm > SEEN_TIMES * given.radiusMm;

/**
 * Deduction of outside dimensions, with another inside radius than the bend was cut for. It uses
 * the bend's own K where the rule has none for that radius.
 */
const deductionMm = (
  rule: BendRule,
  bend: FlatBend,
  thicknessMm: number,
  insideRadiusMm: number,
): number => {
  const { angleDeg, kFactor } = bend;
  const with0 = { thicknessMm, insideRadiusMm, angleDeg };
  const by: BendRule = ruleProblem(rule, with0) === undefined ? rule : { id: 'k', k: kFactor };
  return 2 * setbackMm(angleDeg, insideRadiusMm, thicknessMm, 'outside') - allowanceMm(by, with0);
};
