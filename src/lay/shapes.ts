import { convexPieces } from '../geometry/convex-pieces.ts';
import { turnedDeg } from '../geometry/degrees.ts';
import { type Extents, pointExtents } from '../geometry/extents.ts';
import type { Loop } from '../geometry/loop.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import { depthCells, type DepthCells, depthIn } from './depth-cells.ts';
import { type Convexes, type NoFit, noFitOf, turnedNoFit } from './no-fit.ts';

/** A closed polygon, straight-sided, and the holes in it, in which other parts may lie. */
export interface Outline {
  readonly outer: readonly Vec2[];
  readonly holes: readonly (readonly Vec2[])[];
}

/** An outline turned as it may lie, about its own 0,0. */
export interface Shape {
  /** Number of the outline, the same in all its turns. */
  readonly form: number;
  readonly turnDeg: number;
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  /** Its outline, holes filled, as convex pieces. */
  readonly pieces: Convexes;
  readonly outline: Outline;
}

/** The outline turned about its 0,0. */
export const shapeOf = (outline: Outline, form: number, turnDeg: number): Shape => {
  const moved = (ring: readonly Vec2[]): Vec2[] => ring.map((p) => turnedDeg(p, turnDeg));
  const outer = moved(outline.outer);
  const [xs, ys] = [outer.map(([x]) => x), outer.map(([, y]) => y)];
  return {
    form,
    turnDeg,
    minX: Math.min(...xs),
    minY: Math.min(...ys),
    maxX: Math.max(...xs),
    maxY: Math.max(...ys),
    pieces: convexPieces(loopOf(outer), 1),
    outline: { outer, holes: outline.holes.map(moved) },
  };
};

const loopOf = (ring: readonly Vec2[]): Loop => ring.map(([x, y]) => ({ x, y, bulge: 0 }));

/**
 * The convex pieces of a shape as another one meets it: with those of its holes that the other one,
 * by the boxes of the two, could lie in. The fewer there are the sooner a union is made.
 */
const piecesBeside = ({ pieces, outline }: Shape, other: Shape): Convexes => {
  const [length, width] = sizeOf(other.outline.outer);
  const open = outline.holes.filter((hole) => {
    const [long, wide] = sizeOf(hole);
    return long > length && wide > width;
  });
  return open.length === 0 ? pieces : convexPieces(loopOf(outline.outer), 1, open.map(loopOf));
};

const sizeOf = (ring: readonly Vec2[]): readonly [number, number] => {
  const { minX, minY, maxX, maxY } = pointExtents(ring) as Extents;
  return [maxX - minX, maxY - minY];
};

/**
 * The no-fit polygons of all pairs of shapes, each worked out when it is first asked for. Pairs that
 * are alike but for a turn of both have one between them.
 */
export class NoFits {
  readonly #shapes: readonly Shape[];
  /** Of each pair, the one that moves first, the number of its kind. */
  readonly #kinds: Int32Array;
  /** Of each kind the polygon as the one that stays is not turned, in cells. */
  readonly #cells: (DepthCells | undefined)[];
  /** Of each pair the polygon as it lies. */
  readonly #asLaid: (NoFit | undefined)[];
  /** Cosine and sine of the turn of each shape. */
  readonly #cos: Float64Array;
  readonly #sin: Float64Array;

  constructor(shapes: readonly Shape[]) {
    this.#shapes = shapes;
    const numbers = new Map<string, number>();
    this.#kinds = Int32Array.from(
      shapes.flatMap((moves) =>
        shapes.map((stays) => {
          const between = (((moves.turnDeg - stays.turnDeg) % 360) + 360) % 360;
          const key = `${stays.form} ${moves.form} ${between}`;
          const number = numbers.get(key) ?? numbers.size;
          numbers.set(key, number);
          return number;
        }),
      ),
    );
    this.#cells = Array.from({ length: numbers.size }, () => undefined);
    this.#asLaid = Array.from({ length: shapes.length ** 2 }, () => undefined);
    const ways = shapes.map(({ turnDeg }) => turnedDeg([1, 0], turnDeg));
    this.#cos = Float64Array.from(ways, ([c]) => c);
    this.#sin = Float64Array.from(ways, ([, s]) => s);
  }

  /** How deep a shape overlaps one that stays, by where its 0,0 is seen from that of the other. */
  depth(stays: number, moves: number, x: number, y: number): number {
    const cells = this.cellsOf(stays, moves);
    const c = this.#cos[stays] as number;
    const s = this.#sin[stays] as number;
    return depthIn(cells, c * x + s * y, c * y - s * x);
  }

  /** The polygon of a pair in cells, as the one that stays is not turned. */
  cellsOf(stays: number, moves: number): DepthCells {
    const kind = this.#kinds[moves * this.#shapes.length + stays] as number;
    return this.#cells[kind] ?? this.#workOut(kind, stays, moves);
  }

  /** Cosine and sine of the turn of a shape. */
  cosOf(shape: number): number {
    return this.#cos[shape] as number;
  }
  sinOf(shape: number): number {
    return this.#sin[shape] as number;
  }

  of(stays: number, moves: number): NoFit {
    const pair = moves * this.#shapes.length + stays;
    const known = this.#asLaid[pair];
    if (known !== undefined) return known;
    const kind = this.#kinds[pair] as number;
    const cells = this.#cells[kind] ?? this.#workOut(kind, stays, moves);
    const asLaid = turnedNoFit(cells, (this.#shapes[stays] as Shape).turnDeg);
    this.#asLaid[pair] = asLaid;
    return asLaid;
  }

  #workOut(kind: number, stays: number, moves: number): DepthCells {
    const [a, b] = [this.#shapes[stays] as Shape, this.#shapes[moves] as Shape];
    const noFit = noFitOf(piecesBeside(a, b), piecesBeside(b, a));
    const cells = depthCells(turnedNoFit(noFit, -a.turnDeg));
    this.#cells[kind] = cells;
    return cells;
  }
}
