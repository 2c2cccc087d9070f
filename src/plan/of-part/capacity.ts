import { airForceKnPerM, LEAST_OPENING } from '../../bending/v-die.ts';
import { figure } from '../../text/figures.ts';
import {
  BARE_LEAF_DERATING,
  deratingOf,
  FINGER_DERATING,
  leastFlangeMm,
  longestBendMm,
  MOST_OVER_RATING,
  ratingByFoldMm,
} from '../machines/bend-capacity.ts';
import { findMaterial } from '../../data/materials.ts';
import type { FlatBend } from '../../model/flat.ts';
import type { Capacity, Folder, HardestFold, Machine, PressBrake } from '../../model/machine.ts';
import type { Material } from '../../model/material.ts';
import { HEM_DEG } from '../../bending/hem.ts';
import { NOISE_DEG, NOISE_MM } from '../../geometry/tolerance.ts';
import { isByEye } from './by-eye.ts';
import { isFormed } from './is-formed.ts';
import { bendLengthMm, bendNamed, strengthMpa } from './step-notes.ts';
import { type PartToFold, swingTo } from './plan-steps.ts';

/** A fold that a machine is too weak or too short for, and the reason. */
export interface Beyond {
  readonly bend: string;
  readonly reason: string;
}

/**
 * Folds that are longer than the machine, or of sheet too thick or too strong for it. Folds made by
 * hand put no load on it.
 */
export function beyondCapacity(fold: PartToFold, machine: Machine): Beyond[] {
  const { part, flat, material } = fold;
  const byHand = new Set(
    part.folds
      .filter(
        (f) =>
          f.slots !== undefined ||
          f.angleDeg === 0 ||
          isFormed(f, bendNamed(flat, f.id), flat.thicknessMm, machine) ||
          isByEye(fold, f, bendNamed(flat, f.id)),
      )
      .map((f) => f.id),
  );
  return flat.bends
    .filter(({ id }) => !byHand.has(id))
    .flatMap((bend) => {
      const reason =
        tooSteep(fold, bend, machine) ??
        tooLong(bend, machine) ??
        tooThickToGoIn(flat.thicknessMm, machine) ??
        tooThick(bend, flat.thicknessMm, material, machine) ??
        (machine.kind === 'press brake'
          ? tooMuchForDie(flat.thicknessMm, material, machine)
          : undefined);
      return reason === undefined ? [] : [{ bend: bend.id, reason }];
    });
}

/** Why an angle is too steep: the leaf or the punch has to go past it by what springs back. */
const tooSteep = (fold: PartToFold, bend: FlatBend, machine: Machine): string | undefined => {
  const most = machine.maxAngleDeg?.value;
  if (most === undefined || bend.angleDeg >= HEM_DEG) return undefined;
  const stopDeg = swingTo(fold, machine, bend);
  if (stopDeg <= most + NOISE_DEG) return undefined;
  return bend.angleDeg > most
    ? `${figure(bend.angleDeg)} deg is more than the machine's ${figure(most)} deg`
    : `${figure(bend.angleDeg)} deg takes a stop at ${figure(stopDeg, 1)} deg, which springs back; the machine goes to ${figure(most)} deg`;
};

const tooLong = (bend: FlatBend, { workingLengthMm: { value } }: Machine): string | undefined => {
  const long = bendLengthMm(bend);
  return long > value
    ? `the fold is ${figure(long, 0)} mm long, the machine ${figure(value, 0)} mm`
    : undefined;
};

/** Why a sheet does not go in at all, where it is known how far the clamp opens. */
const tooThickToGoIn = (t: number, machine: Machine): string | undefined => {
  const open = machine.kind === 'folder' ? machine.clampOpeningMm?.value : undefined;
  return open !== undefined && t >= open
    ? `the clamp opens ${figure(open)} mm, and the sheet is ${figure(t)} mm thick`
    : undefined;
};

/**
 * Why a sheet is too thick. It goes by what the machine's data say of shorter folds, and otherwise
 * by the moment, which grows with the length.
 */
function tooThick(
  bend: FlatBend,
  t: number,
  material: Material,
  machine: Machine,
): string | undefined {
  const long = bendLengthMm(bend);
  const own = ownFigures(machine, material);
  const whole = ratedMm(machine, material);
  const shorter = own.filter((c) => c.length !== undefined);
  const what = `${figure(t)} mm ${material.name}`;
  if (shorter.length > 0) {
    const most = Math.max(
      whole ?? 0,
      ...shorter.filter((c) => (c.length ?? 0) >= long).map((c) => c.thickness),
    );
    return t > most
      ? `the machine takes ${figure(most)} mm of that sheet over ${figure(long, 0)} mm, by its own figures; this is ${what}`
      : undefined;
  }
  if (whole === undefined) return undefined;
  const rated = ratingOf(machine, material, whole);
  const over = Math.max(MOST_OVER_RATING * whole, rated.mostMm);
  const hardest = own.length > 0 ? undefined : machine.hardestFold?.value;
  const by =
    hardest === undefined
      ? `it is rated for ${figure(whole)} mm of it over its whole length`
      : `by the hardest fold it has made, ${hardestText(hardest)}, it takes ${figure(whole)} mm of it over its whole length`;
  if (t > over)
    return `${what} is more than the machine takes, however short the fold: ${by}, and ${figure(over)} mm is the most over a short one`;
  const most = longestBendMm(rated, t, deratingAsSet(machine, material));
  return long > most + NOISE_MM
    ? `the machine bends ${what} over ${figure(most, 0)} mm at most${isWithFingers(machine, material) ? ' with its fingers in' : ''}${isWithoutBar(machine) ? ' without the bar of its leaf' : ''}; the fold is ${figure(long, 0)} mm long${hardest === undefined ? '' : ` (${by})`}`
    : undefined;
}

