import type { Vec2 } from '../../geometry/vec2.ts';
import type { Picture, PictureItem } from '../../model/picture.ts';
import { type CellSize, type FoldCell, foldCells } from './fold-cells.ts';
import type { FoldScene } from './fold-scene.ts';
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
  readonly strokes: readonly StrokeCard[];
}

/** A4 upright, and its margins, mm. */
const PAGE_MM = { width: 210, height: 297, margin: 10 } as const;
const WIDE_MM = PAGE_MM.width - 2 * PAGE_MM.margin;
const GAP_MM = 4;
/** The part as it lies takes the whole width; the others stand two side by side. */
const LAY: CellSize = { widthMm: WIDE_MM, heightMm: 76 };
const CELL: CellSize = { widthMm: (WIDE_MM - GAP_MM) / 2, heightMm: 56 };
const HEADING = { sizeMm: 4.2, isBold: false };
const TITLE = { sizeMm: 6.4, isBold: true };
const LINE = { sizeMm: 3.6, isBold: false };
const CELL_TITLE = { sizeMm: 3.6, isBold: true };
const LEADING = 1.25;
/** Where the lines stand behind their words, mm. */
const WORD_MM = 18;
/** Whoever opens the file may have letters a little wider than those measured. */
const TEXT_SHARE = 0.92;

/** The cards as pages of A4, one stroke a page; the key to the pictures stands on each. */
export const foldPages = (cards: FoldCards): Picture[] =>
  cards.strokes.map((stroke, i) => {
    const { margin, width, height } = PAGE_MM;
    const head = linesDown(
      [
        ...broken(`${cards.heading}, ${i + 1} of ${cards.strokes.length}`, HEADING),
        ...cards.captions.flatMap((c) => broken(c, SMALL)),
      ],
      height - margin,
    );
    const block = strokeBlock(stroke, head.bottom - 2);
    return {
      widthMm: width,
      heightMm: height,
      items: moved([...head.items, ...block.items], margin),
    };
  });

const SMALL = { sizeMm: 3, isBold: false };

/** The cards one under the other as one picture, as wide as A4 less its margins. */
export const foldStrip = (cards: FoldCards): Picture => {
  const head = (top: number): Block =>
    linesDown(
      [...broken(cards.heading, TITLE), ...cards.captions.flatMap((c) => broken(c, LINE))],
      top,
    );
  // What stands above the paper's lower edge is known once all is stacked; so it is stacked twice.
  const stack = (top: number): Block => {
    let at = head(top - 2);
    for (const stroke of cards.strokes) {
      const block = strokeBlock(stroke, at.bottom - 5);
      at = { items: [...at.items, ...block.items], bottom: block.bottom };
    }
    return at;
  };
  const heightMm = 4 - stack(0).bottom;
  const background: PictureItem = {
    kind: 'area',
    rims: [boxRing({ minX: 0, minY: 0, maxX: WIDE_MM, maxY: heightMm })],
    fill: 1,
  };
  return { widthMm: WIDE_MM, heightMm, items: [background, ...stack(heightMm).items] };
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

const broken = (text: string, style: typeof LINE, x = 0): TextLine[] =>
  wrapped(text, TEXT_SHARE * (WIDE_MM - x), style.sizeMm, style.isBold).map((line) => ({
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

const strokeBlock = ({ title, lines, scene }: StrokeCard, top: number): Block => {
  const text = linesDown(
    [
      ...broken(title, TITLE),
      ...lines.flatMap(([word, line]) => [
        { ...LINE, isBold: true, text: word },
        ...broken(line, LINE, Math.max(WORD_MM, textWidthMm(word, LINE.sizeMm, true) + 2)).map(
          (l, i) => ({ ...l, isBeside: i === 0 }),
        ),
      ]),
    ],
    top,
  );
  if (scene === undefined) return text;
  const cells = foldCells(scene, CELL, LAY);
  let bottom = text.bottom;
  const items = cells.flatMap((cell, i): PictureItem[] => {
    const isFull = cell.picture.widthMm > CELL.widthMm;
    const isLeft = isFull || (i - 1) % 2 === 0;
    if (isLeft) bottom -= cell.picture.heightMm + CELL_ROOM_MM;
    return cellItems(cell, [isLeft ? 0 : CELL.widthMm + GAP_MM, bottom]);
  });
  return { items: [...text.items, ...items], bottom };
};

const CELL_ROOM_MM = 6.5;

const cellItems = ({ title, picture }: FoldCell, [x, y]: Vec2): PictureItem[] => [
  { kind: 'label', at: [x, y + picture.heightMm + 1.3], ...CELL_TITLE, text: title },
  { kind: 'group', at: [x, y], items: picture.items },
];

const moved = (items: readonly PictureItem[], x: number): PictureItem[] => [
  { kind: 'group', at: [x, 0], items },
];
