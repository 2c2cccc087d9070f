import { sheetHtml } from '../../paper/sheet/sheet-html.ts';
import { sheetPages } from '../../paper/sheet/sheet-pages.ts';
import { writePdf } from '../../paper/write/pdf.ts';
import { foldUp } from '../../fold/fold-up.ts';
import { foldedSeat } from '../../fold/seat.ts';
import type { Part } from '../../model/part.ts';
import { type FoldingPiece, writeFoldingGlb } from '../../solid/folding-glb.ts';
import type { WholePart } from '../made-part.ts';
import { assemblySheet } from '../assembly/assembly-sheet.ts';
import { sheetName } from '../../model/paper.ts';
import { cutFileMark } from './cut-file-mark.ts';
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
  if (set === undefined) return {};
  const orders = new Map(set.parts.map((part) => [part.result.piece, orderOf(part)]));
  const pieces = set.assembly.pieces.map((piece): FoldingPiece => ({
    ...piece,
    order: piece.isRolled
      ? allTogether(piece.part)
      : (orders.get(piece.id) ?? allTogether(piece.part)),
  }));
  return written(pieces, set);
}

/** A part folding up, as a model for viewers; none of a part without folds. */
export function foldingGlb({ made }: OutputSource): Written {
  const { part, flat, result, mark } = made;
  if (flat.bends.length === 0) return {};
  // It stands as its model does, its largest panel as in the drawing.
  const pose = foldedSeat(flat, foldUp(part, flat).poses);
  const piece = { name: result.name, part, flat, pose, turn: 1, order: orderOf(made) };
  return written([piece], { name: result.name, mark });
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

/** The folds as the plan has them; what it has no order for is folded all at once. */
const orderOf = ({ part, result: { foldPlan } }: WholePart): FoldingPiece['order'] => {
  if (part.folds.some((fold) => fold.midSurface === true)) return allTogether(part);
  const known = new Set<string>();
  const steps = (foldPlan?.steps ?? []).map(({ bend }) =>
    bend.split(' + ').filter((fold) => !known.has(fold) && known.add(fold)),
  );
  const rest = part.folds.map(({ id }) => id).filter((id) => !known.has(id));
  const left = known.size === 0 ? rest.map((id) => [id]) : [rest];
  return [...steps, ...left].filter((together) => together.length > 0);
};

const allTogether = ({ folds }: Part): FoldingPiece['order'] =>
  folds.length === 0 ? [] : [folds.map(({ id }) => id)];

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
