import { cardAbout, cardPages } from '../paper/draw/card-template.ts';
import { figure } from '../text/figures.ts';
import { fitShort } from '../fit/short.ts';
import type { MadePart } from './make/make-parts.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { OutputFile } from '../model/output-file.ts';
import type { PaperSize } from '../model/paper.ts';
import type { Part } from '../model/part.ts';
import type { Shop } from '../model/shop.ts';
import type { FindingResult, ReportResult } from '../contract/part.ts';
import { sheetContent, type SheetRequest } from '../paper/sheet/sheet-content.ts';
import { sheetHtml } from '../paper/sheet/sheet-html.ts';
import { sheetPages } from '../paper/sheet/sheet-pages.ts';
import { foldedMesh } from '../solid/folded-mesh.ts';
import { writeGlb } from '../solid/glb.ts';
import { writePdf } from '../paper/write/pdf.ts';
import { writeStep } from '../solid/step.ts';
import { writeStl } from '../solid/stl.ts';
import type { PaperKind } from '../contract/paper-kind.ts';

export interface PapersRequest {
  readonly part: MadePart;
  readonly kinds: readonly PaperKind[];
  readonly paper: PaperSize;
  /** Figures and tables of its family, to stand on this part's sheet. */
  readonly report?: ReportResult | undefined;
  readonly note?: string | undefined;
  readonly revision?: string | undefined;
  readonly shop?: Shop | undefined;
}

export interface Papers {
  readonly files: readonly OutputFile[];
  /** What is to be known of them. */
  readonly findings: readonly FindingResult[];
}

/** The papers of one part, beside the files to cut. None of a part that was stopped. */
export async function papersOf(request: PapersRequest): Promise<Papers> {
  const { part, kinds } = request;
  if (part.stopped) return { files: [], findings: [] };
  const step = kinds.includes('step') ? await stepOf(request) : undefined;
  const files = [
    ...(kinds.includes('card') ? [cardOf(request)] : []),
    ...(kinds.includes('sheet') ? sheetOf(request, step?.findings ?? []) : []),
    ...(kinds.includes('model') ? modelOf(request) : []),
    ...(step?.files ?? []),
  ];
  return { files, findings: step?.findings ?? [] };
}

/** Whatever is not stopped has a blank. */
const blankOf = ({
  part: { part, flat, drawing, result },
}: PapersRequest): {
  readonly part: Part;
  readonly flat: FlatPattern;
  readonly drawing: NonNullable<MadePart['drawing']>;
} => {
  if (part === undefined || flat === undefined || drawing === undefined)
    throw new Error(`${result.name} has no blank`);
  return { part, flat, drawing };
};

function cardOf(request: PapersRequest): OutputFile {
  const { flat, drawing } = blankOf(request);
  const {
    part: { result, base, mark },
    paper,
    note,
    revision,
  } = request;
  const { name, hand, quantity, material } = result;
  const sheet = `${material.id} ${figure(material.thicknessMm, 3)} mm`;
  const about = cardAbout({
    quantity,
    sheet,
    flat,
    ...(revision !== undefined && { revision }),
    ...(note !== undefined && { note }),
  });
  const pages = cardPages({ flat, drawing, name, hand, about, paper });
  return {
    name: `${base}-card.pdf`,
    contents: writePdf(pages, { title: `${name}: card template`, mark }),
  };
}

function sheetOf(
  { part, report, note, revision, shop }: PapersRequest,
  more: readonly FindingResult[],
): OutputFile[] {
  const { result, base, mark } = part;
  const request: SheetRequest = {
    made: { ...part, result: { ...result, findings: [...result.findings, ...more] } },
    ...(result.fit !== null && { fit: fitShort(result.fit) }),
    ...(report !== undefined && { report }),
    ...(note !== undefined && { note }),
    ...(revision !== undefined && { revision }),
    ...(shop !== undefined && { shop }),
  };
  const content = sheetContent(request);
  return [
    { name: `${base}-sheet.html`, contents: sheetHtml(content) },
    {
      name: `${base}-sheet.pdf`,
      contents: writePdf(sheetPages(content), { title: `${result.name}: job sheet`, mark }),
    },
  ];
}

/** Chords of a model that is looked at lie this near to its curves, mm. */
const MODEL_MM = 0.02;

function modelOf(request: PapersRequest): OutputFile[] {
  const { part, flat } = blankOf(request);
  const mesh = foldedMesh(part, flat, MODEL_MM);
  if (mesh === undefined) return [];
  const { base, mark } = request.part;
  return [
    { name: `${base}.glb`, contents: writeGlb(mesh, mark) },
    { name: `${base}.stl`, contents: writeStl(mesh, mark) },
  ];
}

/**
 * The part is cut and folded as well without its STEP file, so that a missing one is no more than a
 * warning.
 */
async function stepOf(request: PapersRequest): Promise<Papers> {
  const { part, flat } = blankOf(request);
  const { base, mark } = request.part;
  const made = await writeStep(part, flat, mark);
  if (!made.ok) return { files: [], findings: [{ ...made.finding, severity: 'warn' }] };
  return { files: [{ name: `${base}.step`, contents: made.text }], findings: made.remarks };
}
