import { bumpFigures, figure, note } from '../../src/template.ts';
import type { Finding, Report } from '../../src/template.ts';
import { blankMm } from './limits.ts';
import type { ShellSizes } from './sizes.ts';
import type { Shell } from './inputs.ts';

/** How the wall is rolled. */
export const said = (v: Shell, s: ShellSizes): Finding =>
  note(
    'roll-wall',
    `Roll the wall to ${figure(s.insideMm)} inside radius, ${v.faceOut === 'lower' ? 'the face that the drawing shows' : 'the other face'} inside${v.flange > 0 ? ', its flanges folded first' : ''}; nothing is taken off for a fold, for the middle of the sheet keeps its length. Rolls leave the first and last stretch flat: set the ends round over a bar before the seam is closed.`,
  );

/**
 * Sizes of the pattern. That pi t is added to the inside circumference is geometry; the allowance of
 * 7 thicknesses for an end that slips into its like is Longfield's (Sheet Metal Drafting, p. 54), and
 * the strain of the outside 50 t / R is from an article on blanks of pressure vessels.
 */
export const reportOf = (v: Shell, s: ShellSizes): Report => ({
  figures: [
    {
      name: 'round the middle of the sheet',
      value: s.aroundMm,
      unit: 'mm',
      about: 'of one piece, flanges left out',
    },
    {
      name: 'blank along the rolls',
      value: blankMm(v, s),
      unit: 'mm',
      about: 'before the bends of flanges are allowed for',
    },
    { name: 'inside diameter', value: 2 * s.insideMm, unit: 'mm' },
    { name: 'outside diameter', value: 2 * s.outsideMm, unit: 'mm' },
    { name: 'stretch of the outside', value: (50 * v.thicknessMm) / s.middleMm, unit: '%' },
    ...(s.isClosed && v.pieces === 1
      ? [
          {
            name: 'blank that slips into its like',
            value: s.aroundMm - 7 * v.thicknessMm,
            unit: 'mm',
            about: '7 thicknesses shorter: two for the wall, the rest play',
          },
        ]
      : []),
    ...bumpFigures(s.insideMm, v.thicknessMm, (s.aroundMm / s.middleMm / Math.PI) * 180),
  ],
});
