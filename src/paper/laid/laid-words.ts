import type { Printed } from '../../text/printed.ts';
import { figure } from '../../text/figures.ts';
import type { LaidSheet } from '../../model/laid.ts';
import type { Shears } from '../../model/stock.ts';
import type { LaidPicture } from './laid-picture.ts';
import { loopBox } from './scaled.ts';

/** What stands over the picture of a laid sheet: which sheet it is. */
export const laidTitle = ({ cuts: { sheet }, material, print }: LaidPicture): string => {
  const { name, isRemnant, outline } = sheet.stock;
  const { maxX, maxY } = loopBox(outline);
  const size = `${print.tape(maxX, 1)} x ${print.tape(maxY, 1)} ${print.word}`;
  return `${sheet.name}: ${isRemnant ? `remnant ${name}` : 'sheet'}, ${material}, ${size}`;
};

/** Where a sheet is sheared: `at 1250, 2500 mm from the left and at 1250 mm from below`. */
export const shearWords = ({ x, y }: Shears, { tape, word }: Printed): string => {
  const at = (levels: readonly number[]): string =>
    `at ${levels.map((mm) => tape(mm, 1)).join(', ')} ${word}`;
  const cuts = [
    ...(x.length > 0 ? [`${at(x)} from the left`] : []),
    ...(y.length > 0 ? [`${at(y)} from below`] : []),
  ];
  return cuts.join(' and ');
};

/** The lines under it. */
export const laidLines = (picture: LaidPicture, hasSizes: boolean): string[] => {
  const { cuts, usedPercent, cutLengthMm, clean, cutter, mayWarp, cautions, print } = picture;
  const { gapMm, edgeMm, parts } = cuts.sheet;
  const { word } = print;
  const cutOn = cutter === undefined ? '' : ` on ${cutter}`;
  return [
    `${parts.length === 1 ? '1 part' : `${parts.length} parts`} on ${shareWords(usedPercent)} of it, ${print.way(cutLengthMm)} of cut, ${cuts.order.cuts.length} pierces${cutOn}. Gap ${print.tape(gapMm, 2)} ${word}, to the edge ${print.tape(edgeMm, 2)} ${word}.`,
    `Numbers are the order of cutting; a dot is where an outline begins. ${hasSizes ? 'Sizes' : 'Sizes, in the table,'} are from the lower left corner of the sheet to that of the box round each part, which has a cross where the part has no corner there.`,
    ...shearedWords(cuts.sheet, print),
    ...clampWords(cuts.sheet, print),
    ...(clean === undefined ? [] : [cleanWords(clean, print)]),
    ...(mayWarp
      ? [
          'This sheet warps: keep to the order, which leaves one side to cool before its neighbour is cut.',
        ]
      : []),
    ...(cautions.length === 0 ? [] : [`CAUTION: ${cautions.join('; ')}.`]),
  ];
};

const cleanWords = (
  { minX, minY, maxX, maxY }: NonNullable<LaidPicture['clean']>,
  { tape, word }: Printed,
): string =>
  `Hatched: left clean, ${tape(maxX - minX, 1)} x ${tape(maxY - minY, 1)} ${word}, its lower left corner at ${tape(minX, 1)}, ${tape(minY, 1)}.`;

const shareWords = (percent: number): string =>
  percent < 1 ? 'less than 1 %' : `${figure(percent, 0)} %`;

const shearedWords = ({ shearedFrom }: LaidSheet, print: Printed): string[] => {
  const { tape, word } = print;
  if (shearedFrom?.stock.shears === undefined) return [];
  const { stock, xMm, yMm } = shearedFrom;
  const { maxX, maxY } = loopBox(stock.outline);
  return [
    `Sheared from ${stock.name}, ${tape(maxX, 1)} x ${tape(maxY, 1)} ${word}, ${shearWords(shearedFrom.stock.shears, print)}: the piece with its lower left corner at ${tape(xMm, 1)}, ${tape(yMm, 1)}.`,
  ];
};

const clampWords = ({ clampsMm = 0 }: LaidSheet, { tape, word }: Printed): string[] =>
  clampsMm > 0
    ? [`Clamps hold the lower edge, ${tape(clampsMm, 1)} ${word} wide to the broken line.`]
    : [];

const HEADINGS = ['No', 'Part', 'x', 'y', 'Box', 'Turned', 'Face'] as const;

/** The columns of the table of parts. */
export const partColumns = ({ word }: Printed) =>
  HEADINGS.map((name) => ({
    name: name === 'x' || name === 'y' || name === 'Box' ? `${name} ${word}` : name,
    isText: name === 'Part' || name === 'Face',
  }));

/** A row for each part in the order of cutting. */
export const partRows = ({ cuts, print: { tape } }: LaidPicture): string[][] =>
  cuts.blanks.map(({ number, name, part, piece }) => {
    const { minX, minY, maxX, maxY } = loopBox(piece.outline.loop);
    return [
      String(number),
      name,
      tape(minX, 1),
      tape(minY, 1),
      `${tape(maxX - minX, 1)} x ${tape(maxY - minY, 1)}`,
      `${figure(((part.turnDeg % 360) + 360) % 360, 1)}°`,
      part.turnedOver ? 'turned over' : '',
    ];
  });
