import { leastRadiusMm } from '../bending/least-radius.ts';
import { parseRule } from '../bending/rule.ts';
import { loopExtents } from '../geometry/extents.ts';
import { tanDeg } from '../geometry/degrees.ts';
import type { CommonValues } from '../forms/common.ts';
import type { BendRule } from '../model/bend-rule.ts';
import type { Direction } from '../model/part.ts';
import { figure } from '../text/figures.ts';
import { nearest } from '../text/nearest.ts';
import { Figures, type GivenFigure, LENGTH, nameInSum, PLACE } from './figures.ts';
import type { GivenBaseMap, GivenCornerMap, GivenFlangeMap } from './given.ts';
import {
  baseDepth,
  baseShape,
  baseWidth,
  edgeOf,
  flangeShape,
  NONE_BACKWARDS,
  outlineOf,
  type Shape,
  shapeHeight,
  shapeWidth,
  SIZE,
} from './shape.ts';

/** A blank as it is described, its lines taken apart. */
export interface GivenPiece {
  readonly base: GivenBaseMap;
  readonly flanges: readonly GivenFlangeMap[];
  readonly corners: readonly GivenCornerMap[];
  /** All panels in the order in which the part counts them, where that is another. */
  readonly order?: readonly string[] | undefined;
  /** Before the paths of its inputs: `pieces[1].`, or nothing. */
  readonly at: string;
}

/** A flange with all its figures worked out, mm and degrees. */
export interface Flange {
  readonly id: string;
  /** `flanges[2]`. */
  readonly at: string;
  readonly given: GivenFlangeMap;
  readonly parent: string;
  readonly edge: string;
  /**
   * The stretch of the edge that it takes, along the edge as figures count there; nothing for the
   * whole edge.
   */
  readonly stretch: Stretch | undefined;
  readonly shape: Shape;
  /** The edge of its own that is folded, and the stretch of that; nothing for all of it. */
  readonly foot: string;
  readonly footStretch: Stretch | undefined;
  readonly angleDeg: number;
  readonly direction: Direction;
  readonly radiusMm: number;
  readonly hasOwnRadius: boolean;
  readonly rule: BendRule | undefined;
  readonly joggleMm: number | undefined;
}

export type Stretch = readonly [from: number, to: number];

/** A blank with all its figures worked out. */
export interface Piece {
  readonly base: Shape;
  readonly flanges: readonly Flange[];
  readonly given: GivenPiece;
}

/** What a path and a name in messages are made of. */
export interface Working {
  readonly figures: Figures;
  readonly given: GivenPiece;
  readonly values: CommonValues;
}

const ANGLE = { kind: 'angle', least: 0.5, most: 180 } as const;
const JOGGLE_ANGLE = { kind: 'angle', least: 0.5, most: 90 } as const;
const LEAN = { kind: 'angle', least: -85, most: 85 } as const;
const JOGGLE = { kind: 'length', least: 0.1, most: 1000 } as const;
const RADIUS = { kind: 'length', least: 0, most: 1000 } as const;
/** Two figures for one length, which came by sums, mm. */
const SAME_MM = 1e-4;

/**
 * Works out every figure of a blank; nothing where something is wrong with one, which `figures` then
 * tells.
 */
export const solvePiece = (working: Working): Piece | undefined => {
  const { figures, given } = working;
  const wrong = figures.problems.length;
  const solver = new Solver(working);
  const base = solver.shapeOf(solver.baseId, `${given.at}base`);
  const flanges = given.flanges.map((_, i) => solver.flange(i));
  return base === undefined || flanges.includes(undefined) || figures.problems.length > wrong
    ? undefined
    : { base, flanges: flanges as Flange[], given };
};

class Solver {
  readonly #working: Working;
  readonly #figures: Figures;
  readonly #given: GivenPiece;
  readonly #shapes = new Map<string, Shape | undefined>();
  readonly #flanges = new Map<number, Flange | undefined>();
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
    own('from', () => this.flange(i)?.stretch?.[0] ?? 0);
    own('to', () => this.flange(i)?.stretch?.[1] ?? this.#widthOf(i));
    own('radius', () => this.flange(i)?.radiusMm);
    own(
      'endWidth',
      whole(
        ({ id, outline }) =>
          edgeOf({ id, outline, backwards: NONE_BACKWARDS, isPlain: true }, 'end')?.lengthMm ?? 0,
      ),
    );
  }

