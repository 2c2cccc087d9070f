import type { Loop } from '../../geometry/loop.ts';
import { arcOf } from '../../geometry/arc.ts';
import { loopExtents } from '../../geometry/extents.ts';
import { pieceOf } from '../../geometry/piece.ts';
import { NEARLY_PARALLEL_SINE, SAME_DIRECTION, SAME_LENGTH_MM } from '../../geometry/tolerance.ts';
import { cross, distance, dot, leftOf, scale, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { FlatPattern } from '../../model/flat.ts';
import { type KeyedHole, keyedHoles } from './hole-keys.ts';
import { type StraightEdge, straightEdges } from './straight-edges.ts';

/** The sides of a blank as it is drawn. */
export const SIDES = ['left', 'right', 'bottom', 'top'] as const;
export type BlankSide = (typeof SIDES)[number];

/** A line from which places on a blank are measured. Points and directions as in the cut file. */
export interface DatumLine {
  /**
   * `edge`: a straight edge of the metal; `square`: a line square to the other datum, through a point
   * of it; `hole`: a line through the middle of a hole; `rim`: a line square to the other, where it
   * touches the blank.
   */
  readonly kind: 'edge' | 'square' | 'hole' | 'rim';
  /** In words that follow "from": `the left edge (leg A)`. */
  readonly name: string;
  /** A point of the metal, or the middle of the hole, that lies on it. */
  readonly at: Vec2;
  /** The ends of the metal along it, where it is an edge. */
  readonly ends?: readonly [Vec2, Vec2];
  /** Unit vector in which what is measured from it grows. */
  readonly towards: Vec2;
}

/** What the places on a blank are measured from: two lines at right angles. */
export interface Datum {
  /**
   * Clockwise turn, degrees, by which a drawing lays the blank so that its datum runs level and
   * upright; 0 where it does in the cut file. Between -45 and 45.
   */
  readonly turnDeg: number;
  readonly x: DatumLine;
  readonly y: DatumLine;
}

/**
 * A place of the blank as it is measured from its datum, mm, without the noise of the arithmetic:
 * figures that end in a half are rounded alike, wherever on the blank and by whatever engine.
 */
export const fromDatum = ({ x, y }: Datum, p: Vec2): Vec2 => [
  settled(dot(sub(p, x.at), x.towards)),
  settled(dot(sub(p, y.at), y.towards)),
];

const settled = (mm: number): number => Number(mm.toFixed(NOISE_DECIMALS)) + 0;

/** As many as the places of JSON have. */
const NOISE_DECIMALS = 6;

/**
 * The datum of a blank where nobody has asked for another: the two straight edges at right angles
 * that a tape hooks on best. They are long, nothing of the blank lies behind them, they run as the
 * blank lies, and they meet in a corner; on the left and at the bottom of equal ones. Where there are
 * no two, the best edge and a square through its end; where there is none, a round blank's middle,
 * two holes, or where a square touches the rim.
 */
export const usualDatum = (flat: FlatPattern): Datum => {
  const edges = usable(straightEdges(flat.outline), flat.outline);
  return (
    edgesDatum(edges) ??
    edgeAndSquare(edges, flat) ??
    roundDatum(flat) ??
    holesDatum(keyedHoles(flat)) ??
    rimDatum(flat)
  );
};

/** An edge, and how good it is to hook a tape on: 0 to 1. */
export interface GradedEdge extends StraightEdge {
  readonly grade: number;
}

/** A shorter run of metal, mm, holds no tape and no square, unless the blank is not much longer. */
const LEAST_RUN_MM = 20;
const LEAST_RUN_SHARE = 0.4;
/** What an edge is worth with metal behind it: what lies there is measured the other way. */
const INNER = 0.35;

export const usable = (edges: readonly StraightEdge[], outline: Loop): GradedEdge[] =>
  edges.flatMap((edge) => {
    const reach = reachAlong(outline, edge.way);
    if (edge.runMm < Math.min(LEAST_RUN_MM, LEAST_RUN_SHARE * reach)) return [];
    const share = Math.min(1, edge.metalMm / reach);
    return [{ ...edge, grade: share * (edge.isOuter ? 1 : INNER) }];
  });

const reachAlong = (outline: Loop, way: Vec2): number => {
  const all = outline.map(({ x, y }) => dot([x, y], way));
  return Math.max(...all) - Math.min(...all);
};

/** What counts beside the grades of two edges. */
const CORNER = 0.3;
const TURNED = -0.25;
/** Grades that differ by less are equal; the first is taken. */
const SAME_SHARE = 0.001;
const LEFT = 0.04;
const BOTTOM = 0.02;
/** A corner that is rounded or cut off by no more than this, mm, is one all the same. */
const CORNER_MM = 15;

/** The best pair of edges at right angles. */
export const edgesDatum = (edges: readonly GradedEdge[]): Datum | undefined => {
  let best:
    { readonly pair: readonly [GradedEdge, GradedEdge]; readonly score: number } | undefined;
  for (const [i, a] of edges.entries())
    for (const b of edges.slice(i + 1)) {
      if (Math.abs(dot(a.way, b.way)) > NEARLY_PARALLEL_SINE * 10) continue;
      const score = pairScore(a, b);
      if (best === undefined || score > best.score + SAME_SHARE) best = { pair: [a, b], score };
    }
  return best === undefined ? undefined : datumOf(...best.pair);
};

const pairScore = (a: GradedEdge, b: GradedEdge): number => {
  const turnDeg = turnOf(a.way);
  const sides = [a, b].map((e) => sideOf(e.way, turnDeg));
  return (
    a.grade +
    b.grade +
    (doMeet(a, b) ? CORNER : 0) +
    (turnDeg === 0 ? 0 : TURNED) +
    (sides.includes('left') ? LEFT : 0) +
    (sides.includes('bottom') ? BOTTOM : 0)
  );
};

const doMeet = (a: StraightEdge, b: StraightEdge): boolean => {
  const share = cross(sub(b.from, a.from), b.way) / cross(a.way, b.way);
  const meet: Vec2 = [a.from[0] + share * a.way[0], a.from[1] + share * a.way[1]];
  return [a, b].every((e) => Math.min(distance(meet, e.from), distance(meet, e.to)) <= CORNER_MM);
};

/** Less than this, degrees, is no turn. */
const NO_TURN_DEG = (SAME_DIRECTION * 180) / Math.PI / 60;

/** The turn that brings a direction, or one square to it, level: -45 to 45 degrees. */
export const turnOf = (way: Vec2): number => {
  const deg = (Math.atan2(way[1], way[0]) * 180) / Math.PI;
  const off = deg - 90 * Math.round(deg / 90);
  return Math.abs(off) < NO_TURN_DEG ? 0 : off;
};

/** On which side of the drawn blank an edge lies: the metal is on its left. */
export const sideOf = (way: Vec2, turnDeg: number): BlankSide => {
  const lean = (Math.atan2(way[1], way[0]) * 180) / Math.PI - turnDeg;
  const quarter = ((Math.round(lean / 90) % 4) + 4) % 4;
  return (['bottom', 'right', 'top', 'left'] as const)[quarter] as BlankSide;
};

export const isUpright = (side: BlankSide): boolean => side === 'left' || side === 'right';

/** Two edges at right angles as a datum. */
export const datumOf = (a: StraightEdge, b: StraightEdge): Datum => {
  const turnDeg = turnOf(a.way);
  const [x, y] = isUpright(sideOf(a.way, turnDeg)) ? [a, b] : [b, a];
  return { turnDeg, x: edgeLine(x, turnDeg), y: edgeLine(y, turnDeg) };
};

const edgeLine = (edge: StraightEdge, turnDeg: number): DatumLine => ({
  kind: 'edge',
  name: `the ${sideOf(edge.way, turnDeg)} edge (${edge.panels[0] as string})`,
  at: edge.from,
  ends: [edge.from, edge.to],
  towards: leftOf(edge.way),
});

/** The best edge, and a square through the end of it beyond which there is least of the blank. */
const edgeAndSquare = (edges: readonly GradedEdge[], flat: FlatPattern): Datum | undefined => {
  const [edge] = edges.toSorted((a, b) => b.grade - a.grade || b.metalMm - a.metalMm);
  return edge === undefined ? undefined : squareDatum(edge, flat.outline);
};

export const squareDatum = (edge: StraightEdge, outline: Loop): Datum => {
  const { from, to, way } = edge;
  const all = outline.map(({ x, y }) => dot([x, y], way));
  const [before, beyond] = [dot(from, way) - Math.min(...all), Math.max(...all) - dot(to, way)];
  const turnDeg = turnOf(way);
  const side = sideOf(way, turnDeg);
  const upright = isUpright(side);
  // At the left or the lower end of equal ones.
  const isStart =
    Math.abs(before - beyond) < SAME_LENGTH_MM
      ? ['bottom', 'right'].includes(side)
      : before < beyond;
  const [at, towards] = isStart ? [from, way] : [to, scale(way, -1)];
  const end = upright
    ? endName(isStart === (side === 'right'), 'lower', 'upper')
    : endName(isStart === (side === 'bottom'), 'left', 'right');
  const line = edgeLine(edge, turnDeg);
  const square: DatumLine = {
    kind: 'square',
    name: `a square at the ${end} end of ${line.name}`,
    at,
    towards,
  };
  return upright ? { turnDeg, x: line, y: square } : { turnDeg, x: square, y: line };
};

/** An edge, and a square to it through the middle of a hole. */
export const squareThrough = (edge: StraightEdge, { key, centre }: KeyedHole): Datum => {
  const turnDeg = turnOf(edge.way);
  const side = sideOf(edge.way, turnDeg);
  const line = edgeLine(edge, turnDeg);
  // To the right and upwards.
  const towards = side === 'bottom' || side === 'right' ? edge.way : scale(edge.way, -1);
  const square: DatumLine = {
    kind: 'hole',
    name: `a square to it through the middle of ${key}`,
    at: centre,
    towards,
  };
  return isUpright(side) ? { turnDeg, x: line, y: square } : { turnDeg, x: square, y: line };
};

const endName = (isFirst: boolean, first: string, second: string): string =>
  isFirst ? first : second;

/** The first hole, and the one that is farthest from it. */
const holesDatum = (holes: readonly KeyedHole[]): Datum | undefined => {
  const [first] = holes;
  const last = holes.toSorted(
    (a, b) =>
      distance(b.centre, first?.centre ?? b.centre) - distance(a.centre, first?.centre ?? a.centre),
  )[0];
  return first === undefined || last === undefined || distance(first.centre, last.centre) < 1
    ? undefined
    : twoHoles(first, last);
};

/** Hole to hole: through the middle of one, along the line to the other and square to it. */
export const twoHoles = (one: KeyedHole, other: KeyedHole): Datum => {
  const way = unit(sub(other.centre, one.centre));
  const turnDeg = turnOf(way);
  const side = sideOf(way, turnDeg);
  const upright = isUpright(side);
  const x = upright ? leftOf(scale(way, side === 'right' ? -1 : 1)) : way;
  const y = upright ? way : leftOf(scale(way, side === 'bottom' ? 1 : -1));
  const along = `the line from ${one.key} to ${other.key}`;
  const square = `the middle of ${one.key}, square to that line`;
  return {
    turnDeg,
    x: { kind: 'hole', name: upright ? along : square, at: one.centre, towards: x },
    y: { kind: 'hole', name: upright ? square : along, at: one.centre, towards: y },
  };
};

/** The middle of a blank that is one circle. */
const roundDatum = ({ outline }: FlatPattern): Datum | undefined => {
  const at = roundCentre(outline);
  const name = 'the middle of the disc';
  return at === undefined
    ? undefined
    : {
        turnDeg: 0,
        x: { kind: 'hole', name, at, towards: [1, 0] },
        y: { kind: 'hole', name, at, towards: [0, 1] },
      };
};

/** Squares that touch the rim of a blank without a straight edge, on the left and below. */
const rimDatum = (flat: FlatPattern): Datum => {
  const { minX, minY } = loopExtents(flat.outline) ?? { minX: 0, minY: 0 };
  const rim = (i: 0 | 1, low: number): Vec2 => {
    const [v] = flat.outline.toSorted((a, b) => (i === 0 ? a.x - b.x : a.y - b.y));
    return i === 0 ? [low, v?.y ?? 0] : [v?.x ?? 0, low];
  };
  return {
    turnDeg: 0,
    x: {
      kind: 'rim',
      name: 'a square that touches it on the left',
      at: rim(0, minX),
      towards: [1, 0],
    },
    y: { kind: 'rim', name: 'a square that touches it below', at: rim(1, minY), towards: [0, 1] },
  };
};

/** The centre of an outline whose arcs are all of one circle. */
export const roundCentre = (outline: Loop): Vec2 | undefined => {
  if (outline.some((v) => v.bulge === 0)) return undefined;
  const arcs = outline.map((_, i) => {
    const { from, to, bulge } = pieceOf(outline, i);
    return arcOf(from, to, bulge);
  });
  const centre = arcs[0]?.centre;
  return centre !== undefined && arcs.every((a) => distance(a.centre, centre) < 0.001)
    ? centre
    : undefined;
};
