import { type Loop, type Vertex, vertexAt } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { movePoint } from '../geometry/motion2.ts';
import { partBulge, pieceOf, pointOn, shareAt } from '../geometry/piece.ts';
import { PROOF_MM, wholeDown } from '../geometry/tolerance.ts';
import { distance, type Vec2 } from '../geometry/vec2.ts';
import { MIDDLE_OF_SHEET } from '../model/bend-rule.ts';
import type { FlatBend, FlatPanel, FlatPattern } from '../model/flat.ts';
import type { Fold, FoldSide, Panel, Part } from '../model/part.ts';
import type { RulingLine } from '../model/rolled.ts';

/** A part with its blank. */
interface OnBlank {
  readonly part: Part;
  readonly flat: FlatPattern;
}

/** Strips of a rolled panel in models and pictures, degrees of its turn each; a round one has 72. */
const MODEL_DEG = 5;

/**
 * A part as it is when its rolled panel is rolled: narrow flats in the place of that panel, which
 * meet at its lines and turn there about the middle of the sheet, so that its length is kept. The
 * blank is the same. A part of which nothing is rolled is given back as it is. `stripDeg` is about
 * how much one flat turns against the next; less than the part's own lines give is not to be had.
 */
export const rolledBody = (part: Part, flat: FlatPattern, stripDeg = MODEL_DEG): OnBlank => {
  const { rolled } = part;
  const panel = part.panels.find(({ id }) => id === rolled?.panel);
  const laid = flat.panels.find(({ id }) => id === rolled?.panel);
  if (rolled === undefined || panel === undefined || laid === undefined) return { part, flat };
  const lines = coarser(rolled.lines, stripDeg);
  const outlines = strips(numbered(panel.outline), lines);
  const regions = strips(laid.region, lines);
  if (outlines.length !== lines.length + 1 || regions.length !== outlines.length)
    return { part, flat };
  const name = (i: number): string => stripName(panel.id, i);
  const panels = outlines.map((outline, i): Panel => ({ id: name(i), outline, cutouts: [] }));
  const folds = lines.map((line, i): Fold => ({
    id: `${panel.id} roll ${i + 1}`,
    parent: { panel: name(i), edge: cutEdge(outlines[i] as Loop, i) },
    child: { panel: name(i + 1), edge: cutEdge(outlines[i + 1] as Loop, i) },
    angleDeg: line.turnDeg,
    direction: rolled.direction,
    insideRadiusMm: 0,
    rule: MIDDLE_OF_SHEET,
    midSurface: true,
  }));
  const own = new Set(folds.map(({ id }) => id));
  const place = placesOn(outlines, panel.id);
  const moved = part.folds.map((fold) => ({
    ...fold,
    parent: place(fold.parent),
    child: place(fold.child),
  }));
  const others = part.panels.filter((p) => p !== panel);
  const { rolled: _, wishes: __, ...rest } = part;
  const body: Part = {
    ...rest,
    root: part.root === panel.id ? name(0) : part.root,
    panels: [...panels, ...others],
    folds: [...folds, ...moved],
  };
  return { part: body, flat: { ...flat, ...flatOf(body, { flat, laid, regions, own }) } };
};

/** The strips of a rolled panel are called by its own name and a number. */
const stripName = (panel: string, i: number): string => `${panel} ${i + 1}`;

/** Panels and bends of the blank with the strips in the place of the rolled panel. */
const flatOf = (
  body: Part,
  {
    flat,
    laid,
    regions,
    own,
  }: {
    readonly flat: FlatPattern;
    readonly laid: FlatPanel;
    readonly regions: readonly Loop[];
    readonly own: ReadonlySet<string>;
  },
): Pick<FlatPattern, 'outline' | 'panels' | 'bends'> => ({
  outline: withVertices(
    flat.outline,
    regions.flatMap((region) =>
      region.flatMap(({ x, y, edge }) =>
        edge?.startsWith(CUT) === true ? [movePoint(laid.placement, [x, y])] : [],
      ),
    ),
  ),
  panels: [
    ...regions.map((region, i): FlatPanel => ({
      id: stripName(laid.id, i),
      placement: laid.placement,
      region,
      areaMm2: signedArea(region),
    })),
    ...flat.panels.filter((p) => p !== laid),
  ],
  bends: body.folds.map((fold): FlatBend => {
    if (!own.has(fold.id)) {
      const bend = flat.bends.find(({ id }) => id === fold.id) as FlatBend;
      return { ...bend, parent: fold.parent.panel, child: fold.child.panel };
    }
    const panel = body.panels.find(({ id }) => id === fold.parent.panel) as Panel;
    const { from, to } = pieceOf(panel.outline, fold.parent.edge);
    const line = [movePoint(laid.placement, from), movePoint(laid.placement, to)] as const;
    return {
      id: fold.id,
      parent: fold.parent.panel,
      child: fold.child.panel,
      angleDeg: fold.angleDeg,
      direction: fold.direction,
      insideRadiusMm: 0,
      rule: 'k:0.5',
      allowanceMm: 0,
      setbackMm: 0,
      deductionMm: 0,
      kFactor: 0.5,
      midSurface: true,
      parentTangent: line,
      childTangent: line,
      centreLine: line,
    };
  }),
});

/**
 * Fewer lines with larger turns: each that is kept has the turns of those nearest to it, and the
 * wall between two of them is a flat.
 */
