import { atLeast, type Finding, figure, isOver, orMore, refuse } from '../../src/template.ts';

/** The finding on a blank that is longer than its sheet, with so many pieces as would fit, if any do. */
export const overSheet = (
  longMm: number,
  sheetLengthMm: number | undefined,
  piecesThatFit: () => number | undefined,
): Finding[] => {
  if (sheetLengthMm === undefined || !isOver(longMm, sheetLengthMm)) return [];
  const pieces = piecesThatFit();
  return [
    refuse(
      'wall-over-sheet',
      ['sheetLength', 'pieces'],
      `the blank is ${atLeast(longMm)} long, and sheetLength is ${figure(sheetLengthMm)}`,
      [
        ...(pieces === undefined ? [] : [orMore('pieces', pieces, 0)]),
        orMore('sheetLength', longMm),
      ],
    ),
  ];
};
