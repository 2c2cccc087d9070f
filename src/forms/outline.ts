import { atMost, figure } from '../text/figures.ts';
import { bulgeOf } from '../geometry/arc.ts';
import { type CornerCut, roundCorners } from '../geometry/fillet.ts';
import type { Loop, Vertex } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { selfCrossing } from '../geometry/self-crossing.ts';
import { cross, distance, dot, sub, type Vec2 } from '../geometry/vec2.ts';
import { parseLength } from '../text/units.ts';
import { type Given, OUTLINE_INPUT } from './accepts.ts';
import { entriesOf } from './split-entries.ts';
import {
  type Field,
  type FieldReading,
  makeField,
  optionalField,
  type Said,
  saidOf,
} from './field.ts';
import { isNameAmongFigures } from './distances.ts';
import { shown } from './given.ts';
import type { Place } from './places.ts';

export type OutlineInput = Given<typeof OUTLINE_INPUT>;

export const OUTLINE_ALLOWED =
  "points in order round the outline as x,y, or by the name of a point given elsewhere, with ';' between them; r8 after a point rounds its corner, c8 cuts 8 off both its edges, arc makes it the point an arc passes through";

/** Words for the points of an outline when they are counted. */
export const CORNERS = { one: 'point', many: 'points', under: 'corners' } as const;

const MOST_POINTS = 1000;
const FARTHEST_MM = 10_000;

/**
 * Points closer than this to each other, or to a straight line where an arc is asked for, are a
 * slip.
 */
const SLIP_MM = 0.01;

/** How a corner is taken off. */
interface Corner {
  readonly number: number;
  readonly cut: CornerCut;
  /** Radius, or what a chamfer takes off either edge, mm. */
  readonly sizeMm: number;
  readonly arc: boolean;
}

interface OutlinePoint extends Corner {
  readonly at: Vec2;
}

/** An outline some of whose points may be known by their names only. */
export interface GivenOutline {
  readonly corners: readonly (Corner & { readonly place: Place })[];
}

type OutlineOptions = Said & { readonly example?: string };

/** A field for an outline that must be given. */
export const outline = (options: OutlineOptions): Field<GivenOutline> =>
  makeField(
    {
      kind: 'text',
      list: CORNERS,
      ...saidOf(options),
      allowed: OUTLINE_ALLOWED,
      example: options.example ?? '0,0; 120,0 r8; 120,80; 60,95 arc; 0,80',
    },
    OUTLINE_INPUT,
    readGivenOutline,
  );

/** One that may be left out; `otherwise` says what then takes its place. */
export const optionalOutline = ({
  otherwise,
  ...options
}: OutlineOptions & { readonly otherwise: string }): Field<GivenOutline | undefined> =>
  optionalField(outline(options), otherwise);

/** Reads an outline; one without names is looked at as a whole at once. */
export function readGivenOutline(given: OutlineInput): FieldReading<GivenOutline> {
  const read = readCorners(given);
  if (!read.ok || read.value.corners.some(({ place }) => 'name' in place)) return read;
  const loop = outlineLoop(read.value, () => undefined);
  return loop.ok ? read : loop;
}

/**
 * Reads an outline by coordinates, clockwise or not; the loop runs counter-clockwise, mm. The
 * refusal names the point that is wrong, counted from 1 in the order given.
 */
export function readOutline(given: OutlineInput): FieldReading<Loop> {
  const read = readCorners(given);
  return read.ok ? outlineLoop(read.value, () => undefined) : read;
}

/**
 * The loop of an outline, counter-clockwise, mm, named points where `pointNamed` says they are. The
 * refusal says which point is wrong, counted from 1, and what would do.
 */
