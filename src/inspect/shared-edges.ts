import { byKey } from '../text/grouped.ts';
import { type Doubled, shareOf, type Stretch } from '../dxf/contours/overlap.ts';
import { pointOn } from '../geometry/piece.ts';
import { pieceLength } from '../geometry/piece-length.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { CutLines } from './lines.ts';
import type { CutPiece } from './understand.ts';

/** Lines that are drawn, or cut, more than once. */
export interface Doubles {
  /** Stretches of each piece that another draws as well and that no other contour needs. */
  readonly needless: ReadonlyMap<number, readonly Stretch[]>;
  /** Edges that two contours have in common, by pairs of contours. */
  readonly shared: readonly SharedEdge[];
}

export interface SharedEdge {
  readonly lengthMm: number;
  readonly at: Vec2;
}

interface Use {
  readonly contour: number;
  readonly piece: CutPiece;
}

/**
 * Separates lines that are drawn twice for nothing from edges between two contours, which each of
 * them needs.
 */
export const doublesOf = ({ drawn, closed, meetings: { doubled } }: CutLines): Doubles => {
  const uses = byKey(
    closed.flatMap((chain, contour) => chain.map((piece): Use => ({ contour, piece }))),
    (use) => use.piece.source,
  );
  const shared = new Map<string, SharedEdge>();
  const share = (a: number, b: number, at: Vec2, lengthMm: number): void => {
    const key = a < b ? `${a} ${b}` : `${b} ${a}`;
    const known = shared.get(key);
    shared.set(key, { at: known?.at ?? at, lengthMm: lengthMm + (known?.lengthMm ?? 0) });
  };
  for (const [piece, other] of [...uses.values()].flatMap(drawnOnce))
    share(piece.contour, other.contour, piece.piece.from, pieceLength(piece.piece));
  const needless = doubled.filter((d) => {
    const pair = contoursAt(d, drawn, uses);
    if (pair === undefined) return true;
    // The line that is kept of two joined ones is one line in two contours, and was counted above.
    if (pair.isTwoLines)
      share(
        pair.a,
        pair.b,
        pair.at,
        (d.stretch.to - d.stretch.from) * pieceLength(drawn[d.piece] as CutPiece),
      );
    return false;
  });
  return {
    needless: new Map(
      [...byKey(needless, (d) => d.piece)].map(([piece, all]) => [
        piece,
        all.map((d) => d.stretch),
      ]),
    ),
    shared: [...shared.values()],
  };
};

/** Pairs of uses of one piece: the same stretch used by different contours. */
const drawnOnce = (all: readonly Use[]): (readonly [Use, Use])[] => {
  if (all.length < 2) return [];
  const key = ({ piece: { from, to } }: Use): string => [from, to].map(String).sort().join(' ');
  return [...byKey(all, key).values()].flatMap(([a, b]) =>
    a === undefined || b === undefined || a.contour === b.contour ? [] : [[a, b] as const],
  );
};

const contoursAt = (
  { kept, piece, stretch }: Doubled,
  drawn: readonly CutPiece[],
  uses: ReadonlyMap<number, readonly Use[]>,
):
  | { readonly a: number; readonly b: number; readonly at: Vec2; readonly isTwoLines: boolean }
  | undefined => {
  const at = pointOn(drawn[piece] as CutPiece, (stretch.from + stretch.to) / 2);
  const through = (source: number): number[] => [
    ...new Set(
      (uses.get(source) ?? [])
        .filter((use) => shareOf(use.piece, at) !== undefined)
        .map((use) => use.contour),
    ),
  ];
  const [ofKept, ofPiece] = [through(kept), through(piece)];
  const [a, b] = [...new Set([...ofKept, ...ofPiece])];
  if (a === undefined || b === undefined) return undefined;
  return { a, b, at, isTwoLines: ofKept.length > 0 && ofPiece.length > 0 };
};
