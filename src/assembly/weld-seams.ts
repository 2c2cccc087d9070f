import { grouped } from '../text/grouped.ts';
import { LEAST_SEAM_MM, type Seam } from '../welds/seam-along.ts';
import { seamsBetween } from '../welds/seams.ts';
import type { Assembly, PlacedPiece } from './assembly.ts';
import type { JointKind } from './joint-kind.ts';
import { joinedBody, type JoinedBody } from './joined-body.ts';
import { isInHole, isNearest, type KindOfRun, runOf, type WeldRun } from './weld-run.ts';

/** A weld that has a letter: all stretches between two pieces and those like them, or within one. */
export interface Weld {
  readonly letter: string;
  /** Ids of the pieces, the one that stands first before the other; one twice for its own corners. */
  readonly pieces: readonly [string, string];
  readonly kind: JointKind;
  /** The turn of joining in which it is welded; 0 within a piece, before that is joined. */
  readonly turn: number;
  readonly lengthMm: number;
  readonly gapMm: readonly [least: number, most: number];
  readonly runs: readonly WeldRun[];
}

/** The welds of an assembly in the order of joining; letters run in that order. */
export const weldsOf = (assembly: Assembly, joined: JoinedBody = joinedBody(assembly)): Weld[] => {
  const { pieces } = assembly;
  const pieceAt = (panel: string): PlacedPiece => pieces[joined.pieceOf(panel)] as PlacedPiece;
  const may = (a: string, b: string): boolean =>
    joined.pieceOf(a) === joined.pieceOf(b) || areWelded(pieceAt(a), pieceAt(b));
  const seams = seamsBetween(joined.part, joined.flat, joined.body, may);
  const isStretch = ({ lengthMm, panels: [a, b] }: Seam): boolean =>
    lengthMm >= LEAST_SEAM_MM ||
    (joined.pieceOf(a) !== joined.pieceOf(b) && !(isFolded(pieceAt(a)) && isFolded(pieceAt(b))));
  const open = seams.filter((seam) => isStretch(seam) && !isInHole(joined, seam));
  const runs = oneOfEachLap(open.map((seam) => runOf(joined, seam))).filter(({ run }) =>
    isNearest(joined, run),
  );
  const placeOf = (id: string): number => pieces.findIndex((piece) => piece.id === id);
  const idsOf = ({ panels }: WeldRun): readonly [string, string] =>
    panels.map((panel) => pieceAt(panel).id).toSorted((a, b) => placeOf(a) - placeOf(b)) as [
      string,
      string,
    ];
  // A ring meets what leans this way and that, and is one weld all round.
  const keyOf = ({ run, kind }: KindOfRun): string =>
    [...idsOf(run), run.panels.some((panel) => pieceAt(panel).isRolled) ? '' : kind].join(' ');
  return grouped(runs, keyOf)
    .map((group) => weldOf(pieces, idsOf(group[0]?.run as WeldRun), group))
    .toSorted(
      (a, b) =>
        a.turn - b.turn ||
        placeOf(a.pieces[1]) - placeOf(b.pieces[1]) ||
        placeOf(a.pieces[0]) - placeOf(b.pieces[0]),
    )
    .map((weld, i) => ({ ...weld, letter: letterOf(i) }));
};

/** A to Z, then AA; I and O are left out, since they are read as figures (common practice). */
export const letterOf = (i: number): string =>
  i < LETTERS.length
    ? LETTERS.charAt(i)
    : letterOf(Math.floor(i / LETTERS.length) - 1) + LETTERS.charAt(i % LETTERS.length);

const LETTERS = 'ABCDEFGHJKLMNPQRSTUVWXYZ';

const areWelded = (a: PlacedPiece, b: PlacedPiece): boolean =>
  a.weldedTo?.includes(b.id) !== false && b.weldedTo?.includes(a.id) !== false;

/** Whether a piece is of facets that are folded; short ends of two such pieces only meet in a point. */
const isFolded = ({ isRolled, part }: PlacedPiece): boolean =>
  isRolled !== true && part.folds.some(({ midSurface }) => midSurface === true);

/**
 * Of the edges of a lap one is enough: a long one, and of two that run beside each other, a rim and
 * that of the flange on it, the one that lies on the metal of the other. Every other seam stands for
 * itself.
 */
const oneOfEachLap = (runs: readonly KindOfRun[]): KindOfRun[] => [
  ...runs.filter(({ run }) => !run.seam.isLap),
  ...grouped(
    runs.filter(({ run }) => run.seam.isLap),
    ({ run }) => run.panels.toSorted().join(' '),
  ).map((group) => {
    const long = group.toSorted((a, b) => Math.round(b.run.lengthMm - a.run.lengthMm));
    const least = LONG_SHARE * (long[0] as KindOfRun).run.lengthMm;
    return (long.find(({ run, kind }) => kind !== 'edge' && run.lengthMm > least) ??
      long[0]) as KindOfRun;
  }),
];

/** Edges that run beside each other are as long, but for what is cut off the corners of a flange. */
const LONG_SHARE = 0.9;

const weldOf = (
  pieces: readonly PlacedPiece[],
  [a, b]: readonly [string, string],
  group: readonly KindOfRun[],
): Weld => {
  const runs = group.map(({ run }) => run);
  const gaps = runs.map(({ gapMm }) => gapMm);
  const turnOf = (id: string): number => pieces.find((piece) => piece.id === id)?.turn ?? 1;
  const isRing = pieces.some(({ id, isRolled }) => isRolled && (id === a || id === b));
  return {
    letter: '',
    pieces: [a, b],
    // What meets a ring leans this way and that, but ends at it edge to edge.
    kind: isRing ? 'butt' : (group[0]?.kind ?? 'butt'),
    turn: a === b ? 0 : Math.max(turnOf(a), turnOf(b)),
    lengthMm: runs.reduce((sum, { lengthMm }) => sum + lengthMm, 0),
    gapMm: [Math.min(...gaps), Math.max(...gaps)],
    runs,
  };
};
