import { isCut, LAYERS } from '../write/layers.ts';
import { type Chain, chainsOf, type CutPiece } from './contours.ts';
import type { Stroke } from './explode.ts';
import { piecesOf } from './fit-arcs.ts';
import { closeGaps, type Gap, gapsOf } from './gaps.ts';
import { pieceLength } from './lengths.ts';
import { type Meetings, meetingsOf } from './meetings.ts';
import { type Stretch, without } from './overlap.ts';
import { refuse } from './refusal.ts';

/** The lines of a file that are cut, and how they hang together. */
export interface CutLines {
  /** As drawn, curves as arcs. */
  readonly drawn: readonly CutPiece[];
  /** Lines of no length. */
  readonly empty: readonly CutPiece[];
  readonly meetings: Meetings;
  /** Of what is left when nothing is cut twice. */
  readonly chains: readonly Chain[];
  readonly gaps: readonly Gap[];
  /** The chains as they were meant: with the gaps closed. */
  readonly meant: readonly Chain[];
  /** Lines on layers that are folded or marked, not cut. */
  readonly marks: readonly CutPiece[];
}

/** Shorter lines cut nothing. */
const NO_LENGTH_MM = 1e-6;
/** Curves make many arcs each. */
const MOST_PIECES = 120_000;

const MARK_LAYERS = new Set(LAYERS.filter(({ role }) => !isCut(role)).map(({ name }) => name));

/** Whether what lies on a layer is folded, marked or read, in files of ours. */
export const isMarkLayer = (layer: string): boolean => MARK_LAYERS.has(layer.toUpperCase());

/** Turns strokes into pieces, leaves out what is drawn twice, and joins the rest end to end. Curves become arcs within `errorMm`. */
export const cutLinesOf = (strokes: readonly Stroke[], { errorMm, gapMm }: { readonly errorMm: number; readonly gapMm: number }): CutLines => {
  const [drawn, empty, marks]: [CutPiece[], CutPiece[], CutPiece[]] = [[], [], []];
  for (const { primitive, layer, entity } of strokes) {
    for (const piece of piecesOf(primitive, errorMm)) {
      const cut = { ...piece, layer, entity };
      if (isMarkLayer(layer)) marks.push(cut);
      else (pieceLength(piece) < NO_LENGTH_MM ? empty : drawn).push(cut);
    }
    if (drawn.length > MOST_PIECES) refuse(`its curves take more than ${MOST_PIECES} lines and arcs`, 'leave pictures and hatches out, or draw curves as arcs');
  }
  const meetings = meetingsOf(drawn);
  const chains = chainsOf(once(drawn, meetings));
  const gaps = gapsOf(chains, gapMm);
  const meant = gaps.length === 0 ? chains : chainsOf(closeGaps(chains, gaps));
  return { drawn, empty, meetings, chains, gaps, meant, marks };
};

/** The stretches that each piece shares with an earlier one. */
export const doubledStretches = ({ doubled }: Meetings): ReadonlyMap<number, readonly Stretch[]> => {
  const stretches = new Map<number, Stretch[]>();
  for (const { piece, stretch } of doubled) {
    const known = stretches.get(piece);
    if (known === undefined) stretches.set(piece, [stretch]);
    else known.push(stretch);
  }
  return stretches;
};

const once = (drawn: readonly CutPiece[], meetings: Meetings): CutPiece[] => {
  const stretches = doubledStretches(meetings);
  return drawn.flatMap((piece, i) => without(piece, stretches.get(i) ?? []));
};
