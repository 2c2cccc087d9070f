import { DEFAULT_SHOP } from '../../data/shop-default.ts';
import { type CutterImport, importFor, type Shop } from '../../model/shop.ts';
import type { FitOptions } from './part-fit.ts';
import type { FoldAt } from '../../plan/of-part/shop-plan.ts';

/** How parts are made; all of it may be left out. */
export interface MakeOptions {
  /** Leaves just what is cut on the drawings; all is drawn when left out. */
  readonly cutOnly?: boolean | undefined;
  /** The dialect of the DXF; that of release 2000 when left out. */
  readonly dxfVersion?: 'r2000' | 'r12' | undefined;
  /** Whose machines and sheets the part is checked against; an assumed small shop when left out. */
  readonly shop?: Shop | undefined;
  /** Where it is folded; in the shop where its machines can, when left out. */
  readonly foldAt?: FoldAt | undefined;
  /**
   * Width of the cut that the table does not allow for by itself, mm, or that of the shop's cutter;
   * 0 when left out.
   */
  readonly kerf?: number | 'shop' | undefined;
  /**
   * How fold lines come onto the metal: lines to be marked, nicks at their ends, or not at all; as
   * the shop has it when left out.
   */
  readonly marks?: Shop['marking']['folds'] | undefined;
  /**
   * How the middles of holes that are drilled come onto it; as the shop has it when left out,
   * pierced where only cuts are drawn.
   */
  readonly drilled?: Shop['marking']['drilled'] | undefined;
  /** Whether it is asked how well the part is likely to fit, and how. */
  readonly fit?: FitOptions | undefined;
}

/** The same with what is left out filled in, and what the program of the cutter wants of a file. */
export interface TakenOptions extends MakeOptions {
  readonly cutOnly: boolean;
  readonly dxfVersion: 'r2000' | 'r12';
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
