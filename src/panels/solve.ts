import { nearest } from '../text/nearest.ts';
import { type Figures, type GivenFigure, nameInSum, PLACE } from './figures.ts';
import { bendOf } from './flange-bend.ts';
import { standingOf } from './flange-outline.ts';
import { tellTaken } from './free-stretch.ts';
import type { GivenFlangeMap } from './given.ts';
import type { Flange, GivenPiece, Piece, Spot, Stretch, Working } from './piece.ts';
import {
  baseDepth,
  baseShape,
  baseWidth,
  edgeOf,
  listed,
  type Shape,
  shapeHeight,
  shapeWidth,
  straightEdges,
} from './shape.ts';
import { stretchOf } from './stretch.ts';

/**
 * Works out every figure of a blank; nothing where something is wrong with one, which `figures` then
 * tells.
 */
export const solvePiece = (working: Working): Piece | undefined => solverOf(working)();

/**
 * Names the lengths of a blank at once, and works them out when it is called: pieces of one part
 * name each other's.
 */
export const solverOf = (working: Working): (() => Piece | undefined) => {
  const { figures, given } = working;
  const solver = new Solver(working);
  return () => {
    const wrong = figures.problems.length;
    const base = solver.shapeOf(solver.baseId, `${given.at}base`);
    const flanges = given.flanges.map((_, i) => solver.flange(i));
    if (base === undefined || flanges.includes(undefined)) return undefined;
    tellTaken(base, flanges as Flange[], working);
    return figures.problems.length > wrong
      ? undefined
      : { base, flanges: flanges as Flange[], given };
  };
};

/** Where a flange grows, and the panel and the edge by their names. */
interface Placed extends Spot {
  readonly on: string;
  readonly side: string;
}

class Solver {
  readonly #working: Working;
  readonly #figures: Figures;
  readonly #given: GivenPiece;
  readonly #shapes = new Map<string, Shape | undefined>();
  readonly #flanges = new Map<number, Flange | undefined>();
  readonly #spots = new Map<number, Placed | undefined>();
  readonly baseId: string;

  constructor(working: Working) {
    this.#working = working;
    this.#figures = working.figures;
    this.#given = working.given;
    this.baseId = working.given.base.name ?? 'base';
    this.#define();
  }