const hardestText = ({ material, thickness, length }: HardestFold): string =>
  `${figure(thickness)} mm ${material}${length === undefined ? '' : ` over ${figure(length, 0)} mm`}`;

/** What the longest bend goes by (`longestBendMm`). */
const ratingOf = (machine: Machine, material: Material, whole: number) => ({
  lengthMm: machine.workingLengthMm.value,
  thicknessMm: whole,
  mostMm: hardestMm(machine, material),
});

/**
 * The most mm of folds that a machine bends at one stroke, which is that of one fold: folds on one
 * line that are made together load it together.
 */
export const mostFoldMm = (
  { flat: { thicknessMm: t }, material }: PartToFold,
  machine: Machine,
): number => {
  const shorter = ownFigures(machine, material).filter((c) => c.length !== undefined);
  const whole = ratedMm(machine, material);
  if (shorter.length > 0)
    return whole !== undefined && t <= whole
      ? Infinity
      : Math.max(0, ...shorter.filter((c) => t <= c.thickness).map((c) => c.length ?? 0));
  return whole === undefined
    ? Infinity
    : longestBendMm(ratingOf(machine, material, whole), t, deratingAsSet(machine, material)) +
        NOISE_MM;
};

/** Share of its rating that a machine takes with its fingers in and without the bar of its leaf. */
const deratingAsSet = (machine: Machine, material: Material): number =>
  (isWithFingers(machine, material) ? FINGER_DERATING : 1) *
  (isWithoutBar(machine) ? BARE_LEAF_DERATING : 1);

// A figure of the shop's own was found with the fingers in.
const isWithFingers = (machine: Machine, material: Material): boolean =>
  ownFigures(machine, material).every((c) => c.length !== undefined) && hasFingers(machine);

const isWithoutBar = (machine: Machine): boolean =>
  machine.kind === 'folder' && !machine.isLeafBarFitted.value;

const ownFigures = ({ capacities = [] }: Machine, { family }: Material): readonly Capacity[] =>
  capacities.filter((c) => c.material === family);

const hasFingers = (machine: Machine): boolean =>
  machine.kind === 'folder' && machine.clamp.kind === 'fingers';

/**
 * Thickest sheet of a material that a machine takes over its whole length, mm: by a figure of the
 * shop's own for that material, or else by its rating for mild steel, for which the hardest fold
 * that it has made stands, where that is known (`ratingByFoldMm`).
 */
const ratedMm = (machine: Machine, material: Material): number | undefined => {
  const own = ownFigures(machine, material).find((c) => c.length === undefined)?.thickness;
  const steel = byHardestMm(machine) ?? machine.capacityMm?.value;
  return own ?? (steel === undefined ? undefined : steel * deratingOf(material).factor);
};

/** The rating in mild steel that the hardest fold shows, as the machine was set up for it. */
const byHardestMm = (machine: Machine): number | undefined => {
  const made = machine.hardestFold?.value;
  if (made === undefined) return undefined;
  const { thickness, length = machine.workingLengthMm.value, leafBarFitted = true } = made;
  return ratingByFoldMm(
    { thicknessMm: thickness, lengthMm: length, factor: factorOf(made) },
    machine.workingLengthMm.value,
    (hasFingers(machine) ? FINGER_DERATING : 1) * (leafBarFitted ? 1 : BARE_LEAF_DERATING),
  );
};

/** The hardest fold as a thickness of another material. */
const hardestMm = ({ hardestFold }: Machine, material: Material): number =>
  hardestFold === undefined
    ? 0
    : (hardestFold.value.thickness * deratingOf(material).factor) / factorOf(hardestFold.value);

const factorOf = ({ material }: HardestFold): number => {
  const found = findMaterial(material);
  return found.ok ? deratingOf(found.value).factor : 1;
};

/** Least flange that the leaf of a folder can fold, by its rating, mm from the hinge. */
export const leastFlangeFor = (
  { flat: { thicknessMm }, material }: PartToFold,
  machine: Folder,
  bend: FlatBend,
): number => {
  const rated = ratedMm(machine, material);
  return rated === undefined
    ? 0
    : leastFlangeMm(
        { lengthMm: machine.workingLengthMm.value, thicknessMm: rated },
        thicknessMm,
        bendLengthMm(bend),
      );
};

function tooMuchForDie(
  t: number,
  material: Material,
  { vMm, forcePerMetreKn }: PressBrake,
): string | undefined {
  if (vMm.value < LEAST_OPENING * t)
    return `its widest V of ${figure(vMm.value)} is for sheet up to ${figure(vMm.value / LEAST_OPENING)} mm; this is ${figure(t)} mm`;
  if (forcePerMetreKn === undefined) return undefined;
  const force = airForceKnPerM(strengthMpa(material), t, vMm.value);
  return force <= forcePerMetreKn.value
    ? undefined
    : `it takes ${figure(force, 0)} kN a metre over a V of ${figure(vMm.value)}, the machine presses ${figure(forcePerMetreKn.value, 0)}`;
}
