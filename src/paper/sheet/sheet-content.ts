import { printedFinding } from '../../model/printed-finding.ts';
import { type DimensionedBlank, dimensionedBlank, type Field } from '../draw/dimensioned-blank.ts';
import { ANGLE_KEY, CHAIN_KEY, FOLD_KEY } from '../draw/line-types.ts';
import { sizesText } from '../sizes/size-tables.ts';
import type { BlankSizes } from '../sizes/blank-sizes.ts';
import type { Datum } from '../sizes/datum.ts';
import { datumText } from '../sizes/datum-text.ts';
import { foldedView } from '../draw/folded-view.ts';
import { cautionsAmong, type CautionStep } from '../../data/cautions.ts';
import { DEFAULT_HANDOVER } from '../../model/handover.ts';
import { type Printed, printedIn, type PrintUnit } from '../../text/printed.ts';
import { atLeast, figure } from '../../text/figures.ts';
import { hasStop } from '../../model/finding.ts';
import type { FlatPattern } from '../../model/flat.ts';
import { type SheetName, SHEETS, type SizesBy } from '../../model/paper.ts';
import type { Part } from '../../model/part.ts';
import type { Picture } from '../../model/picture.ts';
import { rulesUsed } from '../../model/rules-used.ts';
import type { Shop } from '../../model/shop.ts';
import type { PartResult, ReportResult } from '../../contract/part.ts';
import { foldedMesh } from '../../solid/folded-mesh.ts';
import { printedBlock } from './printed-block.ts';
import {
  contentMm,
  type Fact,
  GUTTER_MM,
  type PictureBlock,
  type SheetBlock,
  type SheetContent,
  type SheetLink,
  type TextBlock,
  texts,
} from './content.ts';
import { checkTable } from './check-table.ts';
import { foldBlocks } from './fold-blocks.ts';
import { findingsOf, marksOf } from './sheet-findings.ts';
import {
  cautionNotice,
  decisionNotice,
  headOf,
  type PapersAbout,
  type SheetPart,
} from './sheet-head.ts';
import { bendTable, blankTables, proofAppendix, proofTable, reportTables } from './tables.ts';

/** A part as it was made, and what is to be told with it. */
export interface SheetRequest extends PapersAbout {
  readonly made: SheetPart;
  /** Figures and tables of its family; on one sheet of a part list only. */
  readonly report?: ReportResult;
  /** The short form of how well it is likely to fit, a line each. */
  readonly fit?: readonly string[];
  readonly note?: string;
  /** A4 when left out. */
  readonly paper?: SheetName;
  /** How sizes of the blank are written; from the datum when left out. */
  readonly sizes?: SizesBy;
  readonly shop?: Shop;
  /** Name, without ending, of the papers of the whole that it is a piece of. */
  readonly whole?: string;
  /** Whether there is another hand from which this one has to be told; it is when left out. */
  readonly isHanded?: boolean;
  /** mm when left out. */
  readonly units?: PrintUnit;
  readonly links?: readonly SheetLink[];
}

