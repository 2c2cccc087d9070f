import { atMost, figure } from '../text/figures.ts';
import { bulgeOf } from '../geometry/arc.ts';
import { roundCorners } from '../geometry/fillet.ts';
import type { Loop, Vertex } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { selfCrossing } from '../geometry/self-crossing.ts';
import { cross, distance, dot, sub, type Vec2 } from '../geometry/vec2.ts';
import { OUTLINE_INPUT } from './accepts.ts';
import {
  type Field,
  type FieldReading,
  makeField,
  optionalField,
  type Said,
  saidOf,
} from './field.ts';
import {
  type Corner,
  type GivenOutline,
  type NamedOutlineInput,
  OUTLINE_ALLOWED,
  type OutlineInput,
  readCorners,
} from './outline-corners.ts';

export type { GivenOutline, OutlineInput } from './outline-corners.ts';

/** Words for the points of an outline when they are counted. */
export const CORNERS = { one: 'point', many: 'points', under: 'corners' } as const;

/**
 * Points closer than this to each other, or to a straight line where an arc is asked for, are a
 * slip.
 */
const SLIP_MM = 0.01;

interface OutlinePoint extends Corner {
  readonly at: Vec2;
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
  const read = readCorners(given, false);
  if (!read.ok || read.value.corners.some(({ place }) => 'name' in place)) return read;
  const loop = outlineLoop(read.value, () => undefined);
  return loop.ok ? read : loop;
}

/**
 * Reads an outline by coordinates, clockwise or not; the loop runs counter-clockwise, mm. The
 * refusal names the point that is wrong, counted from 1 in the order given.
 */
export function readOutline(given: OutlineInput): FieldReading<Loop> {
  const read = readCorners(given, false);
  return read.ok ? outlineLoop(read.value, () => undefined) : read;
}

/**
 * The same with names for its edges: those that are written behind the points where they begin, the
 * number of that point for the others. An edge whose points run clockwise keeps its name.
 */
export function readNamedOutline(given: NamedOutlineInput): FieldReading<Loop> {
  const read = readCorners(given, true);
  if (!read.ok) return read;
  const corners = read.value.corners.map((corner) => ({
    ...corner,
    edge: corner.edge ?? String(corner.number),
  }));
  const names = corners.filter(({ arc }) => !arc).map(({ edge }) => edge);
  const twice = names.find((name, i) => names.indexOf(name) < i);
  return twice === undefined
    ? outlineLoop({ corners }, () => undefined)
    : { ok: false, mend: `two edges are called ${twice}: give each a name of its own` };
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
  const turning = signedArea(sharpLoop(points)) < 0 ? turnedBack(points) : points;
  return rounded(turning);
}

const neighbour = (points: readonly OutlinePoint[], i: number, step: number): OutlinePoint =>
  points[(i + step + points.length) % points.length] as OutlinePoint;

/** The first mistake in the row of points, if there is one. */
function slipIn(points: readonly OutlinePoint[]): string | undefined {
  if (points.length < (points.some(({ bulge }) => bulge !== undefined) ? 2 : 3))
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

/** The points in the other order; each edge begins where it ended. */
const turnedBack = (points: readonly OutlinePoint[]): readonly OutlinePoint[] =>
  points
    .map((point, i): OutlinePoint => {
      const before = neighbour(points, i, -1);
      const { bulge, edge } = before.arc ? neighbour(points, i, -2) : before;
      const { bulge: _, edge: __, ...own } = point;
      if (point.arc) return own;
      return {
        ...own,
        ...(bulge !== undefined && { bulge: -bulge }),
        ...(edge !== undefined && { edge }),
      };
    })
    .reverse();

/** The outline before its corners are rounded. */
const sharpLoop = (points: readonly OutlinePoint[]): Loop =>
  points.flatMap((point, i): Vertex[] => {
    if (point.arc) return [];
    const [through, end] = [neighbour(points, i, 1), neighbour(points, i, 2)];
    return [
      {
        x: point.at[0],
        y: point.at[1],
        bulge: through.arc ? bulgeThrough(point.at, through.at, end.at) : (point.bulge ?? 0),
        ...(point.edge !== undefined && { edge: point.edge }),
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