  /** All lengths that may be named in sums. */
  #define(): void {
    const { base, flanges, at } = this.#given;
    const baseAt = `${at}base`;
    const size = (name: string, side: () => number | undefined, whole: (s: Shape) => number) =>
      this.#figures.define(`${nameInSum(this.baseId)}.${name}`, () => {
        if (base.size !== undefined || base.width !== undefined) return side();
        const shape = this.shapeOf(this.baseId, baseAt);
        return shape === undefined ? undefined : whole(shape);
      });
    size('width', () => baseWidth(this.#figures, base, baseAt), shapeWidth);
    size('depth', () => baseDepth(this.#figures, base, baseAt), shapeHeight);
    for (const [i, flange] of flanges.entries()) this.#defineFlange(flange, i);
  }

  #defineFlange(given: GivenFlangeMap, i: number): void {
    const figures = this.#figures;
    const name = nameInSum(given.name);
    const at = this.#at(i);
    const own = (key: keyof GivenFlangeMap, otherwise: () => number | undefined): void =>
      figures.define(`${name}.${key}`, () => {
        const figureGiven = given[key] as GivenFigure;
        return figureGiven === undefined
          ? otherwise()
          : figures.read(figureGiven, `${at}.${key}`, PLACE);
      });
    const whole = (of: (shape: Shape) => number) => (): number | undefined => {
      const flange = this.flange(i);
      return flange === undefined ? undefined : of(flange.shape);
    };
    own('height', whole(shapeHeight));
    own('width', () => this.#widthOf(i));
    own('from', () => this.#stretchOf(i)?.[0]);
    own('to', () => this.#stretchOf(i)?.[1]);
    own('radius', () => {
      const spot = this.#spotOf(i);
      return spot === undefined ? undefined : bendOf(spot)?.radiusMm;
    });
    own(
      'endWidth',
      whole((shape) => edgeOf(shape, 'end')?.lengthMm ?? 0),
    );
  }

  #widthOf(i: number): number | undefined {
    const [from, to] = this.#stretchOf(i) ?? [];
    return from === undefined || to === undefined ? undefined : to - from;
  }

  /**
   * The stretch that a flange takes of the edge it grows on. A flange that is no outline has it
   * before its height and its sides are known, so that these may be sums of it.
   */
  #stretchOf(i: number): Stretch | undefined {
    const spot = this.#spotOf(i);
    if (spot === undefined) return undefined;
    const stretch =
      spot.given.outline === undefined
        ? stretchOf(spot)
        : this.flange(i) && (this.flange(i)?.stretch ?? 'whole');
    return stretch === 'whole' ? [0, spot.edgeMm] : stretch;
  }

  #at(i: number): string {
    return `${this.#given.at}flanges[${i}]`;
  }

  /** The shape of a panel, for what stands at `at`. */
  shapeOf(id: string, at: string): Shape | undefined {
    if (this.#shapes.has(id)) return this.#shapes.get(id);
    const shape =
      id === this.baseId
        ? this.#figures.within(this.baseId, at, this.baseId, () =>
            this.#given.fitted === undefined
              ? baseShape(this.#figures, this.#given.base, `${this.#given.at}base`)
              : this.#given.fitted(),
          )
        : this.flange(this.#given.flanges.findIndex(({ name }) => name === id))?.shape;
    this.#shapes.set(id, shape);
    return shape;
  }

  flange(i: number): Flange | undefined {
    if (this.#flanges.has(i)) return this.#flanges.get(i);
    const given = this.#given.flanges[i];
    if (given === undefined) return undefined;
    const flange = this.#figures.within(given.name, this.#at(i), given.name, () =>
      this.#made(given, i),
    );
    this.#flanges.set(i, flange);
    return flange;
  }

  #made(given: GivenFlangeMap, i: number): Flange | undefined {
    const spot = this.#spotOf(i);
    if (spot === undefined) return undefined;
    const [bend, standing] = [bendOf(spot), standingOf(spot)];
    return bend === undefined || standing === undefined
      ? undefined
      : {
          id: given.name,
          at: spot.at,
          given,
          parent: spot.on,
          edge: spot.side,
          ...bend,
          ...standing,
        };
  }

  /** Where a flange grows; nothing where that told a problem. */
  #spotOf(i: number): Placed | undefined {
    if (this.#spots.has(i)) return this.#spots.get(i);
    const given = this.#given.flanges[i];
    const at = this.#at(i);
    const place = given === undefined ? undefined : this.#placeOf(given, at);
    const found = place === undefined ? undefined : edgeOf(place.parent, place.edge);
    const spot =
      given === undefined || place === undefined || found === undefined
        ? undefined
        : {
            figures: this.#figures,
            values: this.#working.values,
            given,
            at,
            edgeMm: found.lengthMm,
            edge: place.called,
            on: place.parent.id,
            side: place.edge,
          };
    this.#spots.set(i, spot);
    return spot;
  }

  /** The panel and the edge that it grows on. */
  #placeOf(
    given: GivenFlangeMap,
    at: string,
  ): { readonly parent: Shape; readonly edge: string; readonly called: string } | undefined {
    const words = given.on.trim().split(/\s+/);
    const edge = words.at(-1) ?? '';
    const id = words.length > 1 ? words.slice(0, -1).join(' ') : this.baseId;
    const ids = [this.baseId, ...this.#given.flanges.map(({ name }) => name)];
    if (!ids.includes(id) || id === given.name) {
      const others = ids.filter((other) => other !== given.name);
      const meant = nearest(id, others);
      return this.#figures.problem(
        `${at}.on`,
        given.on,
        `a panel and an edge of it; the panels are ${listed(others)}`,
        meant === undefined ? undefined : `did you mean ${meant} ${edge}?`,
      );
    }
    const parent = this.shapeOf(id, `${at}.on`);
    if (parent === undefined) return undefined;
    const free = straightEdges(parent).filter((name) => name !== this.#footOf(id));
    if (free.includes(edge)) return { parent, edge, called: `${id} ${edge}` };
    const meant = nearest(edge, free);
    return this.#figures.problem(
      `${at}.on`,
      given.on,
      free.length === 0
        ? `an edge that is straight; ${id} has none`
        : `a straight edge of ${id}: ${listed(free)}`,
      meant === undefined ? undefined : `did you mean ${id} ${meant}?`,
    );
  }

  /** What a flange stands on bears no other. */
  #footOf(id: string): string | undefined {
    return this.#flanges.get(this.#given.flanges.findIndex(({ name }) => name === id))?.foot;
  }
}
