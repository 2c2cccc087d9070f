import { HEM_DEG } from '../../bending/hem.ts';
import { airForceKnPerM } from '../../bending/v-die.ts';
import { figure } from '../../text/figures.ts';
import type { FlatBend, FlatPattern } from '../../model/flat.ts';
import type { Machine } from '../../model/machine.ts';
import type { Material } from '../../model/material.ts';
import type { Move } from '../search/cheapest.ts';
import { tips } from '../search/cost.ts';
import type { Lattice } from '../search/lattice.ts';
import type { Stroke } from '../search/stroke.ts';
import { openingNotes } from './opening-notes.ts';
import { isCrease } from '../machines/helps.ts';
import { noseRadiusMm, SAME_RADIUS_MM } from '../machines/nose.ts';
import { givenRadius } from './given-radius.ts';
import type { InTwo } from '../../contract/fold-plan.ts';
import type { PartToFold } from './plan-steps.ts';

/** A step of a plan: the folds it makes, by their ids, and its place in the search. */
export interface Step {
  readonly ids: readonly string[];
  readonly inTwo: InTwo | undefined;
  readonly lattice: Lattice;
  readonly move: Move;
  /** The folds made before, as bits. */
  readonly made: number;
}

/** What else there is to know at a step. */
export const stepNotes = (fold: PartToFold, machine: Machine, step: Step): string[] => {
  const { lattice, move } = step;
  if (lattice.strokes[move.stroke]?.rules.help === 'over a block')
    return bendNamed(fold.flat, step.ids[0] as string).angleDeg >= HEM_DEG ? [FLATTEN] : [];
  return [
    ...bendNotes(fold, machine, step),
    ...tipNote(fold, machine, step),
    ...openingNotes(fold, machine, step),
  ];
};

const FLATTEN = 'then press it flat under the clamp or with a mallet';

const CREASE = 'a crease: to a card of its angle';

const bendNotes = (
  { flat, material }: PartToFold,
  machine: Machine,
  { ids, inTwo }: Step,
): string[] => {
  const bends = ids.map((id) => bendNamed(flat, id));
  const [first] = bends as [FlatBend];
  return [
    ...(ids.length > 1 ? ['all at one stroke'] : []),
    ...(isCrease(first) ? [CREASE] : []),
    ...(first.angleDeg >= HEM_DEG && inTwo?.stroke !== 1 ? [FLATTEN] : []),
    ...(first.angleDeg >= HEM_DEG || first.rule === 'measured'
      ? []
      : radiusNote(machine, flat.thicknessMm, first.insideRadiusMm)),
    ...(machine.kind === 'press brake'
      ? [
          `about ${figure(forceKn(flat, material, machine.vMm.value, bends), 0)} kN over a V of ${figure(machine.vMm.value)}`,
          ...(machine.punches.length > 1 ? [`punch ${machine.punch}`] : []),
        ]
      : []),
  ];
};

/**
 * Parts heavier than this are mentioned, kg: common practice for what one hand steadies at arm's
 * length.
 */
const HEAVY_KG = 5;

/** A note that the part tips. On a brake a part is held by hand in any case. */
const tipNote = (
  { flat, material }: PartToFold,
  machine: Machine,
  { lattice: { net, strokes }, move: { stroke, placement }, made }: Step,
): string[] => {
  const massKg = (flat.areaMm2 * flat.thicknessMm * material.densityKgM3.value) / 1e9;
  const isTold =
    machine.kind === 'folder' &&
    massKg >= HEAVY_KG &&
    tips(net, strokes[stroke] as Stroke, placement, made);
  return isTold
    ? [`${figure(massKg, 0)} kg that tip off the bed when the clamp opens: have them held`]
    : [];
};

/**
 * A note where the tool gives another radius than the bend was cut for, and where a nose has to be
 * set back for it.
 */
function radiusNote(machine: Machine, thicknessMm: number, askedMm: number): string[] {
  const given = givenRadius(machine, thicknessMm, askedMm);
  if (given !== undefined)
    return [
      `${given.by} gives a radius of about ${figure(given.radiusMm, 1)} inside, not ${figure(askedMm, 1)}`,
    ];
  if (machine.kind === 'press brake' || machine.noseRadiiMm === undefined) return [];
  const nose = noseRadiusMm(machine, askedMm);
  return askedMm - nose <= SAME_RADIUS_MM
    ? []
    : [
        `the nose nearest to radius ${figure(askedMm, 1)} has ${figure(nose, 1)}: set it back for the rest`,
      ];
}

const forceKn = (
  flat: FlatPattern,
  material: Material,
  openingMm: number,
  bends: readonly FlatBend[],
): number =>
  (airForceKnPerM(strengthMpa(material), flat.thicknessMm, openingMm) *
    bends.reduce((sum, b) => sum + bendLengthMm(b), 0)) /
  1000;

/**
 * The greatest tensile strength that the sheet may have, so that the force is not underestimated.
 */
export const strengthMpa = ({
  tensileMpa: {
    value: [least, most],
  },
}: Material): number => most ?? least;

export const bendLengthMm = ({ centreLine: [p, q] }: FlatBend): number =>
  Math.hypot(q[0] - p[0], q[1] - p[1]);

export const bendNamed = (flat: FlatPattern, id: string): FlatBend =>
  flat.bends.find((b) => b.id === id) as FlatBend;
