import { sheetHtml } from '../../paper/sheet/sheet-html.ts';
import { sheetPages } from '../../paper/sheet/sheet-pages.ts';
import { writePdf } from '../../paper/write/pdf.ts';
import { writeFoldingGlb } from '../../solid/folding-glb.ts';
import type { FoldingPiece } from '../../solid/folding-model.ts';
import { assemblySheet } from '../assembly/assembly-sheet.ts';
import { sheetName } from '../../model/paper.ts';
import { cutFileMark } from './cut-file-mark.ts';
import { piecesOfPart, piecesOfSet } from './folding-pieces.ts';
import { type OutputSource, shared, type Written } from './output.ts';

/** The papers of the whole for a screen. */
export const assemblyHtml = async (source: OutputSource): Promise<Written> => {
  const content = await contentOf(source);
  return content === undefined ? {} : { contents: sheetHtml(content) };
};

/** The papers of the whole for printing. */
export async function assemblyPdf(source: OutputSource): Promise<Written> {
  const content = await contentOf(source);
  if (content === undefined) return {};
  const { name, mark } = content.head;
  return { contents: writePdf(sheetPages(content), { title: `${name}: assembly`, mark }) };
}

/** The pieces folding up and being joined, as a model for viewers. */
export function assemblyGlb({ set }: OutputSource): Written {
  return set === undefined ? {} : written(piecesOfSet(set), set);
}

/** A part folding up, as a model for viewers; none of a part without folds. */
export function foldingGlb({ made }: OutputSource): Written {
  const { flat, result, mark } = made;
  if (flat.bends.length === 0) return {};
  return written(piecesOfPart(made), { name: result.name, mark });
}

/** Greatest distance of the chords of a model for viewing from its curves, mm. */
const FOLDING_MODEL_MM = 0.05;

const written = (
  pieces: readonly FoldingPiece[],
  { name, mark }: { readonly name: string; readonly mark: string },
): Written => {
  const contents = writeFoldingGlb(pieces, { name, mark, toleranceMm: FOLDING_MODEL_MM });
  return contents === undefined ? {} : { contents };
};

const contentOf = shared(async (source) => {
  const { set, note, revision, date, isHanded, home, printUnits: units } = source;
  if (set === undefined) return undefined;
  const cut = set.parts.flatMap((part) => part.files());
  const paperMark = await cutFileMark(set.name, revision, cut);
  const paper = sheetName(source.paper);
  return assemblySheet({
    set,
    note,
    revision,
    date,
    paperMark,
    paper,
    isHanded,
    home,
    units,
  });
});
