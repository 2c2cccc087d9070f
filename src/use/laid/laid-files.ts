import type { FindingResult } from '../../contract/part.ts';
import { cutPieceOf, metalOf } from '../../cutting/cut-piece.ts';
import { type SheetCuts, sheetCuts } from '../../cutting/sheet-cuts.ts';
import { cutLengthMm, usedPercent } from '../../cutting/used.ts';
import type { Extents } from '../../geometry/extents.ts';
import type { Region } from '../../geometry/region.ts';
import type { Drawing } from '../../model/drawing.ts';
import type { LaidSheet } from '../../model/laid.ts';
import type { MarkedFile } from '../../model/output-file.ts';
import { type PaperSize, sheetName } from '../../model/paper.ts';
import {
  importFor,
  type MaterialFamily,
  type Shop,
  ANY_IMPORT,
  holdsCutsAlone,
} from '../../model/shop.ts';
import { laidPages } from '../../paper/laid/laid-pages.ts';
import type { LaidPicture } from '../../paper/laid/laid-picture.ts';
import { sheetDrawing } from '../../paper/laid/sheet-drawing.ts';
import { pagesSvg } from '../../paper/write/pages-svg.ts';
import { writePdf } from '../../paper/write/pdf.ts';
import { figure } from '../../text/figures.ts';
import { cleanRectangle } from '../../stock/remnants.ts';
import { shearedPieces } from '../../stock/sheared.ts';
import { printedIn, type PrintUnit } from '../../text/printed.ts';
import { safeName } from '../../text/safe-name.ts';
import type { DrawingForm } from '../made-part.ts';
import { cutFileMark } from '../outputs/cut-file-mark.ts';
import { dxfText } from '../outputs/cut-files.ts';
import {
  cautionsOf,
  cutFindings,
  cutRulesOf,
  type CutterRules,
  shearFindings,
} from './cut-rules.ts';

/** How the files of a laid sheet are made. */
export interface LaidOptions {
  /** Title of the job that it is cut for. */
  readonly job: string;
  /** Its cutter says how a file is written, whether the sheet warps, and what a pierce needs. */
  readonly shop?: Shop | undefined;
  readonly family?: MaterialFamily | undefined;
  /** What the material is called on papers; its id when left out. */
  readonly materialName?: string | undefined;
  /** What goes into the cut file, where it is not what is usual. */
  readonly writing?: Partial<DrawingForm> | undefined;
  readonly paper?: PaperSize | undefined;
  readonly printUnits?: PrintUnit | undefined;
  /** The day that papers bear, in the user's words. */
  readonly date?: string | undefined;
}

/** The files of a laid sheet, and what is told of it. */
export interface LaidFiles {
  readonly files: readonly MarkedFile[];
  /** What lies on the bed at a time, with its cut file: the sheet, or the pieces it is sheared to. */
  readonly pieces: readonly { readonly sheet: LaidSheet; readonly dxf: string }[];
  readonly findings: readonly FindingResult[];
  /** How much of the piece of stock its parts are, holes in them left out. */
  readonly usedPercent: number;
  readonly cutLengthMm: number;
  readonly pierces: number;
  /** The way between cuts. */
  readonly travelMm: number;
  /** The largest clean rectangle that is left of the sheet. */
  readonly clean?: Extents | undefined;
}

/**
 * Mark by which the files of a laid sheet are recognised: it is written into each, and looked for
 * before one is replaced. It is ASCII.
 */
const laidMark = (job: string, sheet: string): string =>
  `blankwright laid ${safeName(sheet)} ${encodeURIComponent(job.replace(/\p{Cs}/gu, '?'))}`;

/**
 * The files of one laid sheet: the DXF, its cuts in the order in which they are to be cut, and a
 * picture of it for the table, as SVG and PDF. Of a sheet that is sheared first these are made of
 * each piece that has parts. The same sheet gives the same bytes.
 */
export const laidFiles = async (
  sheet: LaidSheet,
  drawings: ReadonlyMap<string, Drawing>,
  options: LaidOptions,
): Promise<LaidFiles> => {
  const outlines = outlinesOn(sheet, drawings);
  const rules = cutRulesOf(options.shop, sheet, options.family);
  const all = shearedPieces(sheet, outlines).map(
    (piece) => [piece, cleanRectangle(piece, outlines)] as const,
  );
  const pieces: PieceFiles[] = [];
  for (const [piece, clean] of all)
    if (all.length === 1 || piece.parts.length > 0)
      pieces.push(await pieceFiles(piece, clean, drawings, { rules, options }));
  const sum = (of: (piece: PieceFiles) => number): number =>
    pieces.reduce((total, piece) => total + of(piece), 0);
  return {
    files: pieces.flatMap(({ files }) => files),
    pieces: pieces.map(({ sheet: one, dxf }) => ({ sheet: one, dxf })),
    findings: [...shearFindings(sheet, rules), ...pieces.flatMap(({ findings }) => findings)],
    usedPercent: usedPercent(sheet, drawings),
    cutLengthMm: sum(({ cutMm }) => cutMm),
    pierces: sum(({ order }) => order.cuts.length),
    travelMm: sum(({ order }) => order.travelMm),
    clean: largestOf(all),
  };
};

