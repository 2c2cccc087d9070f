import { type DimensionedBlank, dimensionedBlank } from '../draw/dimensioned-blank.ts';
import { stepPictures } from '../draw/fold-step.ts';
import { stepCells } from '../draw/fold-step-picture.ts';
import { STEP_KEY, stepWords } from '../draw/fold-words.ts';
import { foldedView } from '../draw/folded-view.ts';
import { keyedHoles } from '../draw/hole-keys.ts';
import { cautionsAmong, type CautionStep } from '../../data/cautions.ts';
import { DEFAULT_HANDOVER } from '../../model/handover.ts';
import { type Printed, printedIn, type PrintUnit } from '../../text/printed.ts';
import { atLeast, figure } from '../../text/figures.ts';
import { hasStop } from '../../model/finding.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { Part } from '../../model/part.ts';
import type { Picture } from '../../model/picture.ts';
import { rulesUsed } from '../../model/rules-used.ts';
import type { Shop } from '../../model/shop.ts';
import type { PartResult, ReportResult } from '../../contract/part.ts';
import { foldedMesh } from '../../solid/folded-mesh.ts';
import {
  CONTENT_MM,
  type Fact,
  GUTTER_MM,
  type PictureBlock,
  type SheetBlock,
  type SheetContent,
  type SheetLink,
  type SheetStep,
  type TextBlock,
} from './content.ts';
import { checkTable } from './check-table.ts';
import { findingsOf, marksOf } from './sheet-findings.ts';
import { cautionNotice, decisionNotice, headOf, type SheetPart } from './sheet-head.ts';
import {
  bendTable,
  holesTable,
  proofAppendix,
  proofTable,
  reportTables,
  slantedFolds,
} from './tables.ts';

/** A part as it was made, and what is to be told with it. */
export interface SheetRequest {
  readonly made: SheetPart;
  /** Figures and tables of its family; on one sheet of a part list only. */
  readonly report?: ReportResult;
  /** The short form of how well it is likely to fit, a line each. */
  readonly fit?: readonly string[];
  readonly note?: string;
  readonly revision?: string;
  readonly shop?: Shop;
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
  revision,
  shop,
  isHanded = true,
  units,
  links = [],
}: SheetRequest): SheetContent {
  const { result, flat, part, plan } = made;
  const print = printedIn(units);
  const cautions = cautionsAmong(result.findings);
  const cautionTexts = (title: string, ...steps: readonly CautionStep[]): TextBlock[] =>
    texts(
      title,
      cautions.filter(({ at }) => steps.includes(at)).map(({ text }) => ({ text })),
    );
  return {
    links,
    head: headOf(made, isHanded, revision, [
      ...(revision === undefined ? [] : [`Revision ${revision}`]),
      ...(note === undefined ? [] : [note]),
      ...(shop === undefined ? [] : [`For ${shop.name}`]),
    ]),
    blocks: [
      ...texts('What stops it', findingsOf(result.findings, ['stop'])),
      ...cautionNotice(cautions),
      ...decisionNotice(result.findings),
      ...opening(made, print),
      ...bendTable(result, print),
      ...texts('To be decided before it is cut', findingsOf(result.findings, ['warn'])),
      ...slantedFolds(flat, print),
      ...holesTable(keyedHoles(flat), flat, print),
      ...cautionTexts('Cautions: before it is cut and folded', 'cutting', 'folding'),
      ...foldBlocks(made),
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
      ...(report === undefined ? [] : reportTables(report)),
      ...proofTable(result.proof, print),
      ...proofAppendix(result.proof, print),
    ],
  };
}

/** The part in view over the blank, and beside it. */
const VIEW = { widthMm: 116, heightMm: 62 };
const SIDE_VIEW = { widthMm: 86, heightMm: 70 };
/** Of faces of arcs on paper, as a share of the part's size. */
const VIEW_SHARE = 1 / 1500;
/** More names than these hide the part. */
const MOST_NAMED = 12;

