import { ALUMINIUM_BACKING, SQUARE_EDGE_GAPS } from '../../data/welding.ts';
import { NOISE_MM } from '../../geometry/tolerance.ts';
import type { Material } from '../../model/material.ts';
import { figure } from '../../text/figures.ts';
import { lettersText, type ReachedWeld } from './assembly-words.ts';

/** The sheet that a whole is welded of. */
export interface WeldedSheet {
  readonly material: Pick<Material, 'family'>;
  readonly thicknessMm: number;
}

/** How seams are to fit before they are welded, and what lies behind them, in sentences. */
export const fitUpWords = (
  welds: readonly Pick<ReachedWeld, 'letter' | 'kind' | 'gapMm'>[],
  { material, thicknessMm }: WeldedSheet,
): string[] => [
  ...gapWords(welds, thicknessMm),
  ...(material.family === 'aluminium' && thicknessMm < ALUMINIUM_BACKING.value.thinnerThanMm
    ? [backingWords(thicknessMm)]
    : []),
];

const gapWords = (
  welds: readonly Pick<ReachedWeld, 'letter' | 'kind' | 'gapMm'>[],
  thicknessMm: number,
): string[] => {
  const row = SQUARE_EDGE_GAPS.value.find(({ upToMm }) => thicknessMm <= upToMm + NOISE_MM);
  if (row === undefined) return [];
  const [least, most] = row.gapMm;
  const wide = welds.filter(
    ({ kind, gapMm }) => !['lap', 'flange'].includes(kind) && gapMm[1] > most + NOISE_MM,
  );
  const usual = `Square edges of this sheet are welded with a gap of ${figure(least)} to ${figure(most)} mm (${SQUARE_EDGE_GAPS.source})`;
  return [
    wide.length === 0
      ? `${usual}.`
      : `${usual}: ${lettersText(wide)} ${wide.length === 1 ? 'is' : 'are'} drawn wider, and wants closing up or filling.`,
  ];
};

const backingWords = (thicknessMm: number): string => {
  const { groove, strip } = ALUMINIUM_BACKING.value;
  const [least, most] = strip.wideMm;
  return `Aluminium falls through a seam with nothing behind it: welded from one side, hold a bar behind it with a groove ${figure(groove.wideT * thicknessMm)} mm wide and ${figure(groove.deepT * thicknessMm, 2)} mm deep, or leave a strip there, ${least} to ${most} mm wide and ${figure(thicknessMm)} to ${strip.upToMm} mm thick (${ALUMINIUM_BACKING.source}).`;
};
