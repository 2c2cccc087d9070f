import { type Printed, printedIn } from '../../text/printed.ts';
import { withChords } from '../../geometry/chords.ts';
import type { Extents } from '../../geometry/extents.ts';
import { isInside } from '../../geometry/inside.ts';
import type { Loop } from '../../geometry/loop.ts';
import { stretchInBox } from '../../geometry/stretch-in-box.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Drawing } from '../../model/drawing.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { PaperMark } from '../../model/paper-mark.ts';
import type { PaperSize } from '../../model/paper.ts';
import type { Picture, PictureItem } from '../../model/picture.ts';
import type { Datum } from '../sizes/datum.ts';
import { blankObstacles } from './blank-obstacles.ts';
import { cardLayout } from './card-layout.ts';
import { cardLines } from './card-lines.ts';
import { cardSheets } from './card-sheets.ts';
import { datumMarks } from './datum-marks.ts';
import type { Fitting } from './dimensioned-blank.ts';
import { textGround } from './ground.ts';
import { NO_BOUNDS, Placer } from './placer.ts';

export interface Card {
  readonly flat: FlatPattern;
  /** What the sizes of its sheet are measured from. */
  readonly datum: Datum;
  /** Whose texts the card bears. */
  readonly drawing: Drawing;
  readonly name: string;
  /** Where there is another hand to be told from it. */
  readonly hand?: 'left' | 'right' | undefined;
  /** What else is to be known, a line: quantity, sheet, revision. */
  readonly about: string;
  readonly paper: PaperSize;
  readonly paperMark: PaperMark;
  /** Cautions in a few words each. */
  readonly cautions?: readonly string[];
  /** How lengths are written; in mm when left out. */
  readonly print?: Printed | undefined;
}

const SIDE =
  'This side is up. Folds: UP, a full thin line, towards you; DOWN, a broken one, away from you; angles turned from flat. Triangles: the edges that sizes are from.';

/**
 * The blank at true size on pages of paper, to be cut out of card, folded, and offered up. Pages
 * overlap, with joining marks at the same place of the blank on both; each bears check lines of
 * 100 mm, across and up, by which a printer that scales is found out. Pages that show nothing of
 * the blank are left out.
 */
export function cardPages({
  flat,
  datum,
  drawing,
  name,
  hand,
  about,
  paper,
  paperMark,
  cautions = [],
  print,
}: Card): Picture[] {
  const layout = cardLayout(flat.widthMm, flat.heightMm, paper, metalIn(flat));
  const lines = cardLines(flat, drawing, print);
  const blank = [...lines, ...cardDatum(flat, datum, lines)];
  return cardSheets(blank, layout, {
    paperMark,
    title: hand === undefined ? name : `${name}, ${hand.toUpperCase()} HAND`,
    about,
    cautions: cautions.length === 0 ? '' : `CAUTION: ${cautions.join('; ')}.`,
    side: SIDE,
    outlines: [flat.outline],
    widthMm: flat.widthMm,
  });
}

/** How many pages the card of a blank takes. */
export const cardPageCount = (flat: FlatPattern, paper: PaperSize): number =>
  cardLayout(flat.widthMm, flat.heightMm, paper, metalIn(flat)).tiles.length;

/** The triangles on the edges that the sheet's sizes are measured from, clear of the texts. */
const cardDatum = (
  flat: FlatPattern,
  datum: Datum,
  lines: readonly PictureItem[],
): PictureItem[] => {
  const placer = new Placer(NO_BOUNDS, { across: 0, crossing: 0 });
  placer.take(...lines.flatMap((item) => (item.kind === 'label' ? [textGround(item)] : [])));
  // The edge that a triangle stands on is no obstacle to it.
  placer.avoid(...blankObstacles({ ...flat, outline: [] }, AS_IT_LIES));
  return datumMarks(datum, flat.outline, AS_IT_LIES, placer, true);
};

/** At true size, in the coordinates of the blank. */
const AS_IT_LIES: Fitting = { scale: 1, at: (p) => p };

/** Whether a box, in the blank's coordinates, has metal in it. */
const metalIn = ({ outline, cutouts }: FlatPattern): ((box: Extents) => boolean) => {
  const rims = [
    outline,
    ...cutouts.flatMap((hole) => (hole.kind === 'loop' ? [hole.loop] : [])),
  ].map((loop) => corners(loop));
  return (box) => {
    if (
      rims.some((rim) =>
        rim.some(
          (from, i) => stretchInBox(box, from, rim[(i + 1) % rim.length] as Vec2) !== undefined,
        ),
      )
    )
      return true;
    const middle: Vec2 = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
    return (
      isInside(outline, middle) &&
      !cutouts.some((hole) =>
        hole.kind === 'loop'
          ? isInside(hole.loop, middle)
          : farthest(box, hole.centre) < hole.diameterMm / 2,
      )
    );
  };
};

const corners = (loop: Loop): Vec2[] => withChords(loop, 0.05).map(({ x, y }): Vec2 => [x, y]);

/** From a point to the farthest corner of a box. */
const farthest = ({ minX, minY, maxX, maxY }: Extents, [x, y]: Vec2): number =>
  Math.hypot(Math.max(x - minX, maxX - x), Math.max(y - minY, maxY - y));

/** The line of a card that says what it is of. */
export const cardAbout = ({
  print = printedIn(),
  ...made
}: {
  readonly quantity: number;
  readonly sheet: string;
  readonly flat: FlatPattern;
  readonly print?: Printed;
  readonly revision?: string | undefined;
  readonly date?: string | undefined;
  readonly sha?: string | undefined;
  readonly note?: string | undefined;
}): string =>
  [
    `${made.quantity} off`,
    made.sheet,
    `blank ${print.tape(made.flat.widthMm, 1)} x ${print.tape(made.flat.heightMm, 1)} ${print.word}`,
    ...(made.revision === undefined ? [] : [`revision ${made.revision}`]),
    ...(made.date === undefined ? [] : [made.date]),
    ...(made.sha === undefined ? [] : [`DXF of SHA-256 ${made.sha}`]),
    ...(made.note === undefined ? [] : [made.note]),
  ].join(', ');