/** Pure data, so that a page for the screen and one for paper tell the same. */
export function sheetContent({
  made,
  report,
  fit = [],
  note,
  paper = 'a4',
  sizes: sizesBy = 'baseline',
  paperMark,
  revision,
  date,
  shop,
  whole,
  isHanded = true,
  units,
  links = [],
}: SheetRequest): SheetContent {
  const { part, plan } = made;
  const print = printedIn(units);
  const result: PartResult = {
    ...made.result,
    findings: made.result.findings.map((f) => printedFinding(f, print)),
  };
  const cautions = cautionsAmong(result.findings);
  const cautionTexts = (title: string, ...steps: readonly CautionStep[]): TextBlock[] =>
    texts(
      title,
      cautions.filter(({ at }) => steps.includes(at)).map(({ text }) => ({ text })),
    );
  const { blocks, sizes } = opening(made, print, { paper, isChain: sizesBy === 'chain' });
  return {
    paper,
    links,
    head: {
      ...headOf(made, isHanded, { paperMark, revision, date }, [
        ...(revision === undefined ? [] : [`Revision ${revision}`]),
        ...(note === undefined ? [] : [note]),
        ...(shop === undefined ? [] : [`For ${shop.name}`]),
      ]),
      ...(whole !== undefined && { whole }),
    },
    blocks: [
      ...texts('What stops it', findingsOf(result.findings, ['stop'])),
      ...cautionNotice(cautions),
      ...decisionNotice(result.findings),
      ...blocks,
      ...bendTable(result, print),
      ...texts('To be decided before it is cut', findingsOf(result.findings, ['warn'])),
      ...blankTables(sizes),
      ...cautionTexts('Cautions: before it is cut and folded', 'cutting', 'folding'),
      ...foldBlocks(made, contentMm(paper), print),
      ...cautionTexts('Cautions: before it is welded and fitted', 'welding', 'fitting'),
      ...checkTable({
        result,
        part,
        machine: plan?.machine.kind ?? 'folder',
        grade: shop?.handover.tolerance ?? DEFAULT_HANDOVER.tolerance,
        print,
      }),
      ...texts(
        'How well it is likely to fit',
        fit.map((text) => ({ text })),
      ),
      ...texts('Notes', findingsOf(result.findings, ['note'])),
      ...(report === undefined ? [] : reportTables(report, print)),
      ...proofTable(result.proof, print),
      ...proofAppendix(result.proof, print),
    ].map((block) => printedBlock(block, print)),
  };
}

/** The part in view over the blank, and beside it, on A4; wider paper has larger ones. */
const VIEW = { widthMm: 116, heightMm: 62 };
const SIDE_VIEW = { widthMm: 86, heightMm: 70 };
const onPaper = ({ widthMm, heightMm }: Field, paper: SheetName): Field => {
  const larger = contentMm(paper) / contentMm('a4');
  return { widthMm: widthMm * larger, heightMm: heightMm * larger };
};
/** How much more height a page has than one of A4, mm. */
const moreHeightMm = (paper: SheetName): number => SHEETS[paper].heightMm - SHEETS.a4.heightMm;
/** Of faces of arcs on paper, as a share of the part's size. */
const VIEW_SHARE = 1 / 1500;
/** More names than these hide the part. */
const MOST_NAMED = 12;

const opening = (
  { result, part, flat, datum }: SheetPart,
  print: Printed,
  { paper, isChain }: { readonly paper: SheetName; readonly isChain: boolean },
): { readonly blocks: readonly SheetBlock[]; readonly sizes: BlankSizes } => {
  const facts = factsOf(result, print);
  const marks = marksOf(result.findings);
  const drawn = (field: Field): DimensionedBlank =>
    dimensionedBlank(flat, datum, field, marks, { isChain, print });
  const longerMm = print.unit === 'mm' ? 0 : LONGER_MM;
  const [view, side] = [onPaper(VIEW, paper), onPaper(SIDE_VIEW, paper)];
  const more = moreHeightMm(paper);
  const under = drawn({
    widthMm: contentMm(paper),
    heightMm:
      blankHeightMm(flat, result.findings) + more - longerMm - (view.heightMm - VIEW.heightMm),
  });
  const beside = drawn({
    widthMm: contentMm(paper) - side.widthMm - GUTTER_MM,
    heightMm: sideHeightMm(flat.bends.length) + more,
  });
  // Where it is drawn larger.
  const isBeside = beside.scale > under.scale;
  const picture = viewOf(part, flat, result, isBeside ? side : view, print);
  const { sizes } = isBeside ? beside : under;
  const blank = blankBlock(datum, isBeside ? beside : under, {
    isMarked: marks.length > 0,
    isChain,
  });
  const overview = { kind: 'overview', ...(picture !== undefined && { picture }), facts } as const;
  return { sizes, blocks: isBeside ? [{ ...overview, blank }] : [overview, blank] };
};

