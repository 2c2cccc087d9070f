import { loopOf, joined } from '../dxf/contours/join.ts';
import { doubledIn, once, without } from '../dxf/contours/overlap.ts';
import type { DrawnLines } from '../dxf/read/drawn.ts';
import type { Stroke } from '../dxf/read/explode.ts';
import { piecesOf } from '../dxf/read/fit-arcs.ts';
import { layerKey } from '../dxf/read/layers.ts';
import { signedArea } from '../geometry/measure.ts';
import { type Piece, pointOn } from '../geometry/piece.ts';
import { PROOF_MM } from '../geometry/tolerance.ts';
import { add, middle, type Vec2 } from '../geometry/vec2.ts';
import { byKey } from '../text/grouped.ts';
import { withArcs } from './arcs-of-chords.ts';
import { type Contour, contourOf } from '../measure/contours.ts';
import { foldsOn } from './fold-lines.ts';
import { type Leftovers, leftoversOf } from './leftovers.ts';

/** A line to fold along, as the file has it. */
export interface FoldLine {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly direction: 'up' | 'down';
}

/** What is cut and folded according to a file. */
export interface FileLines extends Leftovers {
  readonly outlines: readonly Contour[];
  readonly holes: readonly Contour[];
  readonly folds: readonly FoldLine[];
  /** Middles of straight lines that are marked; a cross has its own twice. */
  readonly marks: readonly Vec2[];
  /** Lines on the layers of cuts that do not close to a contour, by where they begin. */
  readonly open: readonly Vec2[];
  /** Places where lines on the layers of cuts and folds lie on one another. */
  readonly doubled: readonly Vec2[];
}

const [OUTLINE, HOLES, UP, DOWN] = ['OUTLINE', 'HOLES', 'FOLD-UP', 'FOLD-DOWN'] as const;
/** Outline and holes in one, for programs that know one layer. */
const CUT = 'CUT';
const MARK = 'MARK';
const KNOWN: readonly string[] = [OUTLINE, HOLES, CUT, UP, DOWN];

/**
 * Curves that are no arcs are read as arcs within this, mm: a tenth of the error that a file may
 * have.
 */
const CURVE_MM = PROOF_MM / 10;

/**
 * Reads what is cut and folded according to a file. `hasArcs` says that the drawing was made with
 * arcs, so that chords in a file without any arcs stand for them.
 */
export const fileLines = (
  { strokes, oddities, origin }: DrawnLines,
  hasArcs: boolean,
): FileLines => {
  const layers = byKey(strokes, (stroke) => layerKey(stroke.layer));
  const inChords =
    hasArcs &&
    strokes.every(({ primitive }) => primitive.kind === 'piece' && primitive.piece.bulge === 0);
  const on = (layer: string): readonly Stroke[] => layers.get(layer) ?? [];
  const [outlines, holes, cuts, up, down] = [
    closedOn(on(OUTLINE), inChords),
    closedOn(on(HOLES), inChords),
    closedOn(on(CUT), inChords),
    foldsOn(on(UP), 'up'),
    foldsOn(on(DOWN), 'down'),
  ];
  const outermost = cuts.closed
    .toSorted((a, b) => signedArea(b.loop) - signedArea(a.loop))
    .slice(0, 1);
  const all = [outlines, holes, cuts, up, down];
  return {
    outlines: [...outlines.closed, ...outermost],
    holes: [...holes.closed, ...cuts.closed.filter((c) => !outermost.includes(c))],
    folds: [...up.folds, ...down.folds],
    marks: on(MARK).flatMap(({ primitive }) =>
      primitive.kind === 'piece' && primitive.piece.bulge === 0
        ? [middle(primitive.piece.from, primitive.piece.to)]
        : [],
    ),
    open: [outlines, holes, cuts].flatMap((l) => l.open.map((p) => add(p, origin))),
    doubled: all.flatMap((l) => l.doubled.map((p) => add(p, origin))),
    ...leftoversOf(layers, oddities, KNOWN),
  };
};

interface Closed {
  readonly closed: readonly Contour[];
  readonly open: readonly Vec2[];
  readonly doubled: readonly Vec2[];
}

const closedOn = (strokes: readonly Stroke[], inChords: boolean): Closed => {
  const contour = (pieces: readonly Piece[]): Contour =>
    contourOf(inChords ? withArcs(loopOf(pieces)) : loopOf(pieces));
  const [closed, loose]: [(readonly Piece[])[], Piece[]] = [[], []];
  for (const pieces of byEntity(strokes)) {
    const [first, last] = [pieces[0], pieces.at(-1)];
    if (
      pieces.length > 1 &&
      first !== undefined &&
      last !== undefined &&
      first.from[0] === last.to[0] &&
      first.from[1] === last.to[1]
    )
      closed.push(pieces);
    else for (const piece of pieces) loose.push(piece);
  }
  if (loose.length === 0) return { closed: closed.map(contour), open: [], doubled: [] };
  const { left, again } = besides(closed.flat(), loose);
  const doubled = doubledIn(left);
  const rest = joined(once(left, doubled));
  return {
    closed: [...closed, ...rest.closed].map(contour),
    open: rest.open.flatMap((line) => line.slice(0, 1).map((p) => p.from)),
    doubled: [
      ...again,
      ...doubled.map(({ piece, stretch }) => pointOn(left[piece] as Piece, stretch.from)),
    ],
  };
};

/** Loose pieces without their stretches that closed lines draw already, and where those begin. */
const besides = (
  closed: readonly Piece[],
  loose: readonly Piece[],
): { readonly left: readonly Piece[]; readonly again: readonly Vec2[] } => {
  if (closed.length === 0) return { left: loose, again: [] };
  const drawn = doubledIn([...closed, ...loose]).filter(
    ({ kept, piece }) => kept < closed.length && piece >= closed.length,
  );
  const gone = byKey(drawn, ({ piece }) => piece - closed.length);
  return {
    left: loose.flatMap((p, i) =>
      without(
        p,
        (gone.get(i) ?? []).map((d) => d.stretch),
      ),
    ),
    again: drawn.map(({ piece, stretch }) =>
      pointOn(loose[piece - closed.length] as Piece, stretch.from),
    ),
  };
};

/** The pieces that each entity draws; lines of no length draw nothing. */
const byEntity = (strokes: readonly Stroke[]): Piece[][] => {
  const all: Piece[][] = [];
  let [entity, own]: [number | undefined, Piece[]] = [undefined, []];
  for (const { primitive, entity: next } of strokes) {
    if (next !== entity) all.push((own = []));
    entity = next;
    if (primitive.kind === 'piece') {
      if (hasLength(primitive.piece)) own.push(primitive.piece);
    } else for (const piece of piecesOf(primitive, CURVE_MM)) if (hasLength(piece)) own.push(piece);
  }
  return all;
};

const hasLength = ({ from, to }: Piece): boolean => from[0] !== to[0] || from[1] !== to[1];
