import { type PaperSize, sheetName } from '../../model/paper.ts';
import type { PrintUnit } from '../../text/printed.ts';
import { sheetPages } from '../../paper/sheet/sheet-pages.ts';
import { writePdf } from '../../paper/write/pdf.ts';
import type { MadeSet } from '../assembly/assembled.ts';
import { assemblySheet } from '../assembly/assembly-sheet.ts';
import { cutFileMark } from '../outputs/cut-file-mark.ts';
import type { Entry } from './archive.ts';
import { FileNames } from './names.ts';
import type { ListedPart } from './parts-list.ts';

/** The papers of a whole, and the parts that it is welded of. */
export interface PackedAssembly extends Entry {
  readonly of: readonly ListedPart[];
}

export interface AssemblyPaper {
  /** A4 when left out. */
  readonly paper?: PaperSize | undefined;
  readonly date?: string | undefined;
  readonly printUnits?: PrintUnit | undefined;
}

/** The papers of every whole of which all pieces are in the archive; `cut` holds cut files by name. */
export const assembliesIn = async (
  parts: readonly ListedPart[],
  sets: readonly MadeSet[],
  cut: ReadonlyMap<string, string>,
  { paper = 'a4', date, printUnits: units }: AssemblyPaper,
): Promise<PackedAssembly[]> => {
  const names = new FileNames();
  const found: PackedAssembly[] = [];
  for (const set of sets) {
    const of = parts.filter(({ part }) => set.parts.includes(part.made));
    const [first] = of;
    if (first === undefined || of.length < set.parts.length) continue;
    const { note, revision } = first.part;
    const files = of.map(({ file }) => ({ name: file, contents: cut.get(file) ?? '' }));
    const paperMark = await cutFileMark(set.name, revision, files);
    const sheet = sheetName(paper);
    const content = assemblySheet({ set, note, revision, date, paperMark, paper: sheet, units });
    const about = { title: `${set.name}: assembly`, mark: set.mark };
    const bytes = writePdf(sheetPages(content), about);
    found.push({ name: names.take(`${set.base}-assembly`, 'pdf'), bytes, of });
  }
  return found;
};
