import type { RuleName } from '../rules/index.ts';
import { atLeast, figure } from '../text/figures.ts';
import { isInside } from '../geometry/inside.ts';
import type { Loop, Vertex } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { levelCrossings, partBulge, pieceOf, pointOn } from '../geometry/piece.ts';
import { distance, dot, leftOf, middle, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { type Finding, refuse } from '../model/finding.ts';
import type { Cutout, Fold, Panel, Part, SlotRow } from '../model/part.ts';
import type { NamedFoldLine } from './joggle.ts';

/** A vertex of a piece of the plate; `line` is the fold line whose cut starts here. */
interface PlateVertex extends Vertex {
  readonly line?: number;
}

export type SplitPlate =
  { readonly findings: readonly Finding[] } | Pick<Part, 'root' | 'panels' | 'folds'>;

/** What the fold lines do not say of their bends. */
export interface PlateBends {
  readonly insideRadiusMm: number;
  /** Of the lines that are to be slotted. */
  readonly slots: SlotRow;
}

/** A panel of less than this, mm2, is the noise along an edge. */
const LEAST_AREA_MM2 = 1e-3;

/** Lines that end no farther apart, mm, end in one corner. */
const SAME_POINT_MM = 1e-6;

/**
 * How far a fold line may end before the edge it runs to, mm: points read off a card are no better.
 */
const NEAR_EDGE_MM = 1;

/**
 * Cuts the finished outside shape of a plate, laid flat without any bend, along its fold lines into
 * panels joined by folds. Every line runs from edge to edge and crosses no other; two may end in
 * one corner. All panels keep the plate's coordinates; the largest one is the root. Holes go to the
 * panel that holds their centre.
 */
export const splitPlate = (
  outline: Loop,
  lines: readonly NamedFoldLine[],
  holes: readonly Cutout[],
  bends: PlateBends,
): SplitPlate => {
  let pieces: Loop<PlateVertex>[] = [outline];
  for (const index of lines.keys()) {
    const cut = cutByLine(pieces, lines, index);
    if ('severity' in cut) return { findings: [cut] };
    pieces = cut;
  }
  const sorted = pieces.toSorted((a, b) => signedArea(b) - signedArea(a));
  const panels = sorted.map((loop, i): Panel => ({
    id: `panel ${i + 1}`,
    outline: loop.map(({ x, y, bulge }) => ({ x, y, bulge })),
    cutouts: holes.filter((h) => homeOf(h, sorted) === i),
  }));
  return { root: 'panel 1', panels, folds: foldsFrom(sorted, lines, bends) };
};

/**
 * The piece that holds a hole's centre; one that lies off the metal stays with the first, where the
 * checks find it.
 */
const homeOf = (hole: Cutout, pieces: readonly Loop[]): number =>
  Math.max(
    0,
    pieces.findIndex((p) => isInside(p, hole.kind === 'round' ? hole.centre : centreOf(hole.loop))),
  );

const centreOf = (loop: Loop): Vec2 => [
  loop.reduce((s, v) => s + v.x, 0) / loop.length,
  loop.reduce((s, v) => s + v.y, 0) / loop.length,
];

/** Where a fold line crosses the edge of a piece: on which side of it, how far along the line. */
interface Crossing {
  readonly piece: number;
  readonly share: number;
  readonly at: Vec2;
  readonly along: number;
}

const cutByLine = (
  pieces: readonly Loop<PlateVertex>[],
  lines: readonly NamedFoldLine[],
  index: number,
): Loop<PlateVertex>[] | Finding => {
  const line = lines[index] as NamedFoldLine;
  const found = (rule: RuleName, what: string, ...others: readonly string[]): Finding =>
    refuse(rule, [line.input], `${sentence(line.called)} ${what}`, [], ...others);
  const mid = middle(line.from, line.to);
  const home = pieces.findIndex((p) => isInside(p, mid));
  const loop = pieces[home];
  if (loop === undefined)
    return found(
      'fold-line-off-plate',
      `lies off the plate at its middle, ${figure(mid[0])},${figure(mid[1])}`,
      'give two points of it on the plate',
    );
  const dir = unit(sub(line.to, line.from));
  const ends = endsOf(loop, mid, dir);
  const [start, end] = ends;
  const reach = { from: dot(sub(line.from, mid), dir), to: dot(sub(line.to, mid), dir) };
  if (reach.from > start.along + NEAR_EDGE_MM || reach.to < end.along - NEAR_EDGE_MM) {
    const short = Math.max(reach.from - start.along, end.along - reach.to);
    return found(
      'fold-line-too-short',
      `ends ${figure(short)} mm inside the metal`,
      `draw it from edge to edge, at least ${atLeast(short)} mm longer`,
      'bring the edge to it with a notch',
    );
  }
  for (const at of ends) {
    const crossed = crossedBy(loop, at);
    if (crossed !== undefined)
      return found(
        'fold-lines-cross',
        `runs into ${lines[crossed]?.called ?? ''}`,
        'end it before, at a notch',
        'fold only one of the two',
      );
  }
  const parted = halves(loop, ends, index);
  if (parted.some((half) => signedArea(half) < LEAST_AREA_MM2))
    return found(
      'fold-line-on-edge',
      'runs along the edge of the plate and leaves nothing to fold beside it',
      'move it in',
    );
  return [...pieces.slice(0, home), ...parted, ...pieces.slice(home + 1)];
};

/** The fold line that one more line runs into; where both end in one corner they only meet. */
const crossedBy = (loop: Loop<PlateVertex>, { piece, at }: Crossing): number | undefined => {
  const { from, to } = pieceOf(loop, piece);
  return Math.min(distance(at, from), distance(at, to)) < SAME_POINT_MM
    ? undefined
    : loop[piece]?.line;
};

const sentence = (name: string): string => name.charAt(0).toUpperCase() + name.slice(1);

/** The crossings nearest to the middle of the line, on either side of it. */
const endsOf = (loop: Loop, mid: Vec2, dir: Vec2): readonly [Crossing, Crossing] => {
  const normal = leftOf(dir);
  const found = loop.flatMap((_, piece) => {
    const p = pieceOf(loop, piece);
    return levelCrossings(p, normal, dot(normal, mid)).map((share): Crossing => {
      const at = pointOn(p, share);
      return { piece, share, at, along: dot(sub(at, mid), dir) };
    });
  });
  const before = found.filter((c) => c.along <= 0).reduce((a, b) => (b.along > a.along ? b : a));
  const after = found.filter((c) => c.along > 0).reduce((a, b) => (b.along < a.along ? b : a));
  return [before, after];
};

/** Two loops, each with the cut as an edge of its own. */
const halves = (
  loop: Loop<PlateVertex>,
  [a, b]: readonly [Crossing, Crossing],
  line: number,
): Loop<PlateVertex>[] =>
  [
    [a, b],
    [b, a],
  ].map(([from, to]) => [
    ...stretch(loop, from as Crossing, to as Crossing),
    cutVertex(to as Crossing, line),
  ]);

const cutVertex = ({ at: [x, y] }: Crossing, line: number): PlateVertex => ({
  x,
  y,
  bulge: 0,
  line,
});

/**
 * The way along the loop from one crossing to the other, as vertices; its end is left to the cut.
 */
const stretch = (loop: Loop<PlateVertex>, from: Crossing, to: Crossing): PlateVertex[] => {
  const n = loop.length;
  const steps =
    from.piece === to.piece && from.share < to.share ? 0 : (to.piece - from.piece + n) % n || n;
  const made: PlateVertex[] = [];
  for (let k = 0; k <= steps; k++) {
    const v = loop[(from.piece + k) % n] as PlateVertex;
    const [t0, t1] = [k === 0 ? from.share : 0, k === steps ? to.share : 1];
    const [x, y] = k === 0 ? from.at : [v.x, v.y];
    if (t1 - t0 > 1e-9) made.push({ ...v, x, y, bulge: partBulge(v.bulge, t0, t1) });
  }
  return made;
};

/** One fold for each line; the panel nearer to the root is the parent. */
const foldsFrom = (
  pieces: readonly Loop<PlateVertex>[],
  lines: readonly NamedFoldLine[],
  bends: PlateBends,
): Fold[] => {
  const order = [0];
  const folds = new Map<number, Fold>();
  for (let at = order.shift(); at !== undefined; at = order.shift()) {
    for (const [edge, { line }] of (pieces[at] as Loop<PlateVertex>).entries()) {
      if (line === undefined || folds.has(line)) continue;
      const other = pieces.findIndex((p, i) => i !== at && p.some((v) => v.line === line));
      const childEdge = (pieces[other] as Loop<PlateVertex>).findIndex((v) => v.line === line);
      const {
        id,
        angleDeg,
        direction,
        insideRadiusMm: own,
        slots,
        input,
        called,
      } = lines[line] as NamedFoldLine;
      const fold = {
        id: `F${id}`,
        parent: { panel: `panel ${at + 1}`, edge },
        child: { panel: `panel ${other + 1}`, edge: childEdge },
        angleDeg,
        direction,
        insideRadiusMm: own ?? bends.insideRadiusMm,
        asked: { input, called, ...(own !== undefined && { hasOwnRadius: true as const }) },
      };
      folds.set(line, slots === true ? { ...fold, slots: bends.slots } : fold);
      order.push(other);
    }
  }
  return lines.flatMap((_, line) => folds.get(line) ?? []);
};
