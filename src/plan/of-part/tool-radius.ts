import { misses } from '../../model/measured.ts';
import { middle } from '../../geometry/vec2.ts';
import { allowanceMm } from '../../bending/bend.ts';
import { hemFormOf } from '../../bending/hem.ts';
import { ruleProblem } from '../../bending/rule.ts';
import { setbackMm } from '../../bending/setback.ts';
import { airRadiusMm } from '../../bending/v-die.ts';
import { figure } from '../../text/figures.ts';
import type { BendRule } from '../../model/bend-rule.ts';
import { type Finding, warn } from '../../model/finding.ts';
import type { FlatBend } from '../../model/flat.ts';
import type { Folder, Machine } from '../../model/machine.ts';
import type { Part } from '../../model/part.ts';
import { noseRadiusMm } from '../machines/nose.ts';
import { isBow } from './part-net.ts';
import { CALLIPER_MM } from '../../bending/rule-findings.ts';

/**
 * The radius that a machine gives in place of the one that a bend was cut for, and what gives it.
 */
export interface GivenRadius {
  readonly radiusMm: number;
  readonly by: string;
}

/**
 * The inside radius that a bend gets; `undefined` where it is about the one asked for. A V gives
 * mild steel 5 V / 32, whatever was asked for. A folder gives at least the radius of its nose, and
 * more as the nose is set back: published instructions set it back by 1 to 2 t, which makes a
 * radius of up to t more (setback = t + r - nose radius). Where the shop file names no noses, sharp
 * ones are assumed.
 */
export function givenRadius(
  machine: Machine,
  thicknessMm: number,
  askedMm: number,
): GivenRadius | undefined {
  const given =
    machine.kind === 'press brake'
      ? { radiusMm: airRadiusMm(machine.vMm.value), by: 'this V' }
      : byNose(machine, thicknessMm, askedMm);
  const share =
    machine.kind === 'folder' && machine.noseRadiiMm === undefined ? UNNAMED_SHARE : CLOSE_SHARE;
  return Math.abs(given.radiusMm - askedMm) <= Math.max(CLOSE_MM, share * askedMm)
    ? undefined
    : given;
}

/** Nobody can predict a radius more closely than this, mm. */
const CLOSE_MM = 0.5;
const CLOSE_SHARE = 0.25;

/**
 * Noses that the shop does not name may have a radius of their own, so only a radius well above
 * what a sharp one gives is reported.
 */
const UNNAMED_SHARE = 0.5;

const byNose = (machine: Folder, thicknessMm: number, askedMm: number): GivenRadius => {
  if (machine.noseRadiiMm === undefined)
    return {
      radiusMm: Math.min(askedMm, thicknessMm),
      by: 'a sharp nose, set back as far as usual',
    };
  const nose = noseRadiusMm(machine, askedMm);
  return {
    radiusMm: Math.min(Math.max(askedMm, nose), nose + thicknessMm),
    by: `the nose of radius ${figure(nose)}, set back as far as usual`,
  };
};

/** The bends of a part, with the rule that each was cut by. */
export interface CutBends {
  readonly part: Part;
  readonly bends: readonly FlatBend[];
  readonly rule: BendRule;
}

/**
 * Bends that were cut for a radius which the machine that folds them does not give, and what that
 * does to the length. Bows and slotted folds are not made on the machine, and hems are pressed
 * flat; bends of the shop's own have a radius that was measured.
 */
export function radiusFindings(cut: CutBends, machine: Machine): Finding[] {
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
    isBow(bend, thicknessMm);
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