export function outlineLoop(
  { corners }: GivenOutline,
  pointNamed: (name: string) => Vec2 | undefined,
): FieldReading<Loop> {
  const points: OutlinePoint[] = [];
  for (const { place, ...corner } of corners) {
    const at = 'at' in place ? place.at : pointNamed(place.name);
    if (at === undefined)
      return {
        ok: false,
        given: `${'name' in place ? place.name : ''} as point ${corner.number}`,
        mend: 'write x,y, or the name of a point that is given',
      };
    points.push({ ...corner, at });
  }
  const slip = slipIn(points);
  if (slip !== undefined) return { ok: false, mend: slip };
  const turning = signedArea(sharpLoop(points)) < 0 ? [...points].reverse() : points;
  return rounded(turning);
}

function readCorners(given: OutlineInput): FieldReading<GivenOutline> {
  const entries = typeof given === 'string' ? entriesOf(given, MOST_POINTS) : given;
  if (entries.length > MOST_POINTS)
    return { ok: false, given: `${entries.length} points`, mend: `give at most ${MOST_POINTS}` };
  const corners: GivenOutline['corners'][number][] = [];
  for (const [index, entry] of entries.entries()) {
    const read =
      typeof entry === 'string'
        ? readText(entry, index + 1)
        : readPoint({ ...entry, place: { x: entry.x, y: entry.y } }, index + 1);
    if (typeof read === 'string') {
      return {
        ok: false,
        given: `${shown(typeof entry === 'string' ? entry.trim() : entry)} as point ${index + 1}`,
        allowed: OUTLINE_ALLOWED,
        mend: read,
      };
    }
    corners.push(read);
  }
  return { ok: true, value: { corners } };
}

interface Fields {
  readonly place: string | { readonly x: number | string; readonly y: number | string };
  readonly r?: number | string | undefined;
  readonly c?: number | string | undefined;
  readonly arc?: boolean | undefined;
}

/** Reads a point: `x,y` or a name, then `r8`, `c8` or `arc`. */
function readText(entry: string, number: number): GivenOutline['corners'][number] | string {
  const [, place = '', letter, size = '', arc] =
    /^(.+?)(?:\s+(?:([rc])\s*(\(.+\)|[^\s,].*?)|(arc)))?$/i.exec(entry.trim()) ?? [];
  const parts = place.split(',');
  if (parts.length > 2 || (parts.length === 1 && !isNameAmongFigures(place)))
    return "write x,y or the name of a point, with r and a radius, c and a chamfer, or arc behind it, a ';' before the next point, and a point as decimal mark";
  const [x = '', y] = parts;
  return readPoint(
    {
      place: y === undefined ? place : { x, y },
      ...(letter?.toLowerCase() === 'c' ? { c: size } : letter !== undefined && { r: size }),
      arc: arc !== undefined,
    },
    number,
  );
}

function readPoint(
  { place, r = 0, c = 0, arc = false }: Fields,
  number: number,
): GivenOutline['corners'][number] | string {
  const at = typeof place === 'string' ? { name: place } : readPair(place);
  const [radius, chamfer] = [readFigure('r', r, 0), readFigure('c', c, 0)];
  if (typeof at === 'string' || typeof radius === 'string' || typeof chamfer === 'string')
    return [at, radius, chamfer].filter((value) => typeof value === 'string').join('; ');
  if (radius > 0 && chamfer > 0) return 'give the corner r or c, not both';
  const sizeMm = Math.max(radius, chamfer);
  if (arc && sizeMm > 0)
    return 'leave out the radius or the chamfer: an arc passes through this point, it is no corner';
  return { number, place: at, cut: chamfer > 0 ? 'chamfer' : 'round', sizeMm, arc };
}

function readPair(place: {
  readonly x: number | string;
  readonly y: number | string;
}): Place | string {
  const [x, y] = [readFigure('x', place.x, -FARTHEST_MM), readFigure('y', place.y, -FARTHEST_MM)];
  return typeof x === 'number' && typeof y === 'number'
    ? { at: [x, y] }
    : [x, y].filter((value) => typeof value === 'string').join('; ');
}

