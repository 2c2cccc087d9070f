import type { Material } from './material.ts';

/** How bends are formed that are far wider than a tool makes them. */
export type WideBends =
  | { readonly way: 'rolled' }
  /** By hand round a pipe, a bar or another former. */
  | { readonly way: 'former' }
  /** As a row of slight bends: so many, or as many as keep their corners so near to the arc. */
  | {
      readonly way: 'bumped';
      readonly hits?: number | undefined;
      readonly standOffMm?: number | undefined;
    };

/** Rolls that sheet is rounded in, as a shop file describes them. Lengths in mm. */
export interface Rolls {
  readonly name: string;
  /** Width of the widest sheet that goes in, along the rolls. */
  readonly width: number;
  /** Inside diameter of the tightest round that they roll. */
  readonly leastDiameter: number;
  /** Thickest mild steel that they roll over their whole width. */
  readonly capacity: number;
  /** Thickest sheet of other families; by its strength where left out. */
  readonly capacities?:
    readonly { readonly material: Material['family']; readonly thickness: number }[] | undefined;
}
