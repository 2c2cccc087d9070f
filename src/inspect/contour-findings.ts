import { figure } from '../figures.ts';
import { type Finding, note, stop, warn } from '../model/finding.ts';
import type { Chain, CutPiece } from './contours.ts';
import { printable } from './decode.ts';
import type { Stroke } from './explode.ts';
import { lengthOf, pieceLength } from './lengths.ts';
import { type CutLines, doubledStretches } from './lines.ts';
import { counted, listed } from './listed.ts';
import type { Nested } from './nesting.ts';
import type { Stretch } from './overlap.ts';

const mm = (value: number): string => `${figure(value, 3)} mm`;

const place = ([x, y]: readonly [number, number]): string => `(${figure(x)}, ${figure(y)})`;

/** Ends that do not meet: gaps that were meant to be none, and lines that are open otherwise. */
export const openFindings = ({ chains, gaps }: CutLines, nested: Nested): Finding[] => {
  const gapFindings = gaps.map(({ at, sizeMm, layer }): Finding => ({ ...stop('gap', `A gap of ${mm(sizeMm)} at ${place(at)} on layer '${printable(layer)}'. Join the ends, or let --mend do it.`), at }));
  const joined = new Set(gaps.flatMap((g) => g.ends.map((e) => e.chain)));
  const closedLayers = new Set(nested.contours.flatMap(({ chain }) => chain.pieces.map((p) => p.layer)));
  const open = chains.flatMap((c, i) => (c.closed || joined.has(i) ? [] : [c]));
  const isStray = (c: Chain): boolean => c.pieces.every((p) => !closedLayers.has(p.layer));
  return [...listed(gapFindings), ...listed(open.filter((c) => !isStray(c)).map(openFinding)), ...strayFindings(open.filter(isStray))];
};

const openFinding = ({ pieces }: Chain): Finding => {
  const [from, to] = [(pieces[0] as CutPiece).from, (pieces.at(-1) as CutPiece).to];
  return { ...stop('open-contour', `A line of ${mm(lengthOf(pieces))} on layer '${printable((pieces[0] as CutPiece).layer)}' from ${place(from)} to ${place(to)} closes no contour. Close it, or delete it.`), at: from };
};

/** Layers with open lines only: folds, axes, dimensions. */
const strayFindings = (open: readonly Chain[]): Finding[] => {
  const layers = new Map<string, Chain[]>();
  for (const chain of open) {
    const { layer } = chain.pieces[0] as CutPiece;
    const known = layers.get(layer);
    if (known === undefined) layers.set(layer, [chain]);
    else known.push(chain);
  }
  return [...layers].map(([layer, chains]) => ({
    ...warn('stray-layer', `Layer '${printable(layer)}' holds ${counted(chains.length, 'open line')} and no closed contour: folds, axes or leftovers, which a cutter would cut. Leave the layer out, or say what it is for.`),
    at: ((chains[0] as Chain).pieces[0] as CutPiece).from,
  }));
};

/** Lines that are cut twice, by the entity that draws them the second time. */
export const doubledFindings = (lines: CutLines, strokes: readonly Stroke[]): Finding[] => {
  const types = new Map(strokes.map((s) => [s.entity, s.type]));
  const stretches = doubledStretches(lines.meetings);
  const whole = new Map<number, { total: number; doubled: number; at: readonly [number, number] }>();
  const lengths = new Map<number, number>();
  for (const p of lines.drawn) lengths.set(p.entity, (lengths.get(p.entity) ?? 0) + pieceLength(p));
  for (const [i, own] of stretches) {
    const piece = lines.drawn[i] as CutPiece;
    const known = whole.get(piece.entity) ?? { total: lengths.get(piece.entity) as number, doubled: 0, at: piece.from };
    known.doubled += covered(own) * pieceLength(piece);
    whole.set(piece.entity, known);
  }
  const findings = [...whole].map(([entity, { total, doubled, at }]): Finding => {
    const what = `${types.get(entity) ?? 'A line'} at ${place(at)}`;
    if (doubled > 0.999 * total) return { ...warn('duplicate', `${what} of ${mm(total)} is drawn twice. Delete one of them, or let --mend do it.`), at };
    return { ...warn('overlap', `${what} lies on other lines for ${mm(doubled)}, which are cut twice. Delete what is double, or let --mend do it.`), at };
  });
  return [...listed(findings.filter((f) => f.rule === 'duplicate')), ...listed(findings.filter((f) => f.rule === 'overlap'))];
};

/** Share of a piece that some stretches cover together. */
const covered = (stretches: readonly Stretch[]): number => {
  let [sum, at] = [0, 0];
  for (const { from, to } of stretches.toSorted((a, b) => a.from - b.from)) {
    sum += Math.max(0, to - Math.max(at, from));
    at = Math.max(at, to);
  }
  return sum;
};

/** Length that is cut a second time, mm. */
export const doubledLength = (lines: CutLines): number =>
  [...doubledStretches(lines.meetings)].reduce((sum, [i, own]) => sum + covered(own) * pieceLength(lines.drawn[i] as CutPiece), 0);

/** Lines that cross, or end on one another. */
export const crossingFindings = ({ meetings: { meetings } }: CutLines): Finding[] => {
  const crossing = meetings.filter((m) => m.kind === 'cross').map(({ at }): Finding => ({ ...stop('crossing', `Lines cross at ${place(at)}. Trim them: a contour must not cross itself or another.`), at }));
  const touching = meetings.filter((m) => m.kind === 'touch').map(({ at }): Finding => ({ ...warn('touching', `A line ends on another at ${place(at)}, away from its ends. Trim or split them.`), at }));
  return [...listed(crossing), ...listed(touching)];
};

/** Pieces too short to be meant. What a curve was turned into here is not counted. */
export const shortFindings = ({ drawn, empty }: CutLines, strokes: readonly Stroke[], shortMm: number): Finding[] => {
  const curves = new Set(strokes.filter((s) => s.primitive.kind !== 'piece').map((s) => s.entity));
  const short = [...empty, ...drawn.filter((p) => pieceLength(p) < shortMm && !curves.has(p.entity))];
  return listed(short.map((p): Finding => ({ ...warn('short-piece', `A piece of ${mm(pieceLength(p))} at ${place(p.from)} on layer '${printable(p.layer)}' is shorter than ${mm(shortMm)}. Delete it and join its neighbours.`), at: p.from })));
};

/** Contours within holes, and several parts. */
export const nestingFindings = ({ contours }: Nested): Finding[] => {
  const deep = contours.filter((c) => c.depth >= 2).map(({ chain: { pieces }, depth }): Finding => {
    const at = (pieces[0] as CutPiece).from;
    return { ...warn('contour-in-hole', `A contour at ${place(at)} lies in a hole, ${depth} contours deep: a part in the scrap, or a mistake. Check it; move it out if it is to be kept.`), at };
  });
  const parts = contours.filter((c) => c.depth === 0).length;
  return [...listed(deep), ...(parts > 1 ? [note('several-parts', `${parts} parts lie beside one another in the file.`)] : [])];
};
