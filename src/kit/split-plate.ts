import { capital } from '../text/capital.ts';
import type { RuleName } from '../rules/index.ts';
import { atLeast, figure } from '../text/figures.ts';
import { isInside } from '../geometry/inside.ts';
import type { Loop, Vertex } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { levelCrossings, partBulge, pieceOf, pointOn } from '../geometry/piece.ts';
import { distance, dot, leftOf, middle, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { type Finding, refuse } from '../model/finding.ts';
import type { Cutout, Panel, Part, SlotRow } from '../model/part.ts';
import type { GivenFold } from '../forms/template.ts';
import type { NamedFoldLine } from './joggle.ts';
import { SAME_POINT_MM } from '../geometry/tolerance.ts';

/** A vertex of a piece of the plate; `line` is the fold line whose cut starts here. */
interface PlateVertex extends Vertex {
  readonly line?: number;
}

export type SplitPlate =
  | { readonly findings: readonly Finding[] }
  | (Pick<Part, 'root' | 'panels'> & { readonly folds: readonly GivenFold[] });

/** Figures of the bends that the fold lines do not give. */
export interface PlateBends {
  readonly insideRadiusMm: number;
  /** Row of slots for the lines that are to be slotted. */
  readonly slots: SlotRow;
}

/** A panel with a smaller area than this, mm2, is noise along an edge. */
const LEAST_AREA_MM2 = 1e-3;

/** Two cuts count as one when they leave a smaller share of a piece between them than this. */
const LEAST_STRETCH = 1e-9;

/**
 * How far a fold line may end before the edge it runs to, mm: points read from a card are no
 * better.
 */
const NEAR_EDGE_MM = 1;

/**
 * Cuts the finished outside shape of a plate, laid flat without any bend, along its fold lines into
 * panels joined by folds. Every line runs from edge to edge and crosses no other; two may end in
 * one corner. All panels keep the plate's coordinates; the largest one is the root. The edges along
 * a line are called after its fold, `F1`. Holes go to the panel that holds their centre.
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
    outline: loop.map(({ line, ...vertex }) =>
      line === undefined ? vertex : { ...vertex, edge: foldId(lines, line) },
    ),
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

/**
 * A place where a fold line crosses the edge of a piece: the piece of the outline, and the distance
 * along the line.
 */
interface Crossing {
  readonly piece: number;
  readonly share: number;
  readonly at: Vec2;
  readonly along: number;
}

/**
 * The pieces, with the one that a line crosses cut in two, or the reason why the line cannot be
 * folded.
 */
const cutByLine = (
  pieces: readonly Loop<PlateVertex>[],
  lines: readonly NamedFoldLine[],
  index: number,
): Loop<PlateVertex>[] | Finding => {
  const line = lines[index] as NamedFoldLine;
  const mid = middle(line.from, line.to);
  if (!(distance(line.from, line.to) > SAME_POINT_MM))
    return wrongLine(line, 'fold-line-too-short', 'has its two points in one place', APART);
  const home = pieces.findIndex((p) => isInside(p, mid));
  const loop = pieces[home];
  if (loop === undefined)
    return wrongLine(
      line,
      'fold-line-off-plate',
      `lies off the plate at its middle, ${figure(mid[0])},${figure(mid[1])}`,
      'give two points of it on the plate',
    );
  const ends = endsOf(loop, mid, unit(sub(line.to, line.from)));
  if (ends === undefined) return onEdge(line);
  const wrong = endsTooSoon(line, ends) ?? crossing(line, lines, loop, ends);
  if (wrong !== undefined) return wrong;
  const parted = halves(loop, ends, index);
  if (parted.some((half) => signedArea(half) < LEAST_AREA_MM2)) return onEdge(line);
  return [...pieces.slice(0, home), ...parted, ...pieces.slice(home + 1)];
};

const APART = 'give two that are apart on it';

const wrongLine = (
  { called, input }: NamedFoldLine,
  rule: RuleName,
  what: string,
  ...others: readonly string[]
): Finding => refuse(rule, [input], `${capital(called)} ${what}`, [], ...others);

const onEdge = (line: NamedFoldLine): Finding =>
  wrongLine(
    line,
    'fold-line-on-edge',
    'runs along the edge of the plate and leaves nothing to fold beside it',
    'move it in',
  );

/** The two points of a line have to reach the edges of the plate, or nearly. */
const endsTooSoon = (line: NamedFoldLine, [start, end]: Ends): Finding | undefined => {
  const [mid, dir] = [middle(line.from, line.to), unit(sub(line.to, line.from))];
  const reach = { from: dot(sub(line.from, mid), dir), to: dot(sub(line.to, mid), dir) };
  const short = Math.max(reach.from - start.along, end.along - reach.to);
  if (short <= NEAR_EDGE_MM) return undefined;
  return wrongLine(
    line,
    'fold-line-too-short',
    `ends ${figure(short)} mm inside the metal`,
    `draw it from edge to edge, at least ${atLeast(short)} mm longer`,
    'bring the edge to it with a notch',
  );
};

const crossing = (
  line: NamedFoldLine,
  lines: readonly NamedFoldLine[],
  loop: Loop<PlateVertex>,
  ends: Ends,
): Finding | undefined => {
  const crossed = ends.map((at) => crossedBy(loop, at)).find((index) => index !== undefined);
  if (crossed === undefined) return undefined;
  return wrongLine(
    line,
    'fold-lines-cross',
    `runs into ${lines[crossed]?.called ?? ''}`,
    'end it before, at a notch',
    'fold only one of the two',
  );
};

/** The fold line that one more line runs into; where both end in one corner they only meet. */
const crossedBy = (loop: Loop<PlateVertex>, { piece, at }: Crossing): number | undefined => {
  const { from, to } = pieceOf(loop, piece);
  return Math.min(distance(at, from), distance(at, to)) < SAME_POINT_MM
    ? undefined
    : loop[piece]?.line;
};

type Ends = readonly [Crossing, Crossing];

/**
 * The crossings nearest to the middle of the line, one on either side of it, where there are both.
 */
const endsOf = (loop: Loop, mid: Vec2, dir: Vec2): Ends | undefined => {
  const normal = leftOf(dir);
  const found = loop.flatMap((_, piece) => {
    const p = pieceOf(loop, piece);
    return levelCrossings(p, normal, dot(normal, mid)).map((share): Crossing => {
      const at = pointOn(p, share);
      return { piece, share, at, along: dot(sub(at, mid), dir) };
    });
  });
  const nearest = (crossings: readonly Crossing[]): Crossing | undefined =>
    crossings.toSorted((a, b) => Math.abs(a.along) - Math.abs(b.along))[0];
  const before = nearest(found.filter((c) => c.along <= 0));
  const after = nearest(found.filter((c) => c.along > 0));
  return before === undefined || after === undefined ? undefined : [before, after];
};

/** Two loops, each with the cut as an edge of its own. */
const halves = (loop: Loop<PlateVertex>, [a, b]: Ends, line: number): Loop<PlateVertex>[] =>
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
 * The vertices along the loop from one crossing to the other; the end of the last piece is left to
 * the cut.
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
    if (t1 - t0 > LEAST_STRETCH) made.push({ ...v, x, y, bulge: partBulge(v.bulge, t0, t1) });
  }
  return made;
};

const foldId = (lines: readonly NamedFoldLine[], line: number): string =>
  `F${lines[line]?.id ?? ''}`;

/** One fold for each line; the panel nearer to the root is the parent. */
const foldsFrom = (
  pieces: readonly Loop<PlateVertex>[],
  lines: readonly NamedFoldLine[],
  bends: PlateBends,
): GivenFold[] => {
  const order = [0];
  const folds = new Map<number, GivenFold>();
  for (let at = order.shift(); at !== undefined; at = order.shift()) {
    for (const { line } of pieces[at] as Loop<PlateVertex>) {
      if (line === undefined || folds.has(line)) continue;
      const other = pieces.findIndex((p, i) => i !== at && p.some((v) => v.line === line));
      const id = foldId(lines, line);
      const {
        angleDeg,
        direction,
        insideRadiusMm: own,
        slots,
        input,
        called,
      } = lines[line] as NamedFoldLine;
      const fold = {
        id,
        parent: { panel: `panel ${at + 1}`, edge: id },
        child: { panel: `panel ${other + 1}`, edge: id },
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
