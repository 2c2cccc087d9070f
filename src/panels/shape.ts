import { loopExtents } from '../geometry/extents.ts';
import { type Loop, polygon, rectangle, type Vertex } from '../geometry/loop.ts';
import { bulgeOf } from '../geometry/arc.ts';
import { cosDeg, sinDeg } from '../geometry/degrees.ts';
import { lengthOfEdge } from '../geometry/piece.ts';
import { circle, regularPolygon } from '../geometry/shapes.ts';
import type { NamedOutlineInput } from '../forms/outline-corners.ts';
import { readNamedOutline } from '../forms/outline.ts';
import { type Figures, LENGTH } from './figures.ts';
import type { GivenBaseMap } from './given.ts';

/** A panel before anything is cut out of it, its edges named. */
export interface Shape {
  readonly id: string;
  readonly outline: Loop;
  /**
   * Edges along which figures count against the way round the outline: those at the top and at the
   * left of a drawing, so that they count from the left and from below.
   */
  readonly backwards: ReadonlySet<string>;
  /** It is a rectangle or a trapezoid, whose edges say by their names where they are. */
  readonly isPlain: boolean;
}

export const NONE_BACKWARDS: ReadonlySet<string> = new Set();
const BASE_BACKWARDS: ReadonlySet<string> = new Set(['top', 'left']);
const FLANGE_BACKWARDS: ReadonlySet<string> = new Set(['end', 'left']);

const LARGEST_MM = LENGTH.most;
const LEAST_MM = 0.01;
export const SIZE = { kind: 'length', least: LEAST_MM, most: LARGEST_MM } as const;

/** The two figures of `120 x 80`; sums have no spaces round another x. */
export const sizeTexts = (size: string): readonly string[] =>
  size.trim().split(/\s+[x×]\s+|(?<=[\d)])[x×](?=[\d(])/i);

const KINDS = ['size', 'outline', 'disc', 'ring', 'polygon'] as const;

/** The shape of a base, `at` the path of its map; nothing where that has been told. */
export function baseShape(figures: Figures, base: GivenBaseMap, at: string): Shape | undefined {
  const given: readonly string[] = [
    ...KINDS.filter((kind) => base[kind] !== undefined),
    ...(base.width !== undefined || base.depth !== undefined ? ['width and depth'] : []),
  ];
  if (given.length !== 1)
    return figures.problem(
      at,
      given.length === 0 ? 'no shape' : given.join(' and '),
      'one of size, width and depth, outline, disc, ring and polygon',
    );
  const id = base.name ?? 'base';
  const as = (outline: Loop | undefined, backwards = NONE_BACKWARDS): Shape | undefined =>
    outline === undefined
      ? undefined
      : { id, outline, backwards, isPlain: backwards === BASE_BACKWARDS };
  if (base.outline !== undefined) return as(outlineOf(figures, base.outline, `${at}.outline`));
  if (base.disc !== undefined) {
    const across = figures.read(base.disc, `${at}.disc`, SIZE);
    return as(across === undefined ? undefined : circle([0, 0], across / 2));
  }
  if (base.ring !== undefined) return as(ringSector(figures, base.ring, `${at}.ring`));
  if (base.polygon !== undefined) return as(regular(figures, base.polygon, `${at}.polygon`));
  const [width, depth] = [baseWidth(figures, base, at), baseDepth(figures, base, at)];
  return width === undefined || depth === undefined
    ? undefined
    : as(rectangle(0, 0, width, depth), BASE_BACKWARDS);
}

export const baseWidth = (figures: Figures, base: GivenBaseMap, at: string): number | undefined =>
  sideOf(figures, base, at, 0);

export const baseDepth = (figures: Figures, base: GivenBaseMap, at: string): number | undefined =>
  sideOf(figures, base, at, 1);

function sideOf(
  figures: Figures,
  base: GivenBaseMap,
  at: string,
  which: 0 | 1,
): number | undefined {
  const key = which === 0 ? 'width' : 'depth';
  if (base.size === undefined) {
    const own = base[key];
    return own === undefined
      ? figures.problem(`${at}.${key}`, undefined, 'a length', `give it beside the other one`)
      : figures.read(own, `${at}.${key}`, SIZE);
  }
  const texts = sizeTexts(base.size);
  const text = texts[which];
  if (texts.length !== 2 || text === undefined)
    return which === 1
      ? undefined
      : figures.problem(
          `${at}.size`,
          base.size,
          'width x depth, such as 120 x 80; or points in order round an outline, with , in each and ; between them',
        );
  return figures.read(text, `${at}.size`, SIZE);
}

/** An outline with the names in its figures put in. */
export function outlineOf(
  figures: Figures,
  given: NamedOutlineInput,
  at: string,
): Loop | undefined {
  const whole = putIntoOutline(figures, given, at);
  if (whole === undefined) return undefined;
  const read = readNamedOutline(whole);
  return read.ok
    ? read.value
    : figures.problem(
        at,
        read.given ?? given,
        read.allowed ?? 'points in order round an outline that crosses itself nowhere',
        read.mend,
      );
}

