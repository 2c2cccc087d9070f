import { arcOf, pointAfterTurn } from '../../geometry/arc.ts';
import type { Piece } from '../../geometry/piece.ts';
import { FILE_STEP_MM } from '../../geometry/tolerance.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Label, Picture, PictureItem, Round, Stroke } from '../../model/picture.ts';
import { textWidthMm } from '../draw/text-width.ts';
import { MM_PER_INCH } from '../../text/units.ts';
import { pdfFile, type PdfHead, type PdfPage } from './pdf-file.ts';
import { winAnsi, winAnsiCode } from './win-ansi.ts';
import { fileNumber } from '../../text/file-number.ts';

/** Points of 1/72 inch, by which PDF counts (ISO 32000-1, 8.3.2.3), in a millimetre. */
const POINTS_PER_MM = 72 / MM_PER_INCH;

/**
 * Pictures as the pages of a PDF in true size, one page each, as large as its picture. Texts in
 * Helvetica, one of the fonts that every reader has; letters outside its code page (Windows 1252)
 * lose their accents or become `?`. The same pages give the same bytes.
 */
export const writePdf = (pages: readonly Picture[], head: PdfHead): Uint8Array =>
  pdfFile(pages.map(pageOf), head);

/**
 * One scale for the whole page, so that a millimetre is one everywhere. Round joins, as a drawing's
 * lines are (operators: ISO 32000-1, annex A).
 */
const pageOf = ({ widthMm, heightMm, items }: Picture): PdfPage => {
  const scale = fine(POINTS_PER_MM);
  return {
    width: fine(widthMm * POINTS_PER_MM),
    height: fine(heightMm * POINTS_PER_MM),
    content: [`${scale} 0 0 ${scale} 0 0 cm 1 j`, ...items.flatMap(painted)].join('\n'),
  };
};

/** A number without a unit, or in points, to six decimals; never with an exponent. */
const fine = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

const at = ([x, y]: Vec2): string => `${fileNumber(x)} ${fileNumber(y)}`;

const painted = (item: PictureItem): string[] => {
  switch (item.kind) {
    case 'curve':
      return item.pieces.length === 0
        ? []
        : [...strokeState(item.stroke), ...traced(item.pieces), 'S'];
    case 'area':
      return filled(item, closed(item.rims));
    case 'round':
      return filled(item, closed([circleOf(item)]));
    case 'label':
      return labelled(item);
    case 'group':
      return grouped(item);
  }
};

/** What is saved by `q` is taken back by `Q`: the origin and what is cut off. */
const grouped = ({
  at: origin,
  clip,
  items,
}: PictureItem & { readonly kind: 'group' }): string[] => [
  `q 1 0 0 1 ${at(origin)} cm`,
  ...(clip === undefined
    ? []
    : [
        `${at([clip.minX, clip.minY])} ${at([clip.maxX - clip.minX, clip.maxY - clip.minY])} re W n`,
      ]),
  ...items.flatMap(painted),
  'Q',
];

const closed = (rims: readonly (readonly Piece[])[]): string[] =>
  rims.flatMap((rim) => (rim.length === 0 ? [] : [...traced(rim), 'h']));

const circleOf = ({ centre: [x, y], radiusMm }: Round): Piece[] => {
  const [right, left]: [Vec2, Vec2] = [
    [x + radiusMm, y],
    [x - radiusMm, y],
  ];
  return [
    { from: right, to: left, bulge: 1 },
    { from: left, to: right, bulge: 1 },
  ];
};

const traced = (pieces: readonly Piece[]): string[] => {
  const [first] = pieces;
  return first === undefined
    ? []
    : [
        `${at(first.from)} m`,
        ...pieces.flatMap((p) => (p.bulge === 0 ? [`${at(p.to)} l`] : tracedArc(p))),
      ];
};

/**
 * A cubic curve with arms of 4/3 tan(w / 4) leaves an arc that turns by w by this share of its radius
 * at a quarter turn, and by the sixth power of the angle less at a smaller one (Goldapp,
 * "Approximation of circular arcs by cubic polynomials", 1991).
 */
const QUARTER_TURN_MISS = 2.7e-4;

/** How far an arc may turn, so that the curve stays within the step of the file. */
const turnOfCurve = (radiusMm: number): number =>
  (Math.PI / 2) * Math.min(1, (FILE_STEP_MM / (QUARTER_TURN_MISS * radiusMm)) ** (1 / 6));

const tracedArc = ({ from: start, to, bulge }: Piece): string[] => {
  const { centre, radius, sweepRad } = arcOf(start, to, bulge);
  const count = Math.ceil(Math.abs(sweepRad) / turnOfCurve(radius));
  const arm = (4 / 3) * Math.tan(sweepRad / count / 4);
  let a: Vec2 = start;
  return Array.from({ length: count }, (_, i) => {
    const b =
      i + 1 === count
        ? to
        : pointAfterTurn(start, to, bulge, (Math.abs(sweepRad) * (i + 1)) / count);
    const c1: Vec2 = [a[0] - arm * (a[1] - centre[1]), a[1] + arm * (a[0] - centre[0])];
    const c2: Vec2 = [b[0] + arm * (b[1] - centre[1]), b[1] - arm * (b[0] - centre[0])];
    a = b;
    return `${at(c1)} ${at(c2)} ${at(b)} c`;
  });
};

const strokeState = ({ widthMm, dashMm = [], shade = 0 }: Stroke): string[] => [
  `${fileNumber(widthMm)} w ${fine(shade)} G [${dashMm.map(fileNumber).join(' ')}] 0 d`,
];

/** By the even-odd rule, as an area is what lies inside an odd number of rims. */
const filled = (
  { fill, stroke }: { readonly fill?: number; readonly stroke?: Stroke },
  path: readonly string[],
): string[] => {
  if (path.length === 0 || (fill === undefined && stroke === undefined)) return [];
  const paint = fill === undefined ? 'S' : stroke === undefined ? 'f*' : 'B*';
  return [
    ...(stroke === undefined ? [] : strokeState(stroke)),
    ...(fill === undefined ? [] : [`${fine(fill)} g`]),
    ...path,
    paint,
  ];
};

/**
 * Without kerning, so that a text is as wide as its layout took it to be. The page is turned and not
 * the text: where a reader has another font in place of Helvetica, it may fit letters of turned text
 * the wrong way (Poppler 22.12 does).
 */
const labelled = ({
  at: place,
  sizeMm,
  text,
  align = 'left',
  isBold = false,
  angleDeg = 0,
}: Label): string[] => {
  const line = winAnsi(text);
  if (line === '') return [];
  const back = { left: 0, middle: 1 / 2, right: 1 }[align] * textWidthMm(line, sizeMm, isBold);
  const turn = (angleDeg * Math.PI) / 180;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return [
    `q ${[c, s, -s, c].map(fine).join(' ')} ${at(place)} cm`,
    `BT 0 g /${isBold ? 'F2' : 'F1'} ${fine(sizeMm)} Tf ${at([-back, 0])} Td`,
    `(${literal(line)}) Tj ET Q`,
  ];
};

/** A letter for each byte, brackets and backslashes behind a backslash (ISO 32000-1, 7.3.4.2). */
const literal = (line: string): string =>
  [...line]
    .map((letter) => String.fromCharCode(winAnsiCode(letter)))
    .join('')
    .replace(/[\\()]/g, '\\$&');
