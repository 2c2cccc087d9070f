import { printedFinding } from '../../model/printed-finding.ts';
import { cautionsAmong, type CautionStep } from '../../data/cautions.ts';
import { DEFAULT_HANDOVER } from '../../model/handover.ts';
import { printedIn, type PrintUnit } from '../../text/printed.ts';
import { type SheetName, type SizesBy } from '../../model/paper.ts';
import type { Shop } from '../../model/shop.ts';
import type { PartResult, ReportResult } from '../../contract/part.ts';
import { printedBlock } from './printed-block.ts';
import {
  contentMm,
  type SheetContent,
  type SheetHead,
  type SheetLink,
  type TextBlock,
  texts,
} from './content.ts';
import { checkTable } from './check-table.ts';
import { foldBlocks } from './fold-blocks.ts';
import { findingsOf } from './sheet-findings.ts';
import {
  cautionNotice,
  cautionOfPages,
  decisionNotice,
  headOf,
  type PapersAbout,
  type SheetPart,
} from './sheet-head.ts';
import { firstPageSpareMm } from './sheet-pages.ts';
import {
  bendTable,
  blankTables,
  hitTables,
  proofAppendix,
  proofTable,
  reportTables,
} from './tables.ts';
import { opening, type Opening } from './sheet-opening.ts';

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
  const head: SheetHead = {
    ...headOf(made, isHanded, { paperMark, revision, date }, [
      ...(revision === undefined ? [] : [`Revision ${revision}`]),
      ...(note === undefined ? [] : [note]),
      ...(shop === undefined ? [] : [`For ${shop.name}`]),
    ]),
    ...(whole !== undefined && { whole }),
    ...cautionOfPages(cautions),
  };
  const notices = [
    ...texts('What stops it', findingsOf(result.findings, ['stop'])),
    ...cautionNotice(cautions),
    ...decisionNotice(result.findings),
  ];
  const pictures = (mostMm?: number): Opening =>
    opening(made, print, { paper, isChain: sizesBy === 'chain', mostMm });
  const first = pictures();
  const spareMm = firstPageSpareMm({
    paper,
    head,
    blocks: [...notices, ...first.blocks].map((block) => printedBlock(block, print)),
  });
  // The blank stands on the first page, smaller where what is above it takes more.
  const { blocks, sizes } = spareMm < 0 ? pictures(first.blankMm + spareMm) : first;
  return {
    paper,
    links,
    head,
    blocks: [
      ...notices,
      ...blocks,
      ...bendTable(result, print),
      ...hitTables(result, print),
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
