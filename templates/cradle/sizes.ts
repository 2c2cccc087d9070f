import { tanDeg } from '../../src/template.ts';
import type { Strap } from '../strap/inputs.ts';
import type { Cradle } from './inputs.ts';

/** How deep the tank is at a place: along from its left end, across from the side away from the rail. */
export const depthAt = (v: Cradle, alongMm: number, acrossMm: number): number =>
  v.depth + tanDeg(v.slopeAlong) * alongMm + tanDeg(v.slopeAcross) * acrossMm;

/** From a side of the tank to the inside of the strap beside it. */
export const besideMm = (v: Cradle): number => v.rubber + v.clearance;

/** Between the insides of the two sides of a strap. */
export const insideMm = (v: Cradle): number => v.width + 2 * besideMm(v);

/** From the inside of a strap's side to the bolt through its foot. */
export const boltFromSideMm = (v: Cradle): number => (v.boltCentres - insideMm(v)) / 2;

/** Where the bolts at the rail stand, from the side of the tank away from it. */
export const railBoltMm = (v: Cradle): number => v.width + besideMm(v) + boltFromSideMm(v);

/**
 * A strap of the cradle, turned over: the floor of the tank is the top of the box that it goes over.
 * Its foot A is bolted to the chassis and its foot B to the rail, whose flange lies between that and
 * the chassis. Turned over, its left edge lies to the right.
 */
export const strapAt = (v: Cradle, alongMm: number): Strap => ({
  ...v,
  otherHand: undefined,
  over: 'box',
  across: v.width + 2 * v.clearance,
  height: v.drop + depthAt(v, alongMm, -v.clearance),
  heightB: undefined,
  slopeAlong: -v.slopeAlong,
  stepB: v.thicknessMm,
  width: v.strapWidth,
  holesA: [],
  holesB: [],
  holesCrown: [],
});

/** Where the middles of both straps lie, from the left end of the tank. */
export const strapPlaces = (v: Cradle): readonly [left: number, right: number] => [
  v.leftStrap,
  v.length - v.rightStrap,
];

/** Whether both straps are the same. */
export const areAlike = (v: Cradle): boolean => v.slopeAlong === 0;

/** What both straps are called as pieces. */
export const strapNames = (v: Cradle): readonly [left: string, right: string] =>
  areAlike(v) ? ['strap', 'strap'] : ['strap-1', 'strap-2'];

/**
 * The rail over its outside, from the free edge of its flange: where its bolts stand, and how wide it
 * is. The feet end where its bend begins; its free edge reaches no farther than their sides.
 */
export const railFlange = (v: Cradle): { readonly boltMm: number; readonly wideMm: number } => {
  const boltMm = Math.min(v.beyond, boltFromSideMm(v));
  return {
    boltMm,
    wideMm: boltMm + v.beyond + v.clearance + v.insideRadiusMm + v.thicknessMm,
  };
};

/** Where the rail begins and ends, from the left end of the tank. */
export const railEnds = (v: Cradle): readonly [from: number, to: number] => [
  Math.min(v.chassisAt, strapPlaces(v)[0]) - v.railBeyond,
  Math.max(v.chassisAt + v.chassisPitch, strapPlaces(v)[1]) + v.railBeyond,
];
