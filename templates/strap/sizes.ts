import type { CommonValues, HoleSpec } from '../../src/template.ts';

export interface Strap extends CommonValues {
  readonly over: 'box' | 'round';
  readonly across: number;
  readonly height: number;
  readonly rubber: number;
  readonly width: number;
  readonly boltCentres: number;
  readonly boltHole: number;
  readonly beyond: number;
  readonly pullUp: number;
  readonly holesCrown: readonly HoleSpec[];
  readonly holesA: readonly HoleSpec[];
  readonly holesB: readonly HoleSpec[];
}

/** Between the inside faces of the two sides. */
export const insideMm = (v: Strap): number => v.across + 2 * v.rubber;

/**
 * From the inside face of a side, which is the mould line of its foot, to the centre of the bolt.
 */
export const boltFromSideMm = (v: Strap): number => (v.boltCentres - insideMm(v)) / 2;
