import { printedBlock } from '../../paper/sheet/printed-block.ts';
import { type Printed, printedIn, type PrintUnit } from '../../text/printed.ts';
import type { Assembly } from '../../assembly/assembly.ts';
import { joinedBody, type JoinedBody } from '../../assembly/joined-body.ts';
import { accessOf } from '../../assembly/weld-access.ts';
import { weldsOf } from '../../assembly/weld-seams.ts';
import { type Caution, CAUTIONS, cautionsAmong } from '../../data/cautions.ts';
import { TORCH } from '../../data/welding.ts';
import { cameraFor, explodedView, type ShownPiece } from '../../paper/draw/exploded-view.ts';
import { boxOf } from '../../paper/draw/view-direction.ts';
import {
  CONTENT_MM,
  type Fact,
  type SheetBlock,
  linksHome,
  type SheetContent,
  type SheetStep,
  type TableBlock,
  texts,
} from '../../paper/sheet/content.ts';
import { figure } from '../../text/figures.ts';
import type { MadeSet } from './assembled.ts';
import {
  accessText,
  betweenText,
  gapText,
  joinSteps,
  type JoinStep,
  kindText,
  type ReachedWeld,
  stretchesText,
} from './assembly-words.ts';
import { marksOfWelds, shownPieces } from './shown-pieces.ts';

/** What the papers of a set tell beside its pieces. */
export interface AssemblyRequest {
  readonly set: MadeSet;
  readonly note?: string | undefined;
  readonly revision?: string | undefined;
  /** Whether there is another hand from which this one has to be told; it is when left out. */
  readonly isHanded?: boolean | undefined;
  /** Where the front page of its job lies from its folder. */
  readonly home?: string | undefined;
  /** mm when left out. */
  readonly units?: PrintUnit | undefined;
}

const APART = { widthMm: CONTENT_MM, heightMm: 132 };
const WHOLE = { widthMm: 116, heightMm: 50 };
const STEP = { widthMm: 88, heightMm: 60 };
/** Of faces of arcs on paper, as a share of the size of the whole. */
const VIEW_SHARE = 1 / 1500;

/**
 * The papers of a whole that is welded of several pieces: cautions first, the pieces moved apart with
 * the letters of their seams, the weld table, and the order of joining step by step.
 */
export const assemblySheet = ({
  set,
  note,
  revision,
  isHanded = true,
  home,
  units,
}: AssemblyRequest): SheetContent => {
  const print = printedIn(units);
  const joined = joinedBody(set.assembly);
  const welds = weldsWithAccess(set.assembly, joined);
  const [result] = set.parts.map((part) => part.result);
  if (result === undefined) throw new Error('a set of nothing');
  const shown = shownPieces(set.assembly.pieces, sizeOf(set.assembly) * VIEW_SHARE);
  return {
    links: linksHome(home),
    head: {
      name: set.name,
      ...(isHanded && { hand: `${result.hand.toUpperCase()} HAND` }),
      quantity: `Assembly of ${set.assembly.pieces.length} pieces`,
      sheet: `${set.parts[0]?.material.name ?? ''}, ${figure(result.material.thicknessMm, 3)} mm`,
      lines: [
        result.family,
        ...(revision === undefined ? [] : [`Revision ${revision}`]),
        ...(note === undefined ? [] : [note]),
      ],
      mark: set.mark,
      foot: [
        'assembly',
        ...(revision === undefined ? [] : [`revision ${revision}`]),
        'blankwright',
      ],
    },
    blocks: [
      ...texts(
        'Before you begin',
        cautionsOf(set).map((text) => ({ text })),
      ),
      overviewOf(set, welds, shown, print),
      ...(shown === undefined ? [] : [apartBlock(shown, joined, welds)]),
      weldTable(welds, print),
      stepsBlock(set.assembly, joined, welds, shown),
      pieceTable(set, print),
    ].map((block) => printedBlock(block, print)),
  };
};

/** The welds of a set, with the sides from which a torch gets to them. */
export const weldsWithAccess = (assembly: Assembly, joined: JoinedBody): ReachedWeld[] => {
  const welds = weldsOf(assembly, joined);
  const access = accessOf(assembly, joined, welds, TORCH);
  return welds.map((weld, i) => ({ ...weld, access: access[i] as ReachedWeld['access'] }));
};

const sizeOf = ({ pieces }: Assembly): number =>
  Math.max(...pieces.flatMap(({ flat }) => [flat.widthMm, flat.heightMm]));

/** Cautions of all pieces, each once; what concerns tanks stands first. */
const cautionsOf = ({ parts }: MadeSet): string[] => {
  const all = cautionsAmong(parts.flatMap(({ result }) => result.findings));
  const first: readonly Caution[] = all.includes(CAUTIONS['fuel-tank'])
    ? [CAUTIONS['fuel-tank'], CAUTIONS['leak-test']]
    : [];
  return [...new Set([...first, ...all, CAUTIONS['weld-heat']])].map(({ text }) => text);
};

