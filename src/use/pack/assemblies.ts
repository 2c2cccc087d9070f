import type { PrintUnit } from '../../text/printed.ts';
import { sheetPages } from '../../paper/sheet/sheet-pages.ts';
import { writePdf } from '../../paper/write/pdf.ts';
import type { MadeSet } from '../assembly/assembled.ts';
import { assemblySheet } from '../assembly/assembly-sheet.ts';
import type { Entry } from './archive.ts';
import { FileNames } from './names.ts';
import type { ListedPart } from './parts-list.ts';

/** The papers of a whole, and the parts that it is welded of. */
export interface PackedAssembly extends Entry {
  readonly of: readonly ListedPart[];
}

/** The papers of every whole of which all pieces are in the archive. */
export const assembliesIn = (
  parts: readonly ListedPart[],
  sets: readonly MadeSet[],
  units?: PrintUnit,
): PackedAssembly[] => {
  const names = new FileNames();
  return sets.flatMap((set): PackedAssembly[] => {
    const of = parts.filter(({ part }) => set.parts.includes(part.made));
    const [first] = of;
    if (first === undefined || of.length < set.parts.length) return [];
    const { note, revision } = first.part;
    const content = assemblySheet({ set, note, revision, units });
    const about = { title: `${set.name}: assembly`, mark: set.mark };
    const bytes = writePdf(sheetPages(content), about);
    return [{ name: names.take(`${set.base}-assembly`, 'pdf'), bytes, of }];
  });
};
