import { joined } from '../dxf/contours/join.ts';
import type { Stroke } from '../dxf/read/explode.ts';
import { piecesOf } from '../dxf/read/fit-arcs.ts';
import { layerKey } from '../dxf/read/layers.ts';
import { refuse } from '../dxf/read/refusal.ts';
import type { Extents } from '../geometry/extents.ts';
import { boxOfAll, pieceBox, pieceLength } from '../geometry/piece-length.ts';
import { byKey } from '../text/grouped.ts';
import { foldLikes } from './fold-lines.ts';
import { closeGaps, type Gap, gapsOf } from './gaps.ts';
import { intentOf, isMarkLayer } from './intent.ts';
import { type Meetings, meetingsOf } from './meetings.ts';
import { type Chain, type CutPiece, understood } from './understand.ts';
import { NO_SIZE_MM } from '../geometry/tolerance.ts';

/** The lines of a file that are cut, and how they are connected. */
export interface CutLines {
  /** The lines as drawn, with curves as arcs. */
  readonly drawn: readonly CutPiece[];
  /** Lines of no length. */
  readonly empty: readonly CutPiece[];
  readonly meetings: Meetings;
  /** Contours as they were intended: each once, with its gaps closed. */
  readonly closed: readonly Chain[];
  /** Lines that close no contour although they should; a cutter would cut them. */
  readonly open: readonly Chain[];
  /**
   * Lines that close no contour and were meant for folds or axes, on layers that are not known to
   * be for those.
   */
  readonly strays: readonly Chain[];
  readonly gaps: readonly Gap[];
  /** Lines on layers that are folded or marked, not cut. */
  readonly marks: readonly CutPiece[];
  /** Lines among those on layers that are not ours, but whose names say that they are not cut. */
  readonly named: readonly CutPiece[];
}

/** The most pieces; each curve makes many arcs. */
const MOST_PIECES = 120_000;

/** How lines are joined. */
interface Joining {
  readonly errorMm: number;
  readonly gapMm: number;
}

/**
 * Turns strokes into pieces, and joins the pieces that are cut end to end. Curves become arcs
 * within `errorMm`. Layers whose names say that they are not cut are left out where the others make
 * contours.
 */
export const cutLinesOf = (strokes: readonly Stroke[], { errorMm, gapMm }: Joining): CutLines => {
  const [cut, empty, marks, named]: [CutPiece[], CutPiece[], CutPiece[], CutPiece[]] = [
    [],
    [],
    [],
    [],
  ];
  for (const { primitive, layer, entity } of strokes) {
    for (const piece of piecesOf(primitive, errorMm)) {
      const made = { ...piece, layer, entity, source: -1 };
      if (isMarkLayer(layer)) marks.push(made);
      else if (pieceLength(piece) < NO_SIZE_MM) empty.push(made);
      else (intentOf(layer) === 'other' ? named : cut).push(made);
    }
    if (cut.length + named.length > MOST_PIECES)
      refuse(
        `its curves take more than ${MOST_PIECES} lines and arcs`,
        'leave pictures and hatches out, or draw curves as arcs',
      );
  }
  const lines = linesOf(cut, gapMm);
  if (named.length === 0 || lines.closed.length > 0)
    return { ...lines, empty, marks: [...marks, ...named], named };
  const all = linesOf(
    [...cut, ...named].toSorted((a, b) => a.entity - b.entity),
    gapMm,
  );
  return { ...all, empty, marks, named: [] };
};

const linesOf = (
  pieces: readonly CutPiece[],
  gapMm: number,
): Omit<CutLines, 'empty' | 'marks' | 'named'> => {
  const drawn = pieces.map((p, source) => ({ ...p, source }));
  const meetings = meetingsOf(drawn);
  const { closed, open, gaps } = meant(drawn, meetings, gapMm);
  const strays = foldLikes(open, closed);
  return {
    drawn,
    meetings,
    closed,
    gaps,
    open: open.filter((c) => !strays.has(c)),
    strays: [...strays],
  };
};

interface Meant {
  readonly closed: readonly Chain[];
  readonly open: readonly Chain[];
  readonly gaps: readonly Gap[];
}

/**
 * Contours with their gaps closed. Fold lines also end near one another, or in corners of an
 * outline, and must not be joined. The layer that reaches farthest therefore comes first, so that
 * it is known what lies round the others. What is then left of all layers is joined across them.
 */
const meant = (drawn: readonly CutPiece[], meetings: Meetings, gapMm: number): Meant => {
  const first = understood(drawn, meetings);
  const layers = [...byKey(first.open, (chain) => layerKey((chain[0] as CutPiece).layer)).values()]
    .map((chains) => ({ chains, size: sizeOf(chains) }))
    .sort((a, b) => b.size - a.size);
  // Many layers say little, so they are not gone through one by one.
  const rounds = layers.length <= MOST_LAYERS ? layers.map((l) => l.chains) : [];
  let [closed, gaps, left]: [readonly Chain[], readonly Gap[], readonly Chain[]] = [
    first.closed,
    [],
    rounds.length > 0 ? [] : first.open,
  ];
  for (const chains of rounds) {
    const own = withoutGaps(chains, closed, gapMm);
    [closed, gaps, left] = [own.closed, [...gaps, ...own.gaps], [...left, ...own.open]];
  }
  const folds = foldLikes(left, closed);
  const across = joined(left.filter((chain) => !folds.has(chain)).flat());
  const last = withoutGaps([...across.open, ...folds], [...closed, ...across.closed], gapMm);
  return { ...last, gaps: [...gaps, ...last.gaps] };
};

const MOST_LAYERS = 20;

const sizeOf = (chains: readonly Chain[]): number => {
  const { minX, minY, maxX, maxY } = boxOfAll(
    chains.flatMap((chain) => chain.map(pieceBox)),
  ) as Extents;
  return (maxX - minX) * (maxY - minY);
};

const withoutGaps = (open: readonly Chain[], closed: readonly Chain[], gapMm: number): Meant => {
  const folds = foldLikes(open, closed);
  const rest = open.filter((chain) => !folds.has(chain));
  const gaps = gapsOf(rest, closed, gapMm);
  if (gaps.length === 0) return { closed, open, gaps };
  const { closed: more, open: left } = joined(closeGaps(rest, gaps));
  return { closed: [...closed, ...more], open: [...left, ...folds], gaps };
};
