import { DEFAULT_SHOP } from '../../data/shop-default.ts';
import { type CutterImport, importFor, type Shop } from '../../model/shop.ts';
import type { FitOptions } from './part-fit.ts';
import type { Way } from '../../forms/making.ts';

/** How parts are made; all of it may be left out. */
export interface MakeOptions extends Way {
  /** Whose machines and sheets the part is checked against; an assumed small shop when left out. */
  readonly shop?: Shop | undefined;
  /** Whether it is asked how well the part is likely to fit, and how. */
  readonly fit?: FitOptions | undefined;
}

/** The same with what is left out filled in, and what the program of the cutter wants of a file. */
export interface TakenOptions extends MakeOptions {
  readonly cutOnly: boolean;
  readonly dxfVersion: NonNullable<Way['dxfVersion']>;
  readonly form: CutterImport;
}

/**
 * The options as the program of the cutter takes their files: lines that it would cut are worse
 * than none.
 */
export const takenOptions = (options: MakeOptions, thicknessMm: number): TakenOptions => {
  const form = importFor(options.shop ?? DEFAULT_SHOP, thicknessMm);
  return {
    ...options,
    form,
    dxfVersion: options.dxfVersion ?? 'r2000',
    cutOnly: options.cutOnly === true || form.foldLines === 'out' || form.layers === 'merged',
  };
};
