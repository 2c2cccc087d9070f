import type { Loop } from '../geometry/loop.ts';
import type { Drawing, DrawingItem } from '../model/drawing.ts';
import type { LaidPart, LaidSheet } from '../model/laid.ts';
import { type CutLine, type CutPiece, cutPieceOf, metalOf } from './cut-piece.ts';
import { type CutOrder, cutOrder } from './cut-order.ts';
import { laidItems } from './laid-items.ts';
import { type LeadIn, pierceOf } from './lead-in.ts';

/** A part as it lies on its sheet, with everything that its drawing has. */
export interface LaidBlank {
  readonly part: LaidPart;
  /** What it is called on its sheet: by its name, and its number where there are several. */
  readonly name: string;
  /** Its place in the order of cutting, from 1. */
  readonly number: number;
  readonly piece: CutPiece;
  /** What is not cut, as it lies. */
  readonly marks: readonly DrawingItem[];
  /** How long a lead-in finds room before its outline, mm; absent where none is asked for. */
  readonly leadInMm?: number;
}

/** What is cut of a sheet, and in which order. */
export interface SheetCuts {
  readonly sheet: LaidSheet;
  /** In the order in which they are cut. */
  readonly blanks: readonly LaidBlank[];
  readonly order: CutOrder;
}

export interface CutRules {
  /** Whether sheet of this thickness is likely to warp on the cutter. */
  readonly mayWarp: boolean;
  /** What a pierce needs; nothing is known of it when left out. */
  readonly leadIn?: LeadIn | undefined;
}

/**
 * The cuts of a laid sheet in their order, each outline beginning where its pierce has room. Throws
 * where a part has no drawing, or one without an outline: nothing of that kind is laid.
 */
export const sheetCuts = (
  sheet: LaidSheet,
  drawings: ReadonlyMap<string, Drawing>,
  { mayWarp, leadIn }: CutRules,
): SheetCuts => {
  const lying = sheet.parts.map((part) => lyingOf(part, drawings));
  const pierced = lying.map((one, i) => {
    if (leadIn === undefined) return one;
    const others = lying.filter((_, k) => k !== i).map(({ piece }) => metalOf(piece));
    const pierce = pierceOf(one.piece.outline.loop, { others, stock: sheet.stock }, leadIn);
    const outline = beginning(one.piece.outline, pierce.outline);
    return { ...one, piece: { ...one.piece, outline }, leadInMm: pierce.roomMm };
  });
  const order = cutOrder(
    pierced.map(({ piece }) => piece),
    mayWarp,
  );
  const several = new Set(sheet.parts.filter(({ copy }) => copy > 1).map(({ name }) => name));
  const blanks = order.pieces.map((at, k): LaidBlank => {
    const one = pierced[at] as (typeof pierced)[number];
    const { name, copy } = one.part;
    return { ...one, number: k + 1, name: several.has(name) ? `${name} (${copy})` : name };
  });
  return { sheet, blanks, order };
};

const lyingOf = (part: LaidPart, drawings: ReadonlyMap<string, Drawing>) => {
  const drawing = drawings.get(part.name);
  if (drawing === undefined) throw new Error(`no drawing of ${part.name}`);
  const items = laidItems(drawing, part);
  const piece = cutPieceOf(items);
  if (piece === undefined) throw new Error(`the drawing of ${part.name} has no outline`);
  const cut = new Set([piece.outline, ...piece.inner].map(({ item }) => item));
  return { part, piece, marks: items.filter((item) => !cut.has(item)) };
};

/** A line that begins elsewhere. A circle has no beginning in a file. */
const beginning = ({ item, loop: known }: CutLine, loop: Loop): CutLine =>
  item.kind === 'loop' ? { item: { ...item, loop }, loop } : { item, loop: known };
