import type { Cutter, CutterProcess } from '../../model/shop.ts';
import type { SaidCutter } from './shop-with-answers.ts';

/** What was answered of a cutter; what was left out is missing. */
export interface CutterFigures {
  readonly from?: number | undefined;
  readonly to?: number | undefined;
  readonly bed?: { readonly length: number; readonly width: number } | undefined;
  readonly kerf?: { readonly kerf: number; readonly thickness: number } | undefined;
}

/** A cutter in full: what was left out is as the built-in one of its kind has it, with a remark. */
export const cutterOf = (
  name: string,
  process: CutterProcess,
  { from, to, bed, kerf }: CutterFigures,
  known: Cutter | undefined,
): SaidCutter => {
  const span =
    from === undefined && to === undefined
      ? undefined
      : { from: from ?? known?.thickness.from, to: to ?? known?.thickness.to };
  const said = { thickness: span, bed, kerf: kerf && [kerf] };
  const assumed = Object.entries(said).flatMap(([key, value]) =>
    value === undefined ? [key] : [],
  );
  return {
    entry: {
      name,
      process,
      thickness: said.thickness ?? known?.thickness,
      bed: said.bed ?? known?.bed,
      kerf: said.kerf ?? known?.kerf,
      ...(known?.marks === true && { marks: true }),
    },
    remarks: Object.fromEntries(
      [...assumed, ...(known?.marks === true ? ['marks'] : [])].map((key) => [
        key,
        'assumed, as in the built-in shop',
      ]),
    ),
  };
};
