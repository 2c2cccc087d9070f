import { SAME_LENGTH_MM } from '../geometry/tolerance.ts';
import type { Material } from './material.ts';

export interface Rectangle {
  readonly length: number;
  readonly width: number;
}

/** Which way the grain of a sheet runs: along its length, or across it. */
export const GRAINS = ['along', 'across'] as const;
export type Grain = (typeof GRAINS)[number];

export interface SheetSize extends Rectangle {
  readonly name?: string | undefined;
  /** Family or id of the material. */
  readonly material?: string | undefined;
  readonly thickness?: number | undefined;
  /** How many are there; nobody counts them when left out. */
  readonly count?: number | undefined;
  /** Price in the shop's own currency. */
  readonly price?: number | undefined;
  readonly grain?: Grain | undefined;
}

/**
 * What was left of a sheet, as the file describes it: a rectangle by length and width, or an
 * outline, or the DXF file that has one. Length lies along x, width along y.
 */
export interface Remnant {
  /** What is chalked on it. */
  readonly name: string;
  /** Family or id of the material. */
  readonly material: string;
  readonly thickness: number;
  readonly length?: number | undefined;
  readonly width?: number | undefined;
  /** Its points as `readOutline` reads them. */
  readonly outline?: string | undefined;
  /** Name of a DXF file beside the shop file, holes included. */
  readonly dxf?: string | undefined;
  readonly holes?: readonly RemnantHole[] | undefined;
  /** Along x of its outline, or across. */
  readonly grain?: Grain | undefined;
  readonly price?: number | undefined;
}

/** What is cut out of a remnant already: a round hole by its middle, or any by its outline. */
export interface RemnantHole {
  readonly x?: number | undefined;
  readonly y?: number | undefined;
  readonly diameter?: number | undefined;
  readonly outline?: string | undefined;
}

/** Whether a sheet or remnant may be taken for parts of a material, by id or family. */
export const isOfSheet = (
  metal: { readonly material?: string | undefined; readonly thickness?: number | undefined },
  of: { readonly id: string; readonly family: Material['family'] },
  thickness: number,
): boolean =>
  (metal.material === undefined || metal.material === of.family || metal.material === of.id) &&
  (metal.thickness === undefined || Math.abs(metal.thickness - thickness) < SAME_LENGTH_MM);
