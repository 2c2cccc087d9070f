import { printedBlock } from '../../paper/sheet/printed-block.ts';
import { type Printed, printedIn, type PrintUnit } from '../../text/printed.ts';
import type { Assembly } from '../../assembly/assembly.ts';
import { boltedHoles, type BoltedHoles } from '../../assembly/bolted-holes.ts';
import { joinedBody, type JoinedBody } from '../../assembly/joined-body.ts';
import { accessOf } from '../../assembly/weld-access.ts';
import { weldsOf } from '../../assembly/weld-seams.ts';
import { type Caution, CAUTIONS, cautionsAmong } from '../../data/cautions.ts';
import { TORCH } from '../../data/welding.ts';
import { cameraFor, explodedView, type ShownPiece } from '../../paper/draw/exploded-view.ts';
import type { PaperMark } from '../../model/paper-mark.ts';
import type { SheetName } from '../../model/paper.ts';
import { boxOf } from '../../paper/draw/view-direction.ts';
import {
  contentMm,
  type Fact,
  type SheetBlock,
  linksHome,
  type SheetContent,
  type SheetHead,
  type SheetStep,
  texts,
} from '../../paper/sheet/content.ts';
import { cautionOfPages } from '../../paper/sheet/sheet-head.ts';
import { firstPageSpareMm } from '../../paper/sheet/sheet-pages.ts';
import { figure } from '../../text/figures.ts';
import { apartLines } from './apart-lines.ts';
import type { MadeSet } from './assembled.ts';
import { joinSteps, type JoinStep, type ReachedWeld } from './assembly-words.ts';
import { boltTable, pieceTable, weldTable } from './assembly-tables.ts';
import { marksOfWelds, shownPieces } from './shown-pieces.ts';

/** What the papers of a set tell beside its pieces. */
export interface AssemblyRequest {
  readonly set: MadeSet;
  readonly note?: string | undefined;
  readonly revision?: string | undefined;
  readonly date?: string | undefined;
  /** By the cut files of all pieces; by the name alone when left out. */
  readonly paperMark?: PaperMark | undefined;
  /** A4 when left out. */
  readonly paper?: SheetName | undefined;
  /** Whether there is another hand from which this one has to be told; it is when left out. */
  readonly isHanded?: boolean | undefined;
  /** Where the front page of its job lies from its folder. */
  readonly home?: string | undefined;
  /** mm when left out. */
  readonly units?: PrintUnit | undefined;
}

/** Views on A4, as shares of the width of its content; wider paper has larger ones. */
const APART = { wide: 1, high: 132 / 190 };
const WHOLE = { wide: 116 / 190, high: 50 / 190 };
const STEP = { wide: 88 / 190, high: 60 / 190 };
interface ViewSize {
  readonly widthMm: number;
  readonly heightMm: number;
}

const viewOn = (paper: SheetName, { wide, high }: typeof APART): ViewSize => ({
  widthMm: wide * contentMm(paper),
  heightMm: high * contentMm(paper),
});
/** Of faces of arcs on paper, as a share of the size of the whole. */
const VIEW_SHARE = 1 / 1500;

/**
 * The papers of a whole that is welded or bolted of several pieces: cautions first, the pieces moved
 * apart with the letters of their seams, the tables of welds and bolts, and the order of joining step
 * by step.
 */
export const assemblySheet = ({
  set,
  note,
  revision,
  date = '',
  paperMark = { part: set.name, revision },
  paper = 'a4',
  isHanded = true,
  home,
  units,
}: AssemblyRequest): SheetContent => {
  const print = printedIn(units);
  const joined = joinedBody(set.assembly);
  const welds = weldsWithAccess(set.assembly, joined);
  const bolts = boltedHoles(set.assembly);
  const [one] = set.parts;
  if (one === undefined) throw new Error('a set of nothing');
  const { result, material } = one;
  const sheet = { material, thicknessMm: result.material.thicknessMm };
  const shown = shownPieces(set.assembly.pieces, sizeOf(set.assembly) * VIEW_SHARE);
  const cautions = cautionsOf(set, welds);
  const head: SheetHead = {
    name: set.name,
    ...(isHanded && { hand: `${result.hand.toUpperCase()} HAND` }),
    quantity: `Assembly of ${set.assembly.pieces.length} pieces`,
    sheet: `${material.name}, ${figure(result.material.thicknessMm, 3)} mm`,
    lines: [
      result.family,
      ...(revision === undefined ? [] : [`Revision ${revision}`]),
      ...(note === undefined ? [] : [note]),
      ...apartLines(set.parts.map((part) => part.result)),
    ],
    ...cautionOfPages(cautions),
    mark: set.mark,
    paperMark,
    title: {
      paper: `${set.base}-assembly`,
      scale: 'not to scale',
      revision: revision ?? '',
      date,
    },
  };
  const first: SheetBlock[] = [
    ...texts(
      'Before you begin',
      cautions.map(({ text }) => ({ text })),
    ),
    overviewOf(set, { welds, bolts }, shown, viewOn(paper, WHOLE), print),
  ];
  const apart = apartSize(paper, Math.max(0, firstPageSpareMm({ paper, head, blocks: first })));
  return {
    paper,
    links: linksHome(home),
    head,
    blocks: [
      ...first,
      ...(shown === undefined ? [] : [apartBlock(shown, joined, welds, apart)]),
      ...(welds.length > 0 ? [weldTable(welds, sheet, print)] : []),
      ...(bolts.length > 0 ? [boltTable(bolts, print)] : []),
      stepsBlock(set.assembly, joined, { welds, bolts }, shown, viewOn(paper, STEP)),
      pieceTable(set, print),
    ].map((block) => printedBlock(block, print)),
  };
};

