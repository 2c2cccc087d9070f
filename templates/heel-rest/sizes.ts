import { leastRadiusMm, setbackMm } from '../../src/template.ts';
import type { HeelRest } from './inputs.ts';

export type Side = 'left' | 'right';

export const PLACES = ['front', 'rear'] as const;
export type Place = (typeof PLACES)[number];

/** The inputs that ask for a flange at either end. */
export const FLANGE_INPUT = { front: 'flangeFront', rear: 'flangeRear' } as const;

/** Angle between tread and floor. */
export const wedgeDeg = (v: HeelRest): number => Math.abs(v.treadAngle - v.floorAngle);

/** The end at which the tread stands higher over the floor. */
export const highEnd = (v: HeelRest): Place => (v.treadAngle >= v.floorAngle ? 'front' : 'rear');
export const lowEnd = (v: HeelRest): Place => (highEnd(v) === 'front' ? 'rear' : 'front');

/**
 * The end to which the heel slides: down the tread, or, on a level one, where the floor falls to;
 * the rear when all is level.
 */
export const stopEnd = (v: HeelRest): Place => {
  if (v.lipPlace !== 'low') return v.lipPlace;
  const fall = v.treadAngle === 0 ? v.floorAngle : v.treadAngle;
  return fall < 0 ? 'front' : 'rear';
};

export const flangeOf = (v: HeelRest, place: Place): number =>
  place === 'front' ? v.flangeFront : v.flangeRear;

/**
 * Whether an end has a riser: a wedge has one at its high end, and one that is lifted off the floor
 * has two.
 */
export const hasRiser = (v: HeelRest, place: Place): boolean => place === highEnd(v) || v.lift > 0;

/**
 * The stop at an end. It cannot share its edge with a flange or a riser unless it is folded double.
 */
export const lipAt = (v: HeelRest, place: Place): 'none' | 'single' | 'double' => {
  if (v.lipHeight === 0 || stopEnd(v) !== place) return 'none';
  if (v.lipFold !== 'auto') return v.lipFold;
  return hasRiser(v, place) || flangeOf(v, place) > 0 ? 'double' : 'single';
};

export const cheekSides = (v: HeelRest): readonly Side[] =>
  (['left', 'right'] as const).filter((side) => v.cheeks === side || v.cheeks === 'both');

/** Radius of the hem: a fold right over needs a larger radius than a square one. */
export const hemRadiusMm = (v: HeelRest): number =>
  v.hemRadius ?? Math.max(leastRadiusMm(v.material, v.thicknessMm, 180), v.insideRadiusMm);

export const setbackOf = (v: HeelRest, angleDeg: number, radiusMm: number): number =>
  setbackMm(angleDeg, radiusMm, v.thicknessMm, 'outside');

export const setback90Mm = (v: HeelRest): number => setbackOf(v, 90, v.insideRadiusMm);

/** Room for a relief beside the end of a fold, as wide as `assemble` makes it. */
export const notchMm = (v: HeelRest): number => Math.max(v.thicknessMm, v.leastSlotMm);