  #widthOf(i: number): number | undefined {
    const flange = this.flange(i);
    if (flange === undefined) return undefined;
    const [from, to] = flange.footStretch ?? [0, edgeOf(flange.shape, flange.foot)?.lengthMm ?? 0];
    return to - from;
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
            baseShape(this.#figures, this.#given.base, `${this.#given.at}base`),
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
    const at = this.#at(i);
    const place = this.#placeOf(given, at);
    if (place === undefined) return undefined;
    const { parent, edge } = place;
    const found = edgeOf(parent, edge);
    if (found === undefined) return undefined;
    const bend = this.#bendOf(given, at);
    const standing =
      given.outline === undefined
        ? this.#plain(given, at, found.lengthMm, place.called)
        : this.#outlined(given, at, found.lengthMm, place.called);
    return bend === undefined || standing === undefined
      ? undefined
      : { id: given.name, at, given, parent: parent.id, edge, ...bend, ...standing };
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

  #bendOf(
    given: GivenFlangeMap,
    at: string,
  ):
    | Pick<Flange, 'angleDeg' | 'direction' | 'radiusMm' | 'hasOwnRadius' | 'rule' | 'joggleMm'>
    | undefined {
    const { values } = this.#working;
    const read = this.#reader(at);
    const joggleMm = read('joggle', given.joggle, undefined, JOGGLE);
    const isJoggled = given.joggle !== undefined;
    const angleDeg = read(
      'angle',
      given.angle,
      isJoggled ? 45 : 90,
      isJoggled ? JOGGLE_ANGLE : ANGLE,
    );
    if (angleDeg === undefined || (isJoggled && joggleMm === undefined)) return undefined;
    // Folded right over, sheet needs more than round a square corner.
    const usual =
      angleDeg === 180
        ? Math.max(leastRadiusMm(values.material, values.thicknessMm, 180), values.insideRadiusMm)
        : values.insideRadiusMm;
    const radiusMm = read('radius', given.radius, usual, RADIUS);
    const rule = given.rule === undefined ? undefined : parseRule(given.rule);
    if (rule?.ok === false)
      return this.#figures.problem(`${at}.rule`, given.rule, 'a bend rule', rule.reason);
    return radiusMm === undefined
      ? undefined
      : {
          angleDeg,
          direction: given.direction ?? 'up',
          radiusMm,
          hasOwnRadius: given.radius !== undefined,
          rule: rule?.value,
          joggleMm,
        };
  }

