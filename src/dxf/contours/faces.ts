import { backwards, type Piece, pointOn } from '../../geometry/piece.ts';
import { pieceLength } from '../../geometry/piece-length.ts';
import { distance, sub, type Vec2 } from '../../geometry/vec2.ts';
import { byKey } from '../../text/grouped.ts';
import type { Edge } from './cycles.ts';

/** A piece between two points where pieces meet, given by the numbers of the points. */
export interface PieceEdge<P extends Piece> extends Edge {
  readonly piece: P;
}

/** A piece as it is walked, with the number of the point where it begins. */
export interface Step<P extends Piece> {
  readonly piece: P;
  readonly node: number;
  /** Number of the edge. */
  readonly edge: number;
}

/**
 * The rounds of a plan. Each edge is walked once in either direction, and at every point the walk
 * turns as far to the left as it can. A round that encloses metal runs counter-clockwise; one that
 * goes round a whole figure from outside runs clockwise. Two figures with a common edge give a
 * round each. All edges must lie on closed ways.
 */
export const facesOf = <P extends Piece>(edges: readonly PieceEdge<P>[]): Step<P>[][] => {
  const steps = edges.flatMap(({ piece, a, b }, edge): Step<P>[] => [
    { piece, node: a, edge },
    { piece: { ...piece, ...backwards(piece) }, node: b, edge },
  ]);
  const after = successors(edges, steps);
  const walked = new Uint8Array(steps.length);
  const faces: Step<P>[][] = [];
  for (let start = 0; start < steps.length; start++) {
    const face: Step<P>[] = [];
    for (let at = start; walked[at] === 0; at = after[at] as number) {
      walked[at] = 1;
      face.push(steps[at] as Step<P>);
    }
    if (face.length > 0) faces.push(face);
  }
  return faces;
};

/**
 * The step that follows each step: of the steps that leave the point where it ends, the next one
 * clockwise from its way back.
 */
const successors = <P extends Piece>(
  edges: readonly PieceEdge<P>[],
  steps: readonly Step<P>[],
): Int32Array => {
  const leaving = byKey([...steps.keys()], (i) => (steps[i] as Step<P>).node);
  const after = new Int32Array(2 * edges.length);
  for (const all of leaving.values()) {
    const round = all.length > 2 ? byDirection(all, steps) : all;
    // Steps 2 i and 2 i + 1 are the two ways along one edge.
    round.forEach((step, k) => (after[step ^ 1] = round.at(k - 1) as number));
  }
  return after;
};

/**
 * Orders pieces counter-clockwise by where each crosses a small circle round the point. Pieces that
 * touch one another at the point are apart farther out, where the rounding of their ends no longer
 * counts.
 */
const byDirection = <P extends Piece>(
  all: readonly number[],
  steps: readonly Step<P>[],
): number[] => {
  const pieces = all.map((i) => (steps[i] as Step<P>).piece);
  const lengths = pieces.map(pieceLength);
  const reach =
    pieces.reduce(
      (least, p, k) => Math.min(least, lengths[k] as number, 2 * distance(p.from, p.to)),
      Infinity,
    ) / 2;
  const angles = new Map(
    all.map((step, k) => {
      const p = pieces[k] as P;
      const [x, y]: Vec2 = sub(pointOn(p, reach / (lengths[k] as number)), p.from);
      return [step, Math.atan2(y, x)];
    }),
  );
  return all.toSorted((a, b) => (angles.get(a) as number) - (angles.get(b) as number));
};

/**
 * A closed way as rounds that pass no point twice: wherever the way comes back to a point, a round
 * is split off.
 */
export const simpleRounds = <P extends Piece>(way: readonly Step<P>[]): Step<P>[][] => {
  const rounds: Step<P>[][] = [];
  const open: Step<P>[] = [];
  const place = new Map<number, number>();
  for (const step of way) {
    const seen = place.get(step.node);
    if (seen !== undefined) {
      const round = open.splice(seen);
      for (const { node } of round) place.delete(node);
      rounds.push(round);
    }
    place.set(step.node, open.length);
    open.push(step);
  }
  return [...rounds, ...(open.length > 0 ? [open] : [])];
};