interface PieceFiles {
  readonly sheet: LaidSheet;
  readonly dxf: string;
  readonly files: readonly MarkedFile[];
  readonly findings: readonly FindingResult[];
  readonly cutMm: number;
  readonly order: SheetCuts['order'];
}

/** The files of what lies on the cutter's bed at a time. */
const pieceFiles = async (
  sheet: LaidSheet,
  clean: Extents | undefined,
  drawings: ReadonlyMap<string, Drawing>,
  { rules, options }: { readonly rules: CutterRules; readonly options: LaidOptions },
): Promise<PieceFiles> => {
  const cuts = sheetCuts(sheet, drawings, rules);
  const mark = laidMark(options.job, sheet.name);
  const drawing = sheetDrawing(cuts, { title: sheet.name, mark, remarks: [] });
  const base = safeName(sheet.name);
  const dxf = dxfText(drawing, formOf(sheet, options));
  const cut = { name: `${base}.dxf`, contents: dxf };
  const told = {
    usedPercent: usedPercent(sheet, drawings),
    cutLengthMm: cutLengthMm(cuts),
    clean,
  };
  const paperMark = await cutFileMark(sheet.name, undefined, [cut]);
  const picture = { cuts, paperMark, ...told, ...wordsOf(sheet, rules, options) };
  const pages = laidPages(picture, sheetName(options.paper ?? 'a4'));
  return {
    sheet,
    dxf,
    files: [
      cut,
      { name: `${base}.svg`, contents: pagesSvg(pages, { title: sheet.name, mark }) },
      { name: `${base}.pdf`, contents: writePdf(pages, { title: sheet.name, mark }) },
    ].map((file) => ({ ...file, mark })),
    findings: cutFindings(cuts, rules),
    cutMm: told.cutLengthMm,
    order: cuts.order,
  };
};

/** The largest of the clean rectangles on the pieces of a sheet, in the coordinates of the sheet. */
const largestOf = (
  all: readonly (readonly [piece: LaidSheet, clean: Extents | undefined])[],
): Extents | undefined => {
  const area = ({ minX, minY, maxX, maxY }: Extents): number => (maxX - minX) * (maxY - minY);
  return all
    .flatMap(([{ shearedFrom: { xMm, yMm } = { xMm: 0, yMm: 0 } }, clean]) =>
      clean === undefined
        ? []
        : [
            {
              minX: clean.minX + xMm,
              maxX: clean.maxX + xMm,
              minY: clean.minY + yMm,
              maxY: clean.maxY + yMm,
            },
          ],
    )
    .reduce<Extents | undefined>(
      (best, one) => (best === undefined || area(one) > area(best) ? one : best),
      undefined,
    );
};

/** What a picture says besides its figures. */
const wordsOf = (
  { material, thicknessMm }: LaidSheet,
  rules: CutterRules,
  { job, family, materialName = material, printUnits, date = '' }: LaidOptions,
): Omit<LaidPicture, 'cuts' | 'paperMark' | 'usedPercent' | 'cutLengthMm' | 'clean'> => ({
  job,
  material: `${materialName}, ${figure(thicknessMm, 3)} mm`,
  cutter: rules.cutter?.name,
  mayWarp: rules.mayWarp,
  cautions: cautionsOf(rules, family),
  date,
  print: printedIn(printUnits),
});

/** Outline and holes of each part that lies on a sheet, as they are cut. */
const outlinesOn = (
  { parts }: LaidSheet,
  drawings: ReadonlyMap<string, Drawing>,
): ReadonlyMap<string, Region> =>
  new Map(
    [...new Set(parts.map(({ name }) => name))].flatMap((name) => {
      const piece = cutPieceOf(drawings.get(name)?.items ?? []);
      return piece === undefined ? [] : [[name, metalOf(piece)] as const];
    }),
  );

/** The form that the cutter's program takes, where nothing else is asked for. */
const formOf = ({ thicknessMm }: LaidSheet, { shop, writing = {} }: LaidOptions): DrawingForm => {
  const form = writing.form ?? (shop === undefined ? ANY_IMPORT : importFor(shop, thicknessMm));
  return {
    form,
    cutOnly: writing.cutOnly === true || holdsCutsAlone(form),
    dxfVersion: writing.dxfVersion ?? 'r2000',
  };
};