  #reader(at: string) {
    return (
      key: string,
      given: GivenFigure,
      otherwise: number | undefined,
      limits: Parameters<Figures['read']>[2],
    ): number | undefined =>
      given === undefined ? otherwise : this.#figures.read(given, `${at}.${key}`, limits);
  }

  /** A flange that is a rectangle or a trapezoid. */
  #plain(
    given: GivenFlangeMap,
    at: string,
    edgeMm: number,
    edge: string,
  ): Pick<Flange, 'stretch' | 'shape' | 'foot' | 'footStretch'> | undefined {
    if (given.height === undefined)
      return this.#figures.problem(
        `${at}.height`,
        undefined,
        'a length from the fold to the end',
        'give it, such as 20',
      );
    const stretch = this.#stretchOf(given, at, edgeMm, edge);
    const heightMm = this.#figures.read(given.height, `${at}.height`, SIZE);
    if (stretch === undefined || heightMm === undefined) return undefined;
    const widthMm = stretch === 'whole' ? edgeMm : stretch[1] - stretch[0];
    const sides = this.#sidesOf(given, at, widthMm, heightMm);
    if (sides === undefined) return undefined;
    return {
      stretch: stretch === 'whole' ? undefined : stretch,
      shape: flangeShape(given.name, { widthMm, heightMm, ...sides }),
      foot: 'foot',
      footStretch: undefined,
    };
  }

  #sidesOf(
    given: GivenFlangeMap,
    at: string,
    widthMm: number,
    heightMm: number,
  ): { readonly inLeftMm: number; readonly inRightMm: number } | undefined {
    const read = this.#reader(at);
    if (given.endWidth !== undefined) {
      const other = (['taper', 'taperLeft', 'taperRight'] as const).find(
        (k) => given[k] !== undefined,
      );
      if (other !== undefined)
        return this.#figures.problem(
          `${at}.${other}`,
          given[other],
          'endWidth or a taper, one of them',
        );
      const endMm = this.#figures.read(given.endWidth, `${at}.endWidth`, SIZE);
      return endMm === undefined
        ? undefined
        : { inLeftMm: (widthMm - endMm) / 2, inRightMm: (widthMm - endMm) / 2 };
    }
    const both = read('taper', given.taper, 0, LEAN);
    const [left, right] = [
      read('taperLeft', given.taperLeft, both, LEAN),
      read('taperRight', given.taperRight, both, LEAN),
    ];
    if (left === undefined || right === undefined) return undefined;
    const [inLeftMm, inRightMm] = [heightMm * tanDeg(left), heightMm * tanDeg(right)];
    if (widthMm - inLeftMm - inRightMm >= SIZE.least) return { inLeftMm, inRightMm };
    const key = given.taper !== undefined ? 'taper' : left !== 0 ? 'taperLeft' : 'taperRight';
    const most = (Math.atan(widthMm / heightMm / (key === 'taper' ? 2 : 1)) * 180) / Math.PI;
    return this.#figures.problem(
      `${at}.${key}`,
      given[key],
      `less than ${figure(Math.floor(most * 10) / 10)} degrees: there both sides meet before the end, ${figure(heightMm)} up`,
    );
  }

  /** Which stretch of its edge a flange takes. */
  #stretchOf(
    given: GivenFlangeMap,
    at: string,
    edgeMm: number,
    edge: string,
  ): Stretch | 'whole' | undefined {
    const read = this.#reader(at);
    const [from, to] = [
      read('from', given.from, undefined, PLACE),
      read('to', given.to, undefined, PLACE),
    ];
    const width = read('width', given.width, undefined, SIZE);
    for (const [key, value] of [
      ['from', from],
      ['to', to],
      ['width', width],
    ] as const)
      if (given[key] !== undefined && value === undefined) return undefined;
    if (from === undefined && to === undefined && width === undefined) return 'whole';
    if (
      from !== undefined &&
      to !== undefined &&
      width !== undefined &&
      Math.abs(to - from - width) > SAME_MM
    )
      return this.#figures.problem(
        `${at}.width`,
        given.width,
        `from, to, or width: two of them. From ${figure(from)} to ${figure(to)} it is ${figure(to - from)} mm wide`,
        'leave it out',
      );
    const stretch = takenOf({ from, to, width, align: given.align ?? 'middle' }, edgeMm);
    if (
      stretch[0] >= -SAME_MM &&
      stretch[1] <= edgeMm + SAME_MM &&
      stretch[1] - stretch[0] >= SIZE.least
    )
      return [Math.max(0, stretch[0]), Math.min(edgeMm, stretch[1])];
    const key =
      width !== undefined && width > edgeMm
        ? 'width'
        : stretch[1] > edgeMm && to !== undefined
          ? 'to'
          : from !== undefined
            ? 'from'
            : to !== undefined
              ? 'to'
              : 'width';
    return this.#figures.problem(
      `${at}.${key}`,
      given[key],
      key === 'width'
        ? `at most ${figure(edgeMm)} mm, which is how long ${edge} is`
        : `a stretch of ${edge}, which is ${figure(edgeMm)} mm long: from 0 to ${figure(edgeMm)}, from before to`,
      `it would run from ${figure(stretch[0])} to ${figure(stretch[1])}`,
    );
  }

  /** A flange with an outline of its own. */
  #outlined(
    given: GivenFlangeMap,
    at: string,
    edgeMm: number,
    called: string,
  ): Pick<Flange, 'stretch' | 'shape' | 'foot' | 'footStretch'> | undefined {
    const spare = (
      ['height', 'taper', 'taperLeft', 'taperRight', 'endWidth', 'joggle'] as const
    ).find((key) => given[key] !== undefined);
    if (spare !== undefined)
      return this.#figures.problem(
        `${at}.${spare}`,
        given[spare],
        'nothing beside outline, which says what shape it is',
        `leave out ${spare} or outline`,
      );
    const outline = outlineOf(this.#figures, given.outline ?? '', `${at}.outline`);
    if (outline === undefined) return undefined;
    const shape: Shape = { id: given.name, outline, backwards: NONE_BACKWARDS, isPlain: false };
    const straight = straightEdges(shape);
    const foot = given.foot ?? straight.find((name) => isLowest(outline, name)) ?? straight[0];
    if (foot === undefined || !straight.includes(foot))
      return this.#figures.problem(
        `${at}.foot`,
        given.foot,
        `a straight edge of its outline: ${listed(straight)}`,
      );
    const read = this.#reader(at);
    const footMm = edgeOf(shape, foot)?.lengthMm ?? 0;
    const own: Stretch = [
      read('footFrom', given.footFrom, 0, LENGTH) ?? 0,
      read('footTo', given.footTo, footMm, LENGTH) ?? footMm,
    ];
    const isWhole = given.footFrom === undefined && given.footTo === undefined;
    const stretch = this.#matching(given, at, own[1] - own[0], edgeMm, called);
    return stretch === undefined
      ? undefined
      : {
          shape,
          foot,
          footStretch: isWhole ? undefined : own,
          stretch: stretch === 'whole' ? undefined : stretch,
        };
  }

  /** The stretch of the edge below that is as long as what is folded on there. */
  #matching(
    given: GivenFlangeMap,
    at: string,
    footMm: number,
    edgeMm: number,
    called: string,
  ): Stretch | 'whole' | undefined {
    const isPlaced = given.from !== undefined || given.to !== undefined;
    if (!isPlaced && given.width === undefined && Math.abs(footMm - edgeMm) <= SAME_MM)
      return 'whole';
    const width =
      given.width ?? (given.from !== undefined && given.to !== undefined ? undefined : footMm);
    const stretch = this.#stretchOf(
      { ...given, ...(width !== undefined && { width }) },
      at,
      edgeMm,
      called,
    );
    if (stretch === undefined || stretch === 'whole') return stretch;
    return Math.abs(stretch[1] - stretch[0] - footMm) <= SAME_MM
      ? stretch
      : this.#figures.problem(
          `${at}.to`,
          given.to ?? given.width,
          `a stretch as long as the foot of its outline, ${figure(footMm)} mm`,
          `from ${figure(stretch[0])} to ${figure(stretch[0] + footMm)}`,
        );
  }
}

