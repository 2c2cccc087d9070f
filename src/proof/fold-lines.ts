import { doubledIn, CUT_AS_ONE_MM, shareOf } from '../dxf/contours/overlap.ts';
import { Nodes } from '../dxf/contours/point-index.ts';
import type { Stroke } from '../dxf/read/explode.ts';
import { type Piece, pointOn } from '../geometry/piece.ts';
import { distance, type Vec2 } from '../geometry/vec2.ts';
import type { FoldLine } from './file-lines.ts';

/** The fold lines of a layer, and the places where one lies on another. */
export const foldsOn = (
  strokes: readonly Stroke[],
  direction: FoldLine['direction'],
): { readonly folds: readonly FoldLine[]; readonly doubled: readonly Vec2[] } => {
  const lines = strokes.flatMap(({ primitive }) =>
    primitive.kind === 'piece' &&
    primitive.piece.bulge === 0 &&
    distance(primitive.piece.from, primitive.piece.to) > 0
      ? [primitive.piece]
      : [],
  );
  const doubled = lines.length > 1 ? doubledIn(lines) : [];
  // A line that another covers only in part is a line too many, and is reported as such.
  const gone = new Set(
    doubled.filter(({ stretch }) => stretch.from === 0 && stretch.to === 1).map((d) => d.piece),
  );
  const kept = lines.filter((_, i) => !gone.has(i));
  return {
    folds: wholeLines(kept).map(({ from, to }) => ({ from, to, direction })),
    doubled: doubled.map(({ piece, stretch }) => pointOn(lines[piece] as Piece, stretch.from)),
  };
};

/**
 * Joins lines that continue one another, because programs break a line where another crosses it.
 */
const wholeLines = (lines: readonly Piece[]): readonly Piece[] => {
  const ends = new Ends();
  for (const line of lines) {
    let whole = line;
    for (let next = ends.inRowWith(whole); next !== undefined; next = ends.inRowWith(whole)) {
      ends.take(next.line);
      whole = next.both;
    }
    ends.put(whole);
  }
  return [...ends.lines];
};

/** Lines by their end points. */
class Ends {
  readonly lines = new Set<Piece>();
  private readonly nodes = new Nodes(CUT_AS_ONE_MM);
  private readonly byNode = new Map<number, Set<Piece>>();

  put(line: Piece): void {
    this.lines.add(line);
    for (const end of [line.from, line.to]) this.at(end).add(line);
  }

  take(line: Piece): void {
    this.lines.delete(line);
    for (const end of [line.from, line.to]) this.at(end).delete(line);
  }

  /** A line that continues this one, and the two joined into one. */
  inRowWith({ from, to }: Piece): { readonly line: Piece; readonly both: Piece } | undefined {
    for (const [end, start] of [
      [from, to],
      [to, from],
    ] as const) {
      for (const line of this.at(end)) {
        const both: Piece = {
          from: start,
          to: distance(line.from, end) > distance(line.to, end) ? line.from : line.to,
          bulge: 0,
        };
        const share = shareOf(both, end);
        if (share !== undefined && share > 0 && share < 1) return { line, both };
      }
    }
    return undefined;
  }

  private at(p: Vec2): Set<Piece> {
    const node = this.nodes.at(p);
    const found = this.byNode.get(node) ?? new Set<Piece>();
    this.byNode.set(node, found);
    return found;
  }
}
