import type { Vec2 } from '../../geometry/vec2.ts';
import { type PaperMark, paperMarkWords } from '../../model/paper-mark.ts';
import { type SheetName, SHEETS } from '../../model/paper.ts';
import type { Picture, PictureItem } from '../../model/picture.ts';
import { cellCount, type CellSize, type FoldCell, foldCells } from './fold-cells.ts';
import type { FoldScene } from './fold-scene.ts';
import { codeItems } from './square-code.ts';
import { boxRing } from './strokes.ts';
import { textWidthMm } from './text-width.ts';
import { wrapped } from './wrap.ts';

/** One stroke, or what keeps it from being made: what there is to say, and its pictures. */
export interface StrokeCard {
  readonly title: string;
  /** A word by which a line is found, and the line. */
  readonly lines: readonly (readonly [word: string, text: string])[];
  /** None of a fold made by hand. */
  readonly scene?: FoldScene;
}

export interface FoldCards {
  readonly heading: string;
  /** What holds for all strokes. */
  readonly captions: readonly string[];
  readonly paperMark: PaperMark;
  readonly strokes: readonly StrokeCard[];
}

const MARGIN_MM = 10;
const GAP_MM = 4;
/** Side of the square code, mm. */
const CODE_MM = 24;

/** What stands on a card, for the width that it has. */
interface CardForm {
  readonly wideMm: number;
  /** The part as it lies takes the whole width; the others stand two side by side. */
  readonly lay: CellSize;
  readonly cell: CellSize;
}

const formOn = (paper: SheetName): CardForm => {
  const wideMm = SHEETS[paper].widthMm - 2 * MARGIN_MM;
  // Of the height that an upright sheet has more than A4 the pictures take what they are wider.
  const larger = wideMm / WIDE_A4_MM;
  return {
    wideMm,
    lay: { widthMm: wideMm, heightMm: 76 * larger },
    cell: { widthMm: (wideMm - GAP_MM) / 2, heightMm: 56 * larger },
  };
};

const WIDE_A4_MM = SHEETS.a4.widthMm - 2 * MARGIN_MM;
const HEADING = { sizeMm: 4.2, isBold: false };
const TITLE = { sizeMm: 6.4, isBold: true };
const LINE = { sizeMm: 3.6, isBold: false };
const CELL_TITLE = { sizeMm: 3.6, isBold: true };
const LEADING = 1.25;
/** Where the lines stand behind their words, mm. */
const WORD_MM = 18;
/** Whoever opens the file may have letters a little wider than those measured. */
const TEXT_SHARE = 0.92;

/** The cards as pages, one stroke a page; the key to the pictures stands on each. */
export const foldPages = (cards: FoldCards, paper: SheetName = 'a4'): Picture[] =>
  cards.strokes.map((stroke, i) => {
    const form = formOn(paper);
    const head = headBlock(
      cards,
      (wideMm) => [
        ...broken(`${cards.heading}, ${i + 1} of ${cards.strokes.length}`, HEADING, wideMm),
        ...cards.captions.flatMap((c) => broken(c, SMALL, wideMm)),
      ],
      form,
      SHEETS[paper].heightMm - MARGIN_MM,
    );
    const block = strokeBlock(stroke, head.bottom - 2, form, MARGIN_MM);
    return { ...SHEETS[paper], items: moved([...head.items, ...block.items], MARGIN_MM) };
  });

/** The lines of a head, no wider than what the code leaves of the card, and the code on their right. */
const headBlock = (
  { paperMark }: FoldCards,
  lines: (wideMm: number) => readonly TextLine[],
  { wideMm }: CardForm,
  top: number,
): Block => {
  const room = wideMm - CODE_MM - GAP_MM;
  const words = broken(paperMarkWords(paperMark), SMALL, room);
  const head = linesDown([...lines(room), ...words], top);
  const code = top - CODE_MM;
  return {
    items: [...head.items, ...codeItems(paperMark, CODE_MM, [wideMm - CODE_MM, code])],
    bottom: Math.min(head.bottom, code),
  };
};

const SMALL = { sizeMm: 3, isBold: false };