/** Of a stopped part there is nothing to be folded up: its holes may lie off the metal. */
const viewOf = (
  part: Part,
  flat: FlatPattern,
  { folded, bends, findings }: PartResult,
  size: typeof VIEW,
  print: Printed,
): Picture | undefined => {
  if (folded === null || hasStop(findings)) return undefined;
  const mesh = foldedMesh(part, flat, Math.max(0.02, Math.max(...folded.sizeMm) * VIEW_SHARE));
  if (mesh === undefined) return undefined;
  const [x, y, z] = folded.sizeMm.map((v) => print.tape(v, 1)) as [string, string, string];
  const labels =
    bends.length > MOST_NAMED ? {} : { labels: new Map(bends.map(({ id }) => [id, id])) };
  return foldedView(mesh, { ...size, sizes: [x, y, z], ...labels });
};

const factsOf = ({ blank, folded, rule, bends, proof }: PartResult, print: Printed): Fact[] => [
  ...(blank === null
    ? []
    : [
        {
          name: `Blank, ${print.word}`,
          value: `${print.tape(blank.widthMm, 1)} x ${print.tape(blank.heightMm, 1)}`,
          isBig: true,
        },
      ]),
  ...(folded === null
    ? []
    : [
        {
          name: `Folded, outside, ${print.word}`,
          value: folded.sizeMm.map((v) => print.tape(v, 1)).join(' x '),
          isBig: true,
        },
      ]),
  ...(blank === null
    ? []
    : [
        { name: 'Mass', value: `${figure(blank.massKg, 3)} kg` },
        {
          name: 'Cut length',
          value: `${print.machine(blank.cutLengthMm, 0)} ${print.word}, ${blank.pierces} ${blank.pierces === 1 ? 'pierce' : 'pierces'}`,
        },
        { name: 'Area of metal', value: print.area(blank.areaMm2) },
      ]),
  ...(bends.length === 0 ? [] : [{ name: 'Bends by', value: rulesUsed(rule, bends) }]),
  ...(proof === null
    ? []
    : [
        {
          name: 'Proof of the cut file',
          value: print.words(
            `within ${atLeast(proof.worstMm, 3)} mm in ${proof.measures.length} measures`,
          ),
        },
      ]),
];

/** Sizes with fractions, and the words on how they are rounded, take so many more lines of the page, mm. */
const LONGER_MM = 18;

/** What stands above the pictures takes so much of the first page for each notice, mm. */
const NOTICE_MM = 8;

/** One for cautions, one for warnings, one for each stop. */
const noticesAmong = (findings: PartResult['findings']): number =>
  1 +
  (findings.some(({ severity }) => severity === 'warn') ? 1 : 0) +
  findings.filter(({ severity }) => severity === 'stop').length;

/**
 * So high that the tables of one or two bends and a few holes stand on the same page; of more, as high
 * as the page has room for.
 */
const blankHeightMm = (
  { bends, cutouts }: FlatPattern,
  findings: PartResult['findings'],
): number =>
  bends.length > 2
    ? Math.max(78, 134 - NOTICE_MM * noticesAmong(findings))
    : Math.max(
        78,
        122 -
          6.5 * bends.length -
          (cutouts.length > 0 && cutouts.length <= 4 ? 13 + 3 * cutouts.length : 0),
      );

const sideHeightMm = (bends: number): number =>
  bends > 8 ? 175 : Math.max(125, 160 - 6.5 * bends);

const blankBlock = (
  datum: Datum,
  { picture, leftOut, sizes }: DimensionedBlank,
  { isMarked, isChain }: { readonly isMarked: boolean; readonly isChain: boolean },
): PictureBlock => ({
  kind: 'picture',
  title: 'Blank, developed',
  picture,
  captions: [
    `${sizesText(sizes.print)} Not to scale. ${datumText(datum)}${isChain ? ` ${CHAIN_KEY}` : ''}`,
    ...(sizes.drawn.flat.bends.length === 0
      ? ['This face is up.']
      : [`This face is up. ${FOLD_KEY} ${ANGLE_KEY}`]),
    ...(isMarked ? ['Rings with a number: see the findings.'] : []),
    ...(leftOut === 0
      ? []
      : [`${leftOut} ${leftOut === 1 ? 'name has' : 'names have'} no room here: see the tables.`]),
  ],
});