function readFigure(which: string, given: number | string, least: number): number | string {
  const parsed =
    typeof given === 'number' ? ({ ok: true, value: given } as const) : parseLength(given);
  if (!parsed.ok) return `${which}: ${parsed.reason}`;
  if (parsed.value >= least && parsed.value <= FARTHEST_MM) return parsed.value;
  return `${which}: must lie between ${least} and ${FARTHEST_MM} mm`;
}

const neighbour = (points: readonly OutlinePoint[], i: number, step: number): OutlinePoint =>
  points[(i + step + points.length) % points.length] as OutlinePoint;

/** The first mistake in the row of points, if there is one. */
function slipIn(points: readonly OutlinePoint[]): string | undefined {
  if (points.length < 3)
    return `give three points at least; there are ${points.length}. On a command line put the whole text in quotes, for a shell takes what follows a ';' for another command`;
  for (const [i, point] of points.entries()) {
    const [before, after] = [neighbour(points, i, -1), neighbour(points, i, 1)];
    if (distance(point.at, after.at) < SLIP_MM)
      return `points ${point.number} and ${after.number} lie on each other: leave one out`;
    if (!point.arc) continue;
    if (after.arc)
      return `points ${point.number} and ${after.number} are both on an arc: put a point where one arc ends and the next begins between them`;
    if (distance(before.at, after.at) < SLIP_MM)
      return `the arc through point ${point.number} ends where it starts: give points ${before.number} and ${after.number} apart`;
    if (
      Math.abs(cross(sub(after.at, before.at), sub(point.at, before.at))) <
      SLIP_MM * distance(before.at, after.at)
    ) {
      return `points ${before.number}, ${point.number} and ${after.number} lie on a straight line: leave out arc, or move point ${point.number} off it`;
    }
  }
  return undefined;
}

/** The outline before its corners are rounded. */
const sharpLoop = (points: readonly OutlinePoint[]): Loop =>
  points.flatMap((point, i): Vertex[] => {
    if (point.arc) return [];
    const [through, end] = [neighbour(points, i, 1), neighbour(points, i, 2)];
    return [
      {
        x: point.at[0],
        y: point.at[1],
        bulge: through.arc ? bulgeThrough(point.at, through.at, end.at) : 0,
      },
    ];
  });

/**
 * Bulge of the arc from `a` to `c` through `b`. The chord is seen from `b` under pi - sweep / 2, so
 * that is how far the way turns at `b` (Euclid, Elements III.20 and III.22: angles in a circle).
 */
const bulgeThrough = (a: Vec2, b: Vec2, c: Vec2): number => {
  const [into, out] = [sub(b, a), sub(c, b)];
  return bulgeOf(2 * Math.atan2(cross(into, out), dot(into, out)));
};

/**
 * Corners are rounded from the last to the first, so that those still to come keep their places in
 * the loop.
 */
function rounded(points: readonly OutlinePoint[]): FieldReading<Loop> {
  let loop = sharpLoop(points);
  const corners = points.filter((point) => !point.arc);
  for (let i = corners.length - 1; i >= 0; i--) {
    const { number, cut, sizeMm } = corners[i] as OutlinePoint;
    if (sizeMm === 0) continue;
    const asked = `${cut === 'round' ? 'r' : 'c'}${figure(sizeMm)}`;
    if (loop[i]?.bulge !== 0 || loop.at(i - 1)?.bulge !== 0) {
      return {
        ok: false,
        mend: `point ${number} has a ${cut === 'round' ? 'radius' : 'chamfer'} and an arc beside it: leave out ${asked}, or let the arc end before it`,
      };
    }
    const result = roundCorners(loop, [i], sizeMm, [], cut);
    if (!result.ok)
      return {
        ok: false,
        mend: `${asked} at point ${number} is too big for the edges beside it: give at most ${atMost(result.largestMm)}`,
      };
    loop = result.loop;
  }
  const crossing = selfCrossing(loop);
  if (crossing === undefined) return { ok: true, value: loop };
  return {
    ok: false,
    mend: `the outline meets itself at ${crossing.at.map((n) => figure(n)).join(',')}: give the points in their order round it`,
  };
}