/** The cards one under the other as one picture, as wide as A4 less its margins. */
export const foldStrip = (cards: FoldCards): Picture => {
  const form = formOn('a4');
  const { wideMm } = form;
  const head = (top: number): Block =>
    headBlock(
      cards,
      (room) => [
        ...broken(cards.heading, TITLE, room),
        ...cards.captions.flatMap((c) => broken(c, LINE, room)),
      ],
      form,
      top,
    );
  // What stands above the paper's lower edge is known once all is stacked; so it is stacked twice.
  const stack = (top: number): Block => {
    let at = head(top - 2);
    for (const stroke of cards.strokes) {
      const block = strokeBlock(stroke, at.bottom - 5, form);
      at = { items: [...at.items, ...block.items], bottom: block.bottom };
    }
    return at;
  };
  const heightMm = 4 - stack(0).bottom;
  const background: PictureItem = {
    kind: 'area',
    rims: [boxRing({ minX: 0, minY: 0, maxX: wideMm, maxY: heightMm })],
    fill: 1,
  };
  return { widthMm: wideMm, heightMm, items: [background, ...stack(heightMm).items] };
};

/** Items and the height at which they end, downwards. */
interface Block {
  readonly items: readonly PictureItem[];
  readonly bottom: number;
}

interface TextLine {
  readonly text: string;
  readonly sizeMm: number;
  readonly isBold: boolean;
  readonly x?: number;
  /** Whether it stands beside the line before it. */
  readonly isBeside?: boolean;
}

const broken = (text: string, style: typeof LINE, wideMm: number, x = 0): TextLine[] =>
  wrapped(text, TEXT_SHARE * (wideMm - x), style.sizeMm, style.isBold).map((line) => ({
    ...style,
    text: line,
    x,
  }));

const linesDown = (lines: readonly TextLine[], top: number): Block => {
  let at = top;
  const items = lines.map(({ x = 0, isBeside = false, ...line }): PictureItem => {
    if (!isBeside) at -= LEADING * line.sizeMm;
    return { kind: 'label', at: [x, at], ...line };
  });
  return { items, bottom: at - 1 };
};

const strokeBlock = (
  { title, lines, scene }: StrokeCard,
  top: number,
  form: CardForm,
  floor?: number,
): Block => {
  const { wideMm } = form;
  const text = linesDown(
    [
      ...broken(title, TITLE, wideMm),
      ...lines.flatMap(([word, line]) => [
        { ...LINE, isBold: true, text: word },
        ...broken(
          line,
          LINE,
          wideMm,
          Math.max(WORD_MM, textWidthMm(word, LINE.sizeMm, true) + 2),
        ).map((l, i) => ({ ...l, isBeside: i === 0 })),
      ]),
    ],
    top,
  );
  if (scene === undefined) return text;
  const { cell: small, lay } =
    floor === undefined ? form : filling(form, scene, text.bottom - floor);
  const cells = foldCells(scene, small, lay);
  let bottom = text.bottom;
  const items = cells.flatMap((cell, i): PictureItem[] => {
    const isFull = cell.picture.widthMm > small.widthMm;
    const isLeft = isFull || (i - 1) % 2 === 0;
    if (isLeft) bottom -= cell.picture.heightMm + CELL_ROOM_MM;
    return cellItems(cell, [isLeft ? 0 : small.widthMm + GAP_MM, bottom]);
  });
  return { items: [...text.items, ...items], bottom };
};

const CELL_ROOM_MM = 6.5;

/** The pictures so high that they fill what the words leave of a page, within reason. */
const filling = (form: CardForm, scene: FoldScene, roomMm: number): CardForm => {
  const { lay, cell } = form;
  const rows = Math.ceil((cellCount(scene) - 1) / 2);
  const room = roomMm - (rows + 1) * CELL_ROOM_MM;
  const share = Math.max(LOWEST_SHARE, room / (lay.heightMm + rows * cell.heightMm));
  const high = ({ widthMm, heightMm }: CellSize): CellSize => ({
    widthMm,
    heightMm: heightMm * Math.min(share, HIGHEST_SHARE),
  });
  return { ...form, lay: high(lay), cell: high(cell) };
};

/** How much lower and higher than usual a picture is made, as shares of its height. */
const LOWEST_SHARE = 0.6;
const HIGHEST_SHARE = 1.4;

const cellItems = ({ title, picture }: FoldCell, [x, y]: Vec2): PictureItem[] => [
  { kind: 'label', at: [x, y + picture.heightMm + 1.3], ...CELL_TITLE, text: title },
  { kind: 'group', at: [x, y], items: picture.items },
];

const moved = (items: readonly PictureItem[], x: number): PictureItem[] => [
  { kind: 'group', at: [x, 0], items },
];
