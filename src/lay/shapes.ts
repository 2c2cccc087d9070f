import { convexPieces } from '../geometry/convex-pieces.ts';
import { turnedDeg } from '../geometry/degrees.ts';
import { type Extents, pointExtents } from '../geometry/extents.ts';
import type { Loop } from '../geometry/loop.ts';
import type { Vec2 } from '../geometry/vec2.ts';
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

/** The no-fit polygons of all pairs of shapes, each worked out when it is first asked for. */
export class NoFits {
  readonly #shapes: readonly Shape[];
  readonly #known: (NoFit | undefined)[];
  /** By the two forms and the turn between them: pairs turned together have the same, turned. */
  readonly #byForms = new Map<string, NoFit>();
  /** Least and greatest x and y of each, where a search looks first. */
  readonly boxes: Float64Array;

  constructor(shapes: readonly Shape[]) {
    this.#shapes = shapes;
    this.#known = Array.from({ length: shapes.length ** 2 }, () => undefined);
    this.boxes = new Float64Array(4 * shapes.length ** 2);
    const reaches = shapes.map(({ pieces }) => pointExtents(pieces.flat()) as Extents);
    reaches.forEach((stays, a) => {
      reaches.forEach((moves, b) => {
        const k = 4 * this.numberOf(a, b);
        this.boxes[k] = stays.minX - moves.maxX;
        this.boxes[k + 1] = stays.minY - moves.maxY;
        this.boxes[k + 2] = stays.maxX - moves.minX;
        this.boxes[k + 3] = stays.maxY - moves.minY;
      });
    });
  }

  /** The number of a pair: of the shape that moves, beside the one that stays. */
  numberOf(stays: number, moves: number): number {
    return stays * this.#shapes.length + moves;
  }

  of(stays: number, moves: number): NoFit {
    return this.at(this.numberOf(stays, moves));
  }

  at(number: number): NoFit {
    return this.#known[number] ?? this.#workOut(number);
  }

  #workOut(number: number): NoFit {
    const moves = this.#shapes[number % this.#shapes.length] as Shape;
    const stays = this.#shapes[Math.floor(number / this.#shapes.length)] as Shape;
    const between = (((moves.turnDeg - stays.turnDeg) % 360) + 360) % 360;
    const key = `${stays.form} ${moves.form} ${between}`;
    const same = this.#byForms.get(key);
    const first =
      same ??
      turnedNoFit(noFitOf(piecesBeside(stays, moves), piecesBeside(moves, stays)), -stays.turnDeg);
    this.#byForms.set(key, first);
    const noFit = turnedNoFit(first, stays.turnDeg);
    this.#known[number] = noFit;
    return noFit;
  }
}