const coarser = (lines: readonly RulingLine[], stripDeg: number): RulingLine[] => {
  const most = Math.max(0, ...lines.map(({ turnDeg }) => turnDeg));
  const every = Math.max(1, wholeDown(stripDeg / most));
  return lines.flatMap((line, i): RulingLine[] => {
    if ((i + 1) % every !== 0) return [];
    const before = Math.ceil((every - 1) / 2);
    const near = lines.slice(i - before, i - before + every);
    // An even number of lines has no middle one: halves of those at both ends count.
    const turnDeg =
      every % 2 === 1
        ? near.reduce((sum, l) => sum + l.turnDeg, 0)
        : near.reduce((sum, l) => sum + l.turnDeg, 0) +
          ((lines[i - before + every]?.turnDeg ?? 0) - (near[0]?.turnDeg ?? 0)) / 2;
    return [{ ...line, turnDeg }];
  });
};

/** A vertex that still knows which edge of its panel begins there. */
interface Numbered extends Vertex {
  readonly of: number;
}

const numbered = (outline: Loop): Numbered[] => outline.map((v, of) => ({ ...v, of }));

/**
 * A loop cut along the lines, from the side where rolling begins. Each line ends on the loop, which
 * is parted there: a line that went on beyond its ends might cut a wide sector twice.
 */
const strips = <V extends Vertex>(outline: Loop<V>, lines: readonly RulingLine[]): Loop<V>[] => {
  const cut: Loop<V>[] = [];
  let rest = outline;
  lines.forEach(({ from, to }, i) => {
    const [start, end] = [onLoop(rest, from), onLoop(rest, to)];
    if (start === undefined || end === undefined) return;
    const cutVertex = ([x, y]: Vec2): V =>
      ({ x, y, bulge: 0, edge: cutName(i), of: NOWHERE }) as never;
    const [p, q] = [start, end].map((place) => placeOf(rest, place)) as [Vec2, Vec2];
    cut.push([cutVertex(p), ...stretch(rest, end, start)]);
    rest = [cutVertex(q), ...stretch(rest, start, end)];
  });
  return [...cut, rest];
};

/** A place on a loop: on which piece, and at which share of it. */
interface OnLoop {
  readonly piece: number;
  readonly share: number;
}

/** The nearest place: a flat beside the apex of an oblique cone may be narrower than what counts as one. */
const onLoop = (loop: Loop, at: Vec2): OnLoop | undefined => {
  let [nearest, least]: [OnLoop | undefined, number] = [undefined, Infinity];
  loop.forEach((v, piece) => {
    if (isBeyond(v, vertexAt(loop, piece + 1), at)) return;
    const of = pieceOf(loop, piece);
    const share = shareAt(of, at, PROOF_MM);
    if (share === undefined) return;
    const far = distance(pointOn(of, share), at);
    if (far >= least) return;
    [nearest, least] = [{ piece, share }, far];
  });
  return nearest;
};

/** Whether a place is too far from where a piece begins to lie on it; seen at once, for most are. */
const isBeyond = (v: Vertex, next: Vertex, [x, y]: Vec2): boolean =>
  Math.abs(v.bulge) <= 1 &&
  Math.hypot(x - v.x, y - v.y) > Math.hypot(next.x - v.x, next.y - v.y) + PROOF_MM;

const placeOf = (loop: Loop, { piece, share }: OnLoop): Vec2 =>
  pointOn(pieceOf(loop, piece), share);

/** A loop with a vertex at each of some places on it, so that chords of its arcs end there too. */
const withVertices = <V extends Vertex>(outline: Loop<V>, places: readonly Vec2[]): Loop<V> => {
  const cuts = outline.map((): number[] => []);
  for (const at of places) {
    const on = onLoop(outline, at);
    if (on !== undefined && on.share > 0 && on.share < 1) cuts[on.piece]?.push(on.share);
  }
  return outline.flatMap((_, piece) => {
    const shares = [0, ...(cuts[piece] as number[]).toSorted((a, b) => a - b), 1];
    const ends = shares.filter(
      (share, i) => i === 0 || share - (shares[i - 1] as number) > NO_STRETCH,
    );
    return ends.slice(0, -1).map((from, i) => partOf(outline, piece, from, ends[i + 1] as number));
  });
};

/** The vertex with which a part of a piece begins. */
const partOf = <V extends Vertex>(loop: Loop<V>, piece: number, from: number, to: number): V => {
  const v = loop[piece] as V;
  if (from === 0 && to === 1) return v;
  const [x, y] = placeOf(loop, { piece, share: from });
  return { ...v, x, y, bulge: partBulge(v.bulge, from, to) };
};

/** The vertices of a loop from one place on it, counter-clockwise, to just before another. */
const stretch = <V extends Vertex>(loop: Loop<V>, from: OnLoop, to: OnLoop): V[] => {
  const n = loop.length;
  const count =
    from.piece === to.piece && from.share <= to.share ? 0 : (to.piece - from.piece + n) % n || n;
  const made: V[] = [];
  for (let k = 0; k <= count; k++) {
    const [t0, t1] = [k === 0 ? from.share : 0, k === count ? to.share : 1];
    if (t1 - t0 > NO_STRETCH) made.push(partOf(loop, (from.piece + k) % n, t0, t1));
  }
  return made;
};

/** A line that ends in a corner leaves nothing of the piece that ends there. */
const NO_STRETCH = 1e-9;

const NOWHERE = -1;
const CUT = 'roll ';
const cutName = (line: number): string => `${CUT}${line + 1}`;

const cutEdge = (outline: Loop, line: number): number =>
  outline.findIndex(({ edge }) => edge === cutName(line));

/** Sides of folds on the rolled panel, as sides of the strip that their edge has come to be on. */
const placesOn =
  (outlines: readonly Loop<Numbered>[], panel: string) =>
  (side: FoldSide): FoldSide => {
    if (side.panel !== panel) return side;
    const strip = outlines.findIndex((loop) => loop.some(({ of }) => of === side.edge));
    const edge = (outlines[strip] ?? []).findIndex(({ of }) => of === side.edge);
    return { ...side, panel: stripName(panel, strip), edge };
  };
