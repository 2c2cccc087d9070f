import type { StepPicture } from '../draw/fold-step.ts';
import { stepCells } from '../draw/fold-step-picture.ts';
import type { StepWords } from '../draw/fold-words.ts';
import { boxRing } from '../draw/strokes.ts';
import type { PictureItem } from '../../model/picture.ts';
import { wrapped } from '../draw/wrap.ts';
import { pictureSvg } from './picture-svg.ts';
import { singleLine } from '../../text/single-line.ts';
import { xmlText } from '../../text/xml.ts';

/**
 * One row of the page: what is to be done or cannot be, and its pictures; a fold made by hand has
 * none.
 */
export interface DrawnStep {
  readonly words: StepWords;
  readonly picture?: StepPicture;
}

export interface FoldSheetHead {
  readonly heading: string;
  /** By which the file is known again. */
  readonly mark: string;
  /** What holds for all rows. */
  readonly captions: readonly string[];
}

/** Width of an A4 page less its margins, mm. */
const PAGE_MM = 190;
const TEXT_MM = 4;
const TITLE = { sizeMm: 4.2, isBold: true };
const LINE = { sizeMm: 3.4, isBold: false };
/** The three pictures of a row, side by side under its text. */
const CELL = { widthMm: 60, heightMm: 58 };
const GAP_MM = 5;

/**
 * The steps of a fold plan, or what stands in its way, as one SVG page in the width of A4: for each
 * stroke the section of the machine with the part in it before (held side black) and after, and the
 * part in view with its next fold as a thick broken line. Not to scale.
 */
export function writeFoldSteps(
  { heading, mark, captions }: FoldSheetHead,
  steps: readonly DrawnStep[],
): string {
  const name = singleLine(heading);
  const head = [
    ...wrapped(name, TEXT_WIDTH_MM, HEADING.sizeMm, true).map((text) => ({ ...HEADING, text })),
    ...linesOf(captions, LINE),
  ];
  const rows = steps.map(({ words: { title, moves, lines }, picture }): Row => {
    const texts = [
      ...linesOf([moves === null ? title : `${title}; ${moves}`], TITLE),
      ...linesOf(lines, LINE),
    ];
    return {
      texts,
      picture,
      heightMm:
        TEXT_MM * (texts.length + 1) + (picture === undefined ? 0 : CELL.heightMm + TEXT_MM),
    };
  });
  const headMm = 2 + heightOf(head) + TEXT_MM;
  const heightMm = headMm + TEXT_MM + rows.reduce((sum, row) => sum + row.heightMm, 0);
  let top = heightMm - headMm;
  const drawn = rows.flatMap((row) => {
    top -= row.heightMm;
    return rowItems(row, top + row.heightMm);
  });
  const background: PictureItem = {
    kind: 'area',
    rims: [boxRing({ minX: 0, minY: 0, maxX: PAGE_MM, maxY: heightMm })],
    fill: 1,
  };
  const page = pictureSvg(
    { widthMm: PAGE_MM, heightMm, items: [background, ...textItems(head, heightMm - 2), ...drawn] },
    'cell',
  );
  const [open, ...rest] = page.split('\n');
  return [
    open,
    `<title>${xmlText(name)}</title>`,
    `<desc>${xmlText(singleLine(mark))}</desc>`,
    ...rest,
  ].join('\n');
}

interface TextLine {
  readonly text: string;
  readonly sizeMm: number;
  readonly isBold: boolean;
}

interface Row {
  readonly texts: readonly TextLine[];
  readonly picture: StepPicture | undefined;
  readonly heightMm: number;
}

const HEADING = { sizeMm: 5.5, isBold: true };
/** From one line to the next, in letter heights: those of the heading stand a little wider. */
const LEADING = 1.25;
/** Whoever opens the file may have letters a little wider than those measured. */
const TEXT_WIDTH_MM = 0.85 * PAGE_MM;

const linesOf = (texts: readonly string[], style: typeof LINE): TextLine[] =>
  texts.flatMap((text) =>
    wrapped(text, TEXT_WIDTH_MM, style.sizeMm, style.isBold).map((line) => ({
      ...style,
      text: line,
    })),
  );

const heightOf = (lines: readonly TextLine[]): number =>
  lines.reduce((sum, l) => sum + LEADING * l.sizeMm, 0);

/** From `top` downwards. */
const textItems = (lines: readonly TextLine[], top: number): PictureItem[] =>
  lines.map((line, i): PictureItem => ({
    kind: 'label',
    at: [0, top - heightOf(lines.slice(0, i + 1))],
    ...line,
  }));

const rowItems = ({ texts, picture }: Row, top: number): PictureItem[] => {
  const bottom = top - heightOf(texts) - TEXT_MM - CELL.heightMm;
  const cells = picture === undefined ? [] : stepCells(picture, CELL);
  return [
    ...textItems(texts, top),
    ...cells.map(({ items }, i): PictureItem => ({
      kind: 'group',
      at: [i * (CELL.widthMm + GAP_MM), bottom],
      items,
    })),
  ];
};