type Entry = Exclude<NamedOutlineInput, string>[number];

/** The same outline with figures in place of names. */
export function putIntoOutline<G extends NamedOutlineInput>(
  figures: Figures,
  given: G,
  at: string,
): G | undefined {
  const put = <V>(value: V): V | undefined =>
    typeof value === 'string' ? (figures.put(value, at) as V | undefined) : value;
  const entryWith = (entry: Entry): Entry | undefined => {
    if (typeof entry === 'string') return put(entry);
    const [x, y, r, c] = [put(entry.x), put(entry.y), put(entry.r), put(entry.c)];
    return x === undefined || y === undefined ? undefined : { ...entry, x, y, r, c };
  };
  if (typeof given === 'string') return put(given);
  const entries = given.map(entryWith);
  return entries.includes(undefined) ? undefined : (entries as unknown as G);
}

function ringSector(
  figures: Figures,
  ring: NonNullable<GivenBaseMap['ring']>,
  at: string,
): Loop | undefined {
  const TURN = { kind: 'angle', least: -360, most: 360 } as const;
  const [outer, inner] = [
    figures.read(ring.outer, `${at}.outer`, SIZE),
    figures.read(ring.inner, `${at}.inner`, SIZE),
  ];
  const [from, to] = [
    figures.read(ring.from, `${at}.from`, TURN),
    figures.read(ring.to, `${at}.to`, TURN),
  ];
  if (outer === undefined || inner === undefined || from === undefined || to === undefined)
    return undefined;
  if (inner >= outer)
    return figures.problem(`${at}.inner`, ring.inner, `less than outer, ${outer} mm`);
  if (to - from <= 0 || to - from >= 360)
    return figures.problem(`${at}.to`, ring.to, 'more than from, by less than a full turn');
  const bulge = bulgeOf(((to - from) * Math.PI) / 180);
  const point = (diameter: number, deg: number) => ({
    x: (diameter / 2) * cosDeg(deg),
    y: (diameter / 2) * sinDeg(deg),
  });
  return [
    { ...point(outer, from), bulge, edge: 'outer' },
    { ...point(outer, to), bulge: 0, edge: 'end' },
    { ...point(inner, to), bulge: -bulge, edge: 'inner' },
    { ...point(inner, from), bulge: 0, edge: 'start' },
  ];
}

function regular(
  figures: Figures,
  { sides, across }: NonNullable<GivenBaseMap['polygon']>,
  at: string,
): Loop | undefined {
  const count = figures.read(sides, `${at}.sides`, { kind: 'count', least: 3, most: 100 });
  const mm = figures.read(across, `${at}.across`, SIZE);
  return count === undefined || mm === undefined
    ? undefined
    : regularPolygon([0, 0], count, mm, 0).map((vertex, i): Vertex => ({
        ...vertex,
        edge: String(i + 1),
      }));
}

/** How a flange that is no outline of its own is measured, mm. */
export interface FlangeSize {
  readonly widthMm: number;
  readonly heightMm: number;
  /** How far its end stands in from its foot, at the left and at the right. */
  readonly inLeftMm: number;
  readonly inRightMm: number;
}

/** A trapezoid on its foot; its edges are foot, right, end and left. */
export const flangeShape = (
  id: string,
  { widthMm: w, heightMm: h, inLeftMm, inRightMm }: FlangeSize,
): Shape => ({
  id,
  outline: polygon(
    [0, 0, 'foot'],
    [w, 0, 'right'],
    [w - inRightMm, h, 'end'],
    [inLeftMm, h, 'left'],
  ),
  backwards: FLANGE_BACKWARDS,
  isPlain: true,
});

export const shapeWidth = ({ outline }: Shape): number => {
  const box = loopExtents(outline);
  return box === undefined ? 0 : box.maxX - box.minX;
};

export const shapeHeight = ({ outline }: Shape): number => {
  const box = loopExtents(outline);
  return box === undefined ? 0 : box.maxY - box.minY;
};

/** Which piece of a shape an edge is, and how long it is, mm; nothing where there is none. */
export const edgeOf = (
  { outline }: Pick<Shape, 'outline'>,
  edge: string,
):
  | { readonly index: number; readonly lengthMm: number; readonly isStraight: boolean }
  | undefined => {
  const index = outline.findIndex((vertex) => vertex.edge === edge);
  return index < 0
    ? undefined
    : {
        index,
        lengthMm: lengthOfEdge(outline, edge),
        isStraight: outline[index]?.bulge === 0,
      };
};

/** The edges of a shape that fold. */
export const straightEdges = ({ outline }: Shape): string[] =>
  outline.flatMap(({ edge, bulge }) => (edge === undefined || bulge !== 0 ? [] : [edge]));

/** Names in a message, as many as anybody reads. */
export const listed = (names: readonly string[]): string => names.slice(0, 12).join(', ');