const overviewOf = (
  { assembly, parts }: MadeSet,
  welds: readonly ReachedWeld[],
  shown: readonly ShownPiece[] | undefined,
  print: Printed,
): SheetBlock => {
  const length = welds.reduce((sum, { lengthMm }) => sum + lengthMm, 0);
  const countOf = (part: MadeSet['parts'][number]): number => part.standing?.poses.length ?? 1;
  const mass = parts.reduce((sum, part) => sum + countOf(part) * part.result.blank.massKg, 0);
  const [low, high] = boxOf((shown ?? []).flatMap(({ mesh }) => mesh.points));
  const size = high.map((v, i) => print.tape(v - (low[i] as number), 1)).join(' x ');
  const facts: Fact[] = [
    ...(shown === undefined
      ? []
      : [{ name: `Joined, outside, ${print.word}`, value: size, isBig: true }]),
    { name: 'Pieces', value: String(assembly.pieces.length), isBig: true },
    {
      name: 'Seams',
      value: `${welds.length}, together ${print.tape(length, 0)} ${print.word}`,
      isBig: true,
    },
    { name: 'Mass without welds', value: `${figure(mass, 2)} kg` },
  ];
  return {
    kind: 'overview',
    ...(shown !== undefined && {
      picture: explodedView(shown, {
        ...WHOLE,
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
): SheetBlock => ({
  kind: 'picture',
  title: 'Pieces and seams',
  picture: explodedView(shown, {
    ...APART,
    marks: marksOfWelds(joined, welds),
    isApart: true,
    camera: cameraFor(shown),
  }),
  captions: [
    'Not to scale. A letter stands at both edges of its seam; an open circle at a broken line is an edge that is not seen from here. The letters I and O are not used.',
  ],
});

const word = (name: string) => ({ name, isText: true });

const weldTable = (welds: readonly ReachedWeld[], print: Printed): TableBlock => ({
  kind: 'table',
  title: 'Seams, in the order in which they are welded',
  columns: [
    { name: 'Seam', isBig: true, isText: true },
    word('Between'),
    word('Joint'),
    { name: `Length ${print.word}`, isBig: true },
    word(`Stretches ${print.word}`),
    { name: `Gap ${print.word}` },
    word('Welded from'),
  ],
  rows: welds.map((weld) => [
    weld.letter,
    betweenText(weld),
    kindText(weld.kind),
    print.tape(weld.lengthMm, 0),
    stretchesText(weld, print),
    gapText(weld.gapMm, print),
    accessText(weld),
  ]),
  captions: [
    'Lengths of the joint, whether it is welded all along or in runs: how much a joint needs is for whoever answers for its strength. Of a lap one edge is counted. A tooth in its slot is welded over from behind.',
    `Reach is that of a straight torch with a nozzle ${figure(TORCH.nozzleMm.value)} mm across, while those pieces stand that are joined before; holes for fittings are no way in.`,
  ],
});

const stepsBlock = (
  assembly: Assembly,
  joined: JoinedBody,
  welds: readonly ReachedWeld[],
  shown: readonly ShownPiece[] | undefined,
): SheetBlock => ({
  kind: 'steps',
  title: 'Order of joining',
  captions: [
    'Short runs, now on one side and now on the other, pull the sheet least. Measure again before the next step.',
  ],
  across: 2,
  steps: joinSteps(assembly, welds).map((step, i): SheetStep => ({
    title: `${i + 1}  ${step.title}`,
    lines: step.lines,
    pictures: shown === undefined ? [] : stepPicture(assembly, joined, step, shown),
  })),
});

/** What stands when a step is done, with the letters of its seams. */
const stepPicture = (
  { pieces }: Assembly,
  joined: JoinedBody,
  { turn, welds }: JoinStep,
  shown: readonly ShownPiece[],
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
  return [explodedView(some, { ...STEP, marks: once, isApart: false, camera: cameraFor(shown) })];
};

const pieceTable = ({ parts }: MadeSet, print: Printed): TableBlock => ({
  kind: 'table',
  title: 'Pieces of one set',
  columns: [
    { name: 'Piece', isBig: true, isText: true },
    { name: 'Off', isBig: true },
    word('Cut file'),
    word(`Blank ${print.word}`),
    { name: 'Folds' },
    { name: 'Mass kg' },
  ],
  rows: parts.map(({ result, base, standing }) => [
    result.piece ?? result.name,
    String(standing?.poses.length ?? 1),
    `${base}.dxf`,
    `${print.tape(result.blank.widthMm, 1)} x ${print.tape(result.blank.heightMm, 1)}`,
    String(result.bends.length),
    figure(result.blank.massKg, 3),
  ]),
});