const opening = ({ result, part, flat }: SheetPart, print: Printed): SheetBlock[] => {
  const facts = factsOf(result, print);
  const holes = keyedHoles(flat);
  const marks = marksOf(result.findings);
  const under = dimensionedBlank(
    flat,
    holes,
    {
      widthMm: CONTENT_MM,
      heightMm: blankHeightMm(flat, holes.length),
    },
    marks,
  );
  const beside = dimensionedBlank(
    flat,
    holes,
    {
      widthMm: CONTENT_MM - SIDE_VIEW.widthMm - GUTTER_MM,
      heightMm: sideHeightMm(flat.bends.length),
    },
    marks,
  );
  // Where it is drawn larger.
  const isBeside = beside.scale > under.scale;
  const picture = viewOf(part, flat, result, isBeside ? SIDE_VIEW : VIEW, print);
  const blank = blankBlock(flat, isBeside ? beside : under, marks.length > 0);
  const overview = { kind: 'overview', ...(picture !== undefined && { picture }), facts } as const;
  return isBeside ? [{ ...overview, blank }] : [overview, blank];
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
        { name: 'Area of metal', value: `${figure(blank.areaMm2 / 100, 1)} cm²` },
      ]),
  ...(bends.length === 0 ? [] : [{ name: 'Bends by', value: rulesUsed(rule, bends) }]),
  ...(proof === null
    ? []
    : [
        {
          name: 'Proof of the cut file',
          value: `within ${atLeast(proof.worstMm, 3)} mm in ${proof.measures.length} measures`,
        },
      ]),
];

/**
 * So high that the tables of a few bends and holes stand on the same page; where it is folded both
 * ways, its sizes take more room.
 */
const blankHeightMm = ({ bends }: FlatPattern, holes: number): number =>
  bends.length > 8 || isFoldedBothWays(bends)
    ? 125
    : Math.max(78, 122 - 6.5 * bends.length - (holes > 0 && holes <= 4 ? 13 + 3 * holes : 0));
const isFoldedBothWays = (bends: FlatPattern['bends']): boolean =>
  ([0, 1] as const).every((axis) =>
    bends.some(({ centreLine: [p, q] }) => Math.abs(p[axis] - q[axis]) < 0.05),
  );

const sideHeightMm = (bends: number): number =>
  bends > 8 ? 175 : Math.max(125, 160 - 6.5 * bends);

const blankBlock = (
  flat: FlatPattern,
  { picture, leftOut }: DimensionedBlank,
  isMarked: boolean,
): PictureBlock => {
  const has = (way: 'up' | 'down'): boolean => flat.bends.some((b) => b.direction === way);
  const lines = [
    ...(has('up') ? ['UP: broken line'] : []),
    ...(has('down') ? ['DOWN: broken line with dots'] : []),
  ].join('; ');
  return {
    kind: 'picture',
    title: 'Blank, developed',
    picture,
    captions: [
      `In mm, to 0.1; not to scale. All sizes from 0, the lower left corner. This face is up${flat.bends.length === 0 ? '' : ': UP folds come towards you'}.`,
      ...(lines === '' ? [] : [`Fold lines are the middles of the bends. ${lines}.`]),
      ...(isMarked ? ['Rings with a number: see the findings.'] : []),
      ...(leftOut === 0
        ? []
        : [
            `${leftOut} ${leftOut === 1 ? 'size or name has' : 'sizes or names have'} no room here: see the tables and the cut file.`,
          ]),
    ],
  };
};

/** Pictures of a step alone on its row, and of two side by side. */
const CELLS = { 1: { widthMm: 60, heightMm: 44 }, 2: { widthMm: 29.5, heightMm: 24 } } as const;

const foldBlocks = ({ result: { foldPlan, bends }, plan }: SheetPart): SheetBlock[] => {
  if (bends.length === 0) return [];
  if (foldPlan === null)
    return texts('Folding', [
      { text: 'No order of folds was planned: it is folded by a service, or by hand.' },
    ]);
  if (foldPlan.feasible !== true)
    return texts('Folding', [
      {
        text: `No order of folds is known for ${plan?.machine.name ?? foldPlan.machine}: see the findings.`,
      },
    ]);
  const pictures = plan === undefined ? [] : stepPictures(plan);
  const across = foldPlan.steps.length > 1 ? 2 : 1;
  const steps = foldPlan.steps.map((step, i): SheetStep => {
    const { title, moves, lines } = stepWords(step, i + 1);
    const picture = pictures[i];
    return {
      title,
      lines: [...(moves === null ? [] : [`FIRST ${moves.replace(/^first /, '')}.`]), ...lines],
      pictures: picture === undefined ? [] : stepCells(picture, CELLS[across]),
    };
  });
  return [
    {
      kind: 'steps',
      title: 'Folding',
      captions: [
        `On ${plan?.machine.name ?? foldPlan.machine}. Pictures: before, after, and the part as it lies. ${STEP_KEY}`,
      ],
      across,
      steps,
    },
  ];
};

const texts = (title: string, list: TextBlock['texts']): TextBlock[] =>
  list.length === 0 ? [] : [{ kind: 'texts', title, texts: list }];
