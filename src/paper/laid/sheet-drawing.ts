import type { SheetCuts } from '../../cutting/sheet-cuts.ts';
import type { Drawing, DrawingItem } from '../../model/drawing.ts';
import { nameNote } from './name-notes.ts';

/** What the file of a sheet is called, and known again by. */
export interface SheetTitle {
  readonly title: string;
  readonly mark: string;
  readonly remarks: readonly string[];
}

/**
 * A laid sheet as one drawing: the cuts of all parts in the order in which they are to be cut, what
 * else the drawings of the parts have, and on each part its number in that order and its name. The
 * edges of the sheet itself are notes, for nobody is to cut along them; its lower left corner is at
 * 0,0.
 */
export const sheetDrawing = (
  { sheet, blanks, order }: SheetCuts,
  { title, mark, remarks }: SheetTitle,
): Drawing => {
  const edges = [sheet.stock.outline, ...sheet.stock.holes].map((loop): DrawingItem => ({
    kind: 'loop',
    role: 'note',
    loop,
  }));
  return {
    title,
    mark,
    remarks,
    hasCutOrder: true,
    items: [
      ...edges,
      ...blanks.flatMap((blank) => [...blank.marks, nameNote(blank)]),
      ...order.cuts.map(({ item }) => item),
    ],
  };
};
