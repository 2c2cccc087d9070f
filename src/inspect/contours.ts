import type { Loop } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { backwards, type Piece } from '../geometry/piece.ts';
import { distance } from '../geometry/vec2.ts';
import { Nodes } from './point-index.ts';

/** A straight line or an arc to be cut, with what it comes from. */
export interface CutPiece extends Piece {
  readonly layer: string;
  readonly entity: number;
}

/** Pieces that follow one another. A closed one runs counter-clockwise. */
export interface Chain {
  readonly closed: boolean;
  readonly pieces: readonly CutPiece[];
}

/** Ends that lie no farther apart are the same point: finer than any cutter, coarser than what programs round to. */
export const JOINED_MM = 0.001;

const MOST_AT_POINT = 1000;

/** One end of a piece at a point where pieces meet. */
interface End {
  readonly piece: number;
  readonly isStart: boolean;
  readonly other: number;
}

/**
 * Joins pieces end to end, whichever way each is drawn. Where more than two meet, what one entity draws stays together;
 * a walk that comes back to a point it has been at leaves a closed contour behind there, so that contours which touch in
 * a point, or a line that hangs on a contour, come out each for themselves.
 */
export const chainsOf = (pieces: readonly CutPiece[], joinMm = JOINED_MM): Chain[] => {
  const nodes = new Nodes(joinMm);
  const ends: End[][] = [];
  pieces.forEach((p, piece) => {
    const [a, b] = [nodes.at(p.from), nodes.at(p.to)];
    (ends[a] ??= []).push({ piece, isStart: true, other: b });
    (ends[b] ??= []).push({ piece, isStart: false, other: a });
  });
  const walker = new Walker(pieces, ends);
  // From loose ends first, so that an open chain is one.
  ends.forEach((at, node) => {
    if (at.length % 2 === 1) walker.walk(node);
  });
  ends.forEach((_, node) => walker.walk(node));
  return walker.chains;
};

interface Step {
  readonly piece: CutPiece;
  /** From where. */
  readonly node: number;
}

class Walker {
  readonly chains: Chain[] = [];
  private readonly used: boolean[] = [];
  private readonly next: number[] = [];
  private readonly pieces: readonly CutPiece[];
  private readonly ends: readonly (readonly End[])[];

  constructor(pieces: readonly CutPiece[], ends: readonly (readonly End[])[]) {
    this.pieces = pieces;
    this.ends = ends;
  }

  walk(start: number): void {
    for (;;) {
      const first = this.unused(start, undefined);
      if (first === undefined) return;
      const steps: Step[] = [];
      const position = new Map<number, number>([[start, 0]]);
      let node = start;
      for (let end: End | undefined = first; end !== undefined; end = this.unused(node, steps.at(-1)?.piece.entity)) {
        this.used[end.piece] = true;
        const piece = this.pieces[end.piece] as CutPiece;
        steps.push({ piece: end.isStart ? piece : { ...piece, ...backwards(piece) }, node });
        node = end.other;
        const seen = position.get(node);
        if (seen === undefined) position.set(node, steps.length);
        else {
          const loop = steps.splice(seen);
          for (const step of loop.slice(1)) position.delete(step.node);
          this.close(loop.map((s) => s.piece));
        }
      }
      if (steps.length > 0) this.chains.push({ closed: false, pieces: steps.map((s) => s.piece) });
    }
  }

  /** A piece that leaves a node and has not been walked; of the entity that led there, where it has one. */
  private unused(node: number, entity: number | undefined): End | undefined {
    const all = this.ends[node] ?? [];
    const from = this.next[node] ?? 0;
    let found: End | undefined;
    let at = from;
    for (; at < all.length; at++) {
      // Where thousands of lines meet in a point it is a star, and no entity is looked for among them.
      if (found !== undefined && at > from + MOST_AT_POINT) break;
      const end = all[at] as End;
      if (this.used[end.piece] === true) {
        if (found === undefined) this.next[node] = at + 1;
        continue;
      }
      found ??= end;
      if (entity === undefined || this.pieces[end.piece]?.entity === entity) return end;
    }
    return found;
  }

  private close(pieces: readonly CutPiece[]): void {
    const area = signedArea(loopOf(pieces));
    // A piece that comes back to where it began within a step is shorter than what is told apart.
    if (pieces.length === 1 && pieces[0] !== undefined && distance(pieces[0].from, pieces[0].to) < JOINED_MM && Math.abs(area) < JOINED_MM ** 2) return;
    this.chains.push({ closed: true, pieces: area < 0 ? pieces.toReversed().map((p) => ({ ...p, ...backwards(p) })) : pieces });
  }
}

/** A closed chain as a loop: each piece ends where the next begins. */
export const loopOf = (pieces: readonly Piece[]): Loop => pieces.map(({ from, bulge }) => ({ x: from[0], y: from[1], bulge }));
