import type { Loop } from '../../geometry/loop.ts';
import { signedArea } from '../../geometry/measure.ts';
import { backwards, partBulge, type Piece, pointOn } from '../../geometry/piece.ts';
import { lengthOf, pieceLength } from '../../geometry/piece-length.ts';
import { byKey } from '../../text/grouped.ts';
import { onCycles } from './cycles.ts';
import { facesOf, type PieceEdge, simpleRounds, type Step } from './faces.ts';
import { Nodes } from './point-index.ts';

/**
 * Ends that lie no farther apart than this are the same corner, mm. It is finer than any cutter,
 * and as far as rounding moves a point in programs that keep three decimals, or four of an inch.
 */
export const JOINED_MM = 0.005;

/** Connected pieces: rounds, each counter-clockwise, and lines with two ends. */
export interface Joined<P extends Piece> {
  readonly closed: readonly (readonly P[])[];
  readonly open: readonly (readonly P[])[];
}

/**
 * Joins pieces end to end, whichever way each is drawn and in whatever order they come. The rounds
 * of the plan that they make are contours, two of which may share an edge. A piece on no round
 * belongs to a line, which ends where others branch off. No two of the pieces may lie on one
 * another.
 */
export const joined = <P extends Piece>(pieces: readonly P[]): Joined<P> => {
  const { edges, cyclic } = networkOf(pieces);
  const [inRounds, loose] = [edges.filter((_, i) => cyclic[i]), edges.filter((_, i) => !cyclic[i])];
  const rounds = facesOf(inRounds)
    .flatMap(simpleRounds)
    .filter((round) => signedArea(loopOf(piecesIn(round))) > 0);
  const used = new Set(rounds.flatMap((round) => round.map((s) => s.edge)));
  const { closed, thin } = sorted(rounds.map(piecesIn));
  // Lines that cross where there is no corner may enclose nothing.
  const left = inRounds.flatMap((e, i) => (used.has(i) ? [] : [e.piece]));
  return { closed, open: [...linesOf(loose, edges), ...[...thin, ...left].map((p) => [p])] };
};

/** The pieces that lie on a round. */
export const onRounds = <P extends Piece>(pieces: readonly P[]): P[] => {
  const { edges, cyclic } = networkOf(pieces);
  return edges.filter((_, i) => cyclic[i]).map((e) => e.piece);
};

const networkOf = <P extends Piece>(
  pieces: readonly P[],
): { readonly edges: PieceEdge<P>[]; readonly cyclic: boolean[] } => {
  const nodes = new Nodes(JOINED_MM);
  const edges = pieces.flatMap((p) => edgesOf(p, nodes));
  return { edges, cyclic: onCycles(edges, nodes.count) };
};

const piecesIn = <P extends Piece>(round: readonly Step<P>[]): P[] => round.map((s) => s.piece);

/**
 * The rounds of a line that is drawn in one go and comes back to where it began; it may pass a
 * point twice.
 */
export const closedBy = <P extends Piece>(pieces: readonly P[]): Joined<P> => {
  const nodes = new Nodes(JOINED_MM);
  const way = pieces
    .flatMap((p) => edgesOf(p, nodes))
    .map(({ piece, a }, edge): Step<P> => ({ piece, node: a, edge }));
  const rounds = simpleRounds(way)
    .map(piecesIn)
    .map((round) =>
      signedArea(loopOf(round)) < 0
        ? round.toReversed().map((p): P => ({ ...p, ...backwards(p) }))
        : round,
    );
  const { closed, thin } = sorted(rounds);
  return { closed, open: thin.map((p) => [p]) };
};

/**
 * Separates rounds that enclose metal from the others. A way out and back encloses none, and is
 * one line.
 */
const sorted = <P extends Piece>(
  rounds: readonly (readonly P[])[],
): { readonly closed: (readonly P[])[]; readonly thin: P[] } => {
  const isThin = (round: readonly P[]): boolean =>
    2 * signedArea(loopOf(round)) < JOINED_MM * lengthOf(round);
  return {
    closed: rounds.filter((round) => !isThin(round)),
    thin: rounds.filter(isThin).flatMap((round) => round.slice(0, Math.ceil(round.length / 2))),
  };
};

/**
 * The edges of a piece. A piece shorter than the distance at which two points are told apart has
 * none; one that goes all round is split into two halves.
 */
const edgesOf = <P extends Piece>(piece: P, nodes: Nodes): PieceEdge<P>[] => {
  const [a, b] = [nodes.at(piece.from), nodes.at(piece.to)];
  if (a !== b) return [{ piece, a, b }];
  if (pieceLength(piece) <= 2 * JOINED_MM) return [];
  const [at, bulge] = [pointOn(piece, 0.5), partBulge(piece.bulge, 0, 0.5)];
  const middle = nodes.at(at);
  return [
    { piece: { ...piece, to: at, bulge }, a, b: middle },
    { piece: { ...piece, from: at, bulge }, a: middle, b },
  ];
};

/** Lines from end to end; each ends where nothing follows, or more than one piece does. */
const linesOf = <P extends Piece>(
  loose: readonly PieceEdge<P>[],
  all: readonly PieceEdge<P>[],
): P[][] => {
  const endsOf = (edges: readonly PieceEdge<P>[]) =>
    byKey(
      edges.flatMap((edge) => [
        { node: edge.a, edge },
        { node: edge.b, edge },
      ]),
      (end) => end.node,
    );
  const [around, at] = [endsOf(all), endsOf(loose)];
  const goesOn = (node: number): boolean => around.get(node)?.length === 2;
  const left = new Set(loose);
  const walk = (from: number, first: PieceEdge<P>): P[] => {
    const line: P[] = [];
    let node = from;
    for (let edge: PieceEdge<P> | undefined = first; edge !== undefined;) {
      left.delete(edge);
      line.push(edge.a === node ? edge.piece : { ...edge.piece, ...backwards(edge.piece) });
      node = edge.a === node ? edge.b : edge.a;
      edge = goesOn(node) ? at.get(node)?.find((end) => left.has(end.edge))?.edge : undefined;
    }
    return line;
  };
  return loose.flatMap((edge) => {
    if (!left.has(edge)) return [];
    const start = [edge.a, edge.b].find((node) => !goesOn(node));
    return start === undefined ? [] : [walk(start, edge)];
  });
};

/** Pieces that follow one another all round, as a loop; each ends where the next begins. */
export const loopOf = (pieces: readonly Piece[]): Loop =>
  pieces.map(({ from, bulge }) => ({ x: from[0], y: from[1], bulge }));