const listed = (names: readonly string[]): string => names.slice(0, 12).join(', ');

const straightEdges = ({ outline }: Shape): string[] =>
  outline.flatMap(({ edge, bulge }) => (edge === undefined || bulge !== 0 ? [] : [edge]));

/** Both ends of the edge are as low as anything of the outline. */
const isLowest = (outline: Shape['outline'], name: string): boolean => {
  const i = outline.findIndex(({ edge }) => edge === name);
  const { minY } = loopExtents(outline) ?? { minY: 0 };
  const next = outline[(i + 1) % outline.length];
  return (outline[i]?.y ?? Infinity) <= minY && (next?.y ?? Infinity) <= minY;
};

const takenOf = (
  {
    from,
    to,
    width,
    align,
  }: {
    readonly from: number | undefined;
    readonly to: number | undefined;
    readonly width: number | undefined;
    readonly align: 'left' | 'middle' | 'right';
  },
  edgeMm: number,
): Stretch => {
  if (width === undefined) return [from ?? 0, to ?? edgeMm];
  if (from !== undefined) return [from, to ?? from + width];
  if (to !== undefined) return [to - width, to];
  const spare = edgeMm - width;
  const start = align === 'left' ? 0 : align === 'right' ? spare : spare / 2;
  return [start, start + width];
};