/** The title and the words of the pieces drawn apart, and the least height at which letters are read, mm. */
const APART_WORDS_MM = 20;
const LEAST_APART_MM = 85;

/** The pieces drawn apart take what the first page has left, or a page of their own. */
const apartSize = (paper: SheetName, roomMm: number): ViewSize => {
  const usual = viewOn(paper, APART);
  const heightMm = roomMm - APART_WORDS_MM;
  return heightMm < LEAST_APART_MM ? usual : { ...usual, heightMm };
};

/** The welds of a set, with the sides from which a torch gets to them. */
export const weldsWithAccess = (assembly: Assembly, joined: JoinedBody): ReachedWeld[] => {
  const welds = weldsOf(assembly, joined);
  const access = accessOf(assembly, joined, welds, TORCH);
  return welds.map((weld, i) => ({ ...weld, access: access[i] as ReachedWeld['access'] }));
};

const sizeOf = ({ pieces }: Assembly): number =>
  Math.max(...pieces.flatMap(({ flat }) => [flat.widthMm, flat.heightMm]));

/** Cautions of all pieces, each once; what concerns tanks stands first. What is bolted is not welded. */
const cautionsOf = ({ parts }: MadeSet, welds: readonly ReachedWeld[]): readonly Caution[] => {
  const all = cautionsAmong(parts.flatMap(({ result }) => result.findings));
  if (welds.length === 0) return [...new Set(all)];
  const first: readonly Caution[] = all.includes(CAUTIONS['fuel-tank'])
    ? [CAUTIONS['fuel-tank'], CAUTIONS['leak-test']]
    : [];
  return [...new Set([...first, ...all, CAUTIONS['weld-heat']])];
};

/** How the pieces are joined. */
interface Joints {
  readonly welds: readonly ReachedWeld[];
  readonly bolts: readonly BoltedHoles[];
}

const overviewOf = (
  { assembly, parts }: MadeSet,
  { welds, bolts }: Joints,
  shown: readonly ShownPiece[] | undefined,
  size: ViewSize,
  print: Printed,
): SheetBlock => {
  const isWelded = welds.length > 0;
  const length = welds.reduce((sum, { lengthMm }) => sum + lengthMm, 0);
  const countOf = (part: MadeSet['parts'][number]): number => part.standing?.poses.length ?? 1;
  const mass = parts.reduce((sum, part) => sum + countOf(part) * part.result.blank.massKg, 0);
  const [low, high] = boxOf((shown ?? []).flatMap(({ mesh }) => mesh.points));
  const outside = high.map((v, i) => print.tape(v - (low[i] as number), 1)).join(' x ');
  const facts: Fact[] = [
    ...(shown === undefined
      ? []
      : [{ name: `Joined, outside, ${print.word}`, value: outside, isBig: true }]),
    { name: 'Pieces', value: String(assembly.pieces.length), isBig: true },
    isWelded
      ? {
          name: 'Seams',
          value: `${welds.length}, together ${print.tape(length, 0)} ${print.word}`,
          isBig: true,
        }
      : { name: 'Bolts between them', value: String(bolts.length), isBig: true },
    { name: isWelded ? 'Mass without welds' : 'Mass', value: `${figure(mass, 2)} kg` },
  ];
  return {
    kind: 'overview',
    ...(shown !== undefined && {
      picture: explodedView(shown, {
        ...size,
        marks: [],
        isApart: false,
        camera: cameraFor(shown),
      }),
    }),
    facts,
  };
};

const apartBlock = (
  shown: readonly ShownPiece[],
  joined: JoinedBody,
  welds: readonly ReachedWeld[],
  size: ViewSize,
): SheetBlock => ({
  kind: 'picture',
  title: welds.length > 0 ? 'Pieces and seams' : 'Pieces',
  picture: explodedView(shown, {
    ...size,
    marks: marksOfWelds(joined, welds),
    isApart: true,
    camera: cameraFor(shown),
  }),
  captions: [
    welds.length > 0
      ? 'Not to scale. A letter stands at both edges of its seam; an open circle at a broken line is an edge that is not seen from here. The letters I and O are not used.'
      : 'Not to scale.',
  ],
});

const stepsBlock = (
  assembly: Assembly,
  joined: JoinedBody,
  { welds, bolts }: Joints,
  shown: readonly ShownPiece[] | undefined,
  size: ViewSize,
): SheetBlock => ({
  kind: 'steps',
  title: 'Order of joining',
  captions:
    welds.length > 0
      ? [
          'Short runs, now on one side and now on the other, pull the sheet least. Measure again before the next step.',
        ]
      : [],
  across: 2,
  steps: joinSteps(assembly, welds, bolts).map((step, i): SheetStep => ({
    title: `${i + 1}  ${step.title}`,
    lines: step.lines,
    pictures: shown === undefined ? [] : stepPicture(assembly, joined, step, shown, size),
  })),
});

/** What stands when a step is done, with the letters of its seams. */
const stepPicture = (
  { pieces }: Assembly,
  joined: JoinedBody,
  { turn, welds }: JoinStep,
  shown: readonly ShownPiece[],
  size: ViewSize,
) => {
  if (turn === 0) return [];
  const stands = pieces.flatMap((piece, i) => (piece.turn <= turn ? [i] : []));
  const marks = marksOfWelds(joined, welds).map((mark) => ({
    ...mark,
    piece: stands.indexOf(mark.piece),
  }));
  // Both edges lie together now, and one letter is enough.
  const once = marks.filter(
    ({ letter, piece }) => piece === marks.find((mark) => mark.letter === letter)?.piece,
  );
  const some = stands.map((i) => shown[i] as ShownPiece);
  return [explodedView(some, { ...size, marks: once, isApart: false, camera: cameraFor(shown) })];
};
