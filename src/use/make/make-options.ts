import { DEFAULT_SHOP } from '../../data/shop-default.ts';
import { shown } from '../../forms/given.ts';
import type { Way } from '../../forms/making.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { Material } from '../../model/material.ts';
import {
  cutBy,
  cuttersCalled,
  cutterFor,
  holdsCutsAlone,
  importFor,
  type FoldAt,
  kerfOf,
  type Shop,
} from '../../model/shop.ts';
import type { WideBends } from '../../model/wide-bends.ts';
import type { DrawingForm, DxfVersion } from '../made-part.ts';
import type { FitOptions } from '../fit/part-fit.ts';
import type { Apart } from './hands-apart.ts';

/** How parts are made; everything may be left out. */
export interface MakeOptions extends Way {
  /**
   * The shop against whose machines and sheets the part is checked; an assumed small shop when left
   * out.
   */
  readonly shop?: Shop | undefined;
  /** Options for how well the part is likely to fit, where that is asked for. */
  readonly fit?: FitOptions | undefined;
}

/**
 * The same options with everything that was left out filled in, except the sheet, which the inputs
 * name.
 */
export interface FilledOptions {
  readonly cutOnly: boolean;
  readonly dxfVersion: DxfVersion;
  readonly shop: Shop;
  readonly foldAt: FoldAt;
  readonly byMachineOnly: boolean;
  readonly kerf: number | 'shop';
  readonly marks: Shop['marking']['folds'];
  readonly drilled: Shop['marking']['drilled'];
  readonly fit: FitOptions | undefined;
  readonly makeFoldable: boolean;
  /** What sizes are to be measured from; nothing where that is left to the program. */
  readonly datum: readonly string[];
  /** Which hand this is, where both are made and differ. */
  readonly apart?: Apart;
  /** How wide bends are formed; nothing where that is left to the plan. */
  readonly wideBends: WideBends | undefined;
}

/**
 * The options, filled in from the shop or with what is usual. This is the one place where that is
 * decided.
 */
export const filledOptions = ({
  cutOnly = false,
  dxfVersion = 'r2000',
  shop = DEFAULT_SHOP,
  foldAt = 'auto',
  byMachineOnly = false,
  kerf = 0,
  marks = shop.marking.folds,
  drilled = shop.marking.drilled,
  fit,
  makeFoldable = false,
  datum = [],
  wideBends,
  cutWith,
}: MakeOptions): FilledOptions => ({
  cutOnly,
  dxfVersion,
  shop: cutBy(shop, cutWith),
  foldAt,
  byMachineOnly,
  kerf,
  marks,
  drilled,
  fit,
  makeFoldable,
  datum,
  wideBends,
});

/** What is wrong with options that only the shop can tell: a cutter that it does not have. */
export const optionProblems = ({ shop = DEFAULT_SHOP, cutWith }: MakeOptions): InputProblem[] =>
  cutWith === undefined || cuttersCalled(shop, cutWith).length > 0
    ? []
    : [
        {
          input: 'cutWith',
          given: shown(cutWith),
          allowed: `a cutter of the shop file, by its name or process: ${shop.cutters.map(({ name, process }) => `${name} (${process})`).join(', ') || 'it has none'}`,
        },
      ];

/** The options as they apply to one sheet. */
export interface TakenOptions extends FilledOptions, DrawingForm {
  /** Width of the cut that is allowed for, mm. */
  readonly kerfMm: number;
  /** Width of the cut of the shop's own cutter, mm, on a sheet that is marked by nicks. */
  readonly cutterKerfMm: number;
}

/**
 * The options adapted to the program of the cutter. Marking lines that it would cut are worse than
 * none; where marks are left out, the centres of holes are pierced.
 */
export const takenOptions = (
  options: FilledOptions,
  sheet: { readonly material: Material; readonly thicknessMm: number },
): TakenOptions => {
  const { shop, kerf, marks, drilled } = options;
  const form = importFor(shop, sheet.thicknessMm);
  const cutOnly = options.cutOnly || holdsCutsAlone(form);
  const asksCutter = kerf === 'shop' || marks === 'nicks';
  const cutterKerfMm = asksCutter ? kerfOfCutter(shop, sheet) : 0;
  return {
    ...options,
    form,
    cutOnly,
    drilled: cutOnly ? 'pierces' : drilled,
    kerfMm: kerf === 'shop' ? cutterKerfMm : kerf,
    cutterKerfMm,
  };
};

const kerfOfCutter = (
  shop: Shop,
  { material, thicknessMm }: { readonly material: Material; readonly thicknessMm: number },
): number => {
  const cutter = cutterFor(shop, thicknessMm);
  return cutter === undefined ? 0 : kerfOf(cutter, material.family, thicknessMm);
};
