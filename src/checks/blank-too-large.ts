import { figure } from '../text/figures.ts';
import { turnToFit } from '../geometry/fit.ts';
import { type Finding, note, warn } from '../model/finding.ts';
import { isOfSheet, type Rectangle, type Remnant } from '../model/sheets.ts';
import { type Check, type Checked, cutterName, type Cutting, impossible } from './check.ts';

/**
 * A blank that does not lie on the cutter's bed, or that no sheet in stock is large enough for,
 * however it is turned.
 */
export const blankTooLarge: Check = {
  rule: 'blank-too-large',
  title: 'A blank is larger than the bed of the cutter, or than any sheet in stock.',
  severities: ['stop', 'warn', 'note'],
  reason:
    'The cutter cannot reach all of it, or no sheet is that large: it would have to be made of two pieces.',
  source: 'bed of the cutter and sheet sizes in the shop file; geometry',
  measured: 'the outline, turned every way, against bed and sheets',
  mend: 'Split it with a weld seam, cut it elsewhere, or order a larger sheet.',
  run: (checked) => {
    const onBed = checked.cutting === undefined ? [] : bedFindings(checked, checked.cutting);
    return onBed.length > 0 ? onBed : sheetFindings(checked);
  },
};

function bedFindings({ flat, shop }: Checked, { cutter }: Cutting): Finding[] {
  const turn = turnToFit(flat.outline, cutter.bed.length, cutter.bed.width);
  if (turn !== undefined)
    return isSquare(turn)
      ? []
      : [
          note(
            blankTooLarge,
            `${sizeOf(flat)} lies on the bed of ${cutterName(cutter)} only when it is turned by ${figure(turn)} degrees.`,
          ),
        ];
  const other = shop.cutters.find(
    ({ bed }) => turnToFit(flat.outline, bed.length, bed.width) !== undefined,
  );
  const mend =
    other === undefined
      ? 'Split it with a weld seam'
      : `Cut it on ${cutterName(other)} if that takes the sheet, or split it with a weld seam`;
  const message = `${sizeOf(flat)} is larger than the bed of ${cutterName(cutter)}, ${area(cutter.bed)}, whichever way it is turned. ${mend}, each piece at most ${area(cutter.bed)}.`;
  return [impossible(shop, blankTooLarge, message)];
}

function sheetFindings({ flat, material, shop }: Checked): Finding[] {
  const usable = shop.sheets.filter((sheet) => isOfSheet(sheet, material, flat.thicknessMm));
  if (
    usable.length === 0 ||
    [
      ...usable,
      ...wholeRemnants(shop).filter((r) => isOfSheet(r, material, flat.thicknessMm)),
    ].some(({ length, width }) => turnToFit(flat.outline, length, width) !== undefined)
  )
    return [];
  const largest = usable.reduce((a, b) => (a.length * a.width >= b.length * b.width ? a : b));
  return [
    warn(
      blankTooLarge,
      `${sizeOf(flat)} is larger than any sheet in stock, of which ${area(largest)} is the largest. Order a larger sheet, or split it with a weld seam.`,
    ),
  ];
}

/** Rectangular remnants without holes: a strip may be longer than any sheet that is kept. */
const wholeRemnants = ({ remnants }: Checked['shop']): (Remnant & Rectangle)[] =>
  remnants.flatMap((remnant) => {
    const { length, width, holes = [] } = remnant;
    return length === undefined || width === undefined || holes.length > 0
      ? []
      : [{ ...remnant, length, width }];
  });

const isSquare = (turn: number): boolean => turn % 90 === 0;
const sizeOf = ({ widthMm, heightMm }: Checked['flat']): string =>
  `The blank of ${figure(widthMm)} x ${figure(heightMm)} mm`;
const area = ({ length, width }: Rectangle): string => `${figure(length)} x ${figure(width)} mm`;
