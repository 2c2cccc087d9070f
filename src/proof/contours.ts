import { arcOf } from '../geometry/arc.ts';
import type { Loop, Vertex } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { backwards, type Piece, pieceOf } from '../geometry/piece.ts';
import { distance, type Vec2 } from '../geometry/vec2.ts';
import { withArcs } from './arcs-of-chords.ts';
import type { DxfEntity } from './read-dxf.ts';

/** A closed cut line, counter-clockwise; a full circle is two half ones, and known as a circle. */
export interface Contour {
  readonly loop: Loop;
  readonly circle?: { readonly centre: Vec2; readonly radius: number };
}

/** A line to fold along, as the file has it. */
export interface FoldLine {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly direction: 'up' | 'down';
}

/** What a file says is cut and folded. */
export interface Sheet {
  readonly outlines: readonly Contour[];
  readonly holes: readonly Contour[];
  readonly folds: readonly FoldLine[];
  /** Lines on the layers of cuts that close to no contour. */
  readonly open: readonly Vec2[];
  /** Types of entities on the layers of cuts and folds that are not read. */
  readonly unread: readonly string[];
  /** Layers that are none of ours, with something to cut on them. */
  readonly strange: readonly string[];
}

const [OUTLINE, HOLES, UP, DOWN] = ['OUTLINE', 'HOLES', 'FOLD-UP', 'FOLD-DOWN'];
/** Outline and holes alike, for programs that know one layer. */
const CUT = 'CUT';
const SILENT = new Set(['NOTE', 'MARK', 'DEFPOINTS']);

/** Ends of loose lines and arcs that are the same corner lie no farther apart, mm. */
const JOIN_MM = 0.005;

/** What a file says is cut and folded; `inChords` when it was written for a program that knows no arcs. */
export const sheetOf = (entities: readonly DxfEntity[], inChords: boolean): Sheet => {
  const layers = new Map<string, DxfEntity[]>();
  for (const e of entities) {
    const name = e.layer.toUpperCase();
    const on = layers.get(name);
    if (on === undefined) layers.set(name, [e]);
    else on.push(e);
  }
  const of = (name: string | undefined): readonly DxfEntity[] => layers.get(name ?? '') ?? [];
  const [outlines, holes, cuts] = [closedOn(of(OUTLINE), inChords), closedOn(of(HOLES), inChords), closedOn(of(CUT), inChords)];
  const outermost = cuts.closed.toSorted((a, b) => signedArea(b.loop) - signedArea(a.loop)).slice(0, 1);
  const known = [...of(OUTLINE), ...of(HOLES), ...of(CUT), ...of(UP), ...of(DOWN)];
  const others = [...layers].filter(([name]) => ![OUTLINE, HOLES, CUT, UP, DOWN].includes(name) && !SILENT.has(name));
  return {
    outlines: [...outlines.closed, ...outermost],
    holes: [...holes.closed, ...cuts.closed.filter((c) => !outermost.includes(c))],
    folds: [...foldsOn(of(UP), 'up'), ...foldsOn(of(DOWN), 'down')],
    open: [...outlines.open, ...holes.open, ...cuts.open],
    unread: [...new Set(known.flatMap((e) => (e.kind === 'unread' ? [e.type] : [])))],
    strange: others.filter(([, on]) => on.some((e) => e.kind !== 'text')).map(([name]) => name),
  };
};

/** Whether a file has nothing round in it. */
export const isInChords = (entities: readonly DxfEntity[]): boolean =>
  entities.every((e) => (e.kind === 'loop' ? e.loop.every((v) => v.bulge === 0) : e.kind === 'piece' ? e.piece.bulge === 0 : e.kind !== 'circle'));

const foldsOn = (entities: readonly DxfEntity[], direction: 'up' | 'down'): FoldLine[] =>
  entities.flatMap((e) => {
    if (e.kind === 'piece' && e.piece.bulge === 0) return [{ from: e.piece.from, to: e.piece.to, direction }];
    return [];
  });

const closedOn = (entities: readonly DxfEntity[], inChords: boolean): { closed: Contour[]; open: Vec2[] } => {
  const contour = (loop: Loop): Contour => contourOf(inChords ? withArcs(loop) : loop);
  const closed: Contour[] = [];
  const loose: Piece[] = [];
  for (const e of entities) {
    if (e.kind === 'circle') closed.push(circleContour(e.centre, e.radius));
    else if (e.kind === 'loop' && e.loop.length > 1) closed.push(contour(e.loop));
    else if (e.kind === 'piece' && distance(e.piece.from, e.piece.to) > 0) loose.push(e.piece);
  }
  const joined = joinedLoops(loose);
  return { closed: [...closed, ...joined.closed.map(contour)], open: joined.open };
};

export const circleContour = (centre: Vec2, radius: number): Contour => ({
  loop: [{ x: centre[0] + radius, y: centre[1], bulge: 1 }, { x: centre[0] - radius, y: centre[1], bulge: 1 }],
  circle: { centre, radius },
});

export const contourOf = (given: Loop): Contour => {
  const loop = signedArea(given) < 0 ? reversed(given) : given;
  const circle = circleOf(loop);
  return circle === undefined ? { loop } : { loop, circle };
};

const reversed = (loop: Loop): Loop =>
  loop.map((_, i) => {
    const at = loop[loop.length - 1 - i] as Vertex;
    return { x: at.x, y: at.y, bulge: -(loop[(2 * loop.length - 2 - i) % loop.length] as Vertex).bulge + 0 };
  });

/** The circle of a loop whose pieces are all arcs of one. */
const circleOf = (loop: Loop): Contour['circle'] => {
  if (loop.some((v) => v.bulge <= 0)) return undefined;
  const arcs = loop.map((_, i) => {
    const p = pieceOf(loop, i);
    return arcOf(p.from, p.to, p.bulge);
  });
  const [first, ...rest] = arcs;
  if (first === undefined) return undefined;
  const same = rest.every((a) => distance(a.centre, first.centre) < JOIN_MM && Math.abs(a.radius - first.radius) < JOIN_MM);
  return same ? { centre: first.centre, radius: first.radius } : undefined;
};

/** Lines and arcs joined end to end, whichever way each is drawn. */
const joinedLoops = (pieces: readonly Piece[]): { closed: Loop[]; open: Vec2[] } => {
  const left = new Set(pieces);
  const closed: Loop[] = [];
  const open: Vec2[] = [];
  for (const first of pieces) {
    if (!left.delete(first)) continue;
    const chain = [first];
    for (let next = nextOf(left, first.to); next !== undefined && !meets(first.from, chain.at(-1)?.to); next = nextOf(left, (chain.at(-1) as Piece).to)) chain.push(next);
    if (meets(first.from, chain.at(-1)?.to)) closed.push(chain.map((p) => ({ x: p.from[0], y: p.from[1], bulge: p.bulge })));
    else open.push(first.from);
  }
  return { closed, open };
};

const meets = (a: Vec2, b: Vec2 | undefined): boolean => b !== undefined && distance(a, b) < JOIN_MM;

/** Takes the piece that starts, or ends, at a point out of those that are left. */
const nextOf = (left: Set<Piece>, at: Vec2): Piece | undefined => {
  for (const p of left) {
    const found = meets(p.from, at) ? p : meets(p.to, at) ? backwards(p) : undefined;
    if (found === undefined) continue;
    left.delete(p);
    return found;
  }
  return undefined;
};
