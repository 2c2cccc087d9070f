import * as z from 'zod';
import { atMost, figure } from '../figures.ts';
import { bulgeOf } from '../geometry/arc.ts';
import { roundCorners } from '../geometry/fillet.ts';
import type { Loop, Vertex } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { selfCrossing } from '../geometry/self-crossing.ts';
import { cross, distance, dot, sub, type Vec2 } from '../geometry/vec2.ts';
import { parseLength } from '../units.ts';
import { type FieldFacts, type FieldReading, makeField } from './field.ts';
import { shown } from './given.ts';

const PLACE = z.union([z.number(), z.string()]);

/** Text for a whole outline, or a list with an object, or the text of one point, for each. */
export const OUTLINE_INPUT = z.union([
  z.string(),
  z.array(z.union([z.string(), z.strictObject({ x: PLACE, y: PLACE, r: PLACE.optional(), arc: z.boolean().optional() })])),
]);

export type OutlineInput = z.infer<typeof OUTLINE_INPUT>;

export const OUTLINE_ALLOWED =
  "points in order round the outline as x,y with ';' between them; r8 after a point rounds its corner, arc makes it the point an arc passes through";

const MOST_POINTS = 1000;
const FARTHEST_MM = 10_000;

/** Points closer than this to each other, or to a straight line where an arc is asked for, are a slip. */
const LEAST_MM = 0.01;

interface OutlinePoint {
  readonly number: number;
  readonly at: Vec2;
  readonly radiusMm: number;
  readonly arc: boolean;
}

/** A field for an outline that must be given. The kind is text: to programs that fill in forms it is a line to type. */
export const outline = (options: Pick<FieldFacts, 'about'> & { readonly example?: string }): z.ZodType<Loop> =>
  makeField(
    { kind: 'text', about: options.about, allowed: OUTLINE_ALLOWED, example: options.example ?? '0,0; 120,0 r8; 120,80; 60,95 arc; 0,80' },
    OUTLINE_INPUT,
    readOutline,
  );

/**
 * Reads an outline, clockwise or not; the loop runs counter-clockwise, mm. The refusal names the point that is wrong,
 * counted from 1 in the order given.
 */
export function readOutline(given: OutlineInput): FieldReading<Loop> {
  const entries = typeof given === 'string' ? split(given) : given;
  if (entries.length > MOST_POINTS) return { ok: false, given: `${entries.length} points`, mend: `give at most ${MOST_POINTS}` };
  const points: OutlinePoint[] = [];
  for (const [index, entry] of entries.entries()) {
    const read = typeof entry === 'string' ? readText(entry, index + 1) : readPoint(entry, index + 1);
    if (typeof read === 'string') {
      return { ok: false, given: `${shown(typeof entry === 'string' ? entry.trim() : entry)} as point ${index + 1}`, allowed: OUTLINE_ALLOWED, mend: read };
    }
    points.push(read);
  }
  const slip = slipIn(points);
  if (slip !== undefined) return { ok: false, mend: slip };
  const turning = signedArea(sharpLoop(points)) < 0 ? [...points].reverse() : points;
  return rounded(turning);
}

/** Points stand between semicolons or on lines of their own; one at the end is no slip. */
function split(given: string): readonly string[] {
  const entries = given.split(/[;\n]/, MOST_POINTS + 2);
  if (entries.at(-1)?.trim() === '') entries.pop();
  return entries;
}

type Fields = { readonly x: number | string; readonly y: number | string; readonly r?: number | string | undefined; readonly arc?: boolean | undefined };

/** `x,y`, then `r8` or `arc`. */
function readText(entry: string, number: number): OutlinePoint | string {
  const parts = /^([^,]+),([^,]+?)(?:\s+(?:r\s*([^,]+)|(arc)))?$/i.exec(entry.trim());
  if (parts === null) return "write x,y, with r and a radius or arc behind it, a ';' before the next point, and a point as decimal mark";
  const [, x = '', y = '', r, arc] = parts;
  return readPoint({ x, y, r, arc: arc !== undefined }, number);
}

function readPoint(fields: Fields, number: number): OutlinePoint | string {
  const x = readFigure('x', fields.x, -FARTHEST_MM);
  const y = readFigure('y', fields.y, -FARTHEST_MM);
  const radiusMm = readFigure('r', fields.r ?? 0, 0);
  const wrong = [x, y, radiusMm].filter((value) => typeof value === 'string');
  if (typeof x === 'string' || typeof y === 'string' || typeof radiusMm === 'string') return wrong.join('; ');
  const arc = fields.arc ?? false;
  if (arc && radiusMm > 0) return 'leave out the radius: an arc passes through this point, it is no corner';
  return { number, at: [x, y], radiusMm, arc };
}

function readFigure(which: string, given: number | string, least: number): number | string {
  const parsed = typeof given === 'number' ? ({ ok: true, value: given } as const) : parseLength(given);
  if (!parsed.ok) return `${which}: ${parsed.reason}`;
  if (parsed.value >= least && parsed.value <= FARTHEST_MM) return parsed.value;
  return `${which}: must lie between ${least} and ${FARTHEST_MM} mm`;
}

const neighbour = (points: readonly OutlinePoint[], i: number, step: number): OutlinePoint =>
  points[(i + step + points.length) % points.length] as OutlinePoint;

/** What is wrong with the points as a row, if anything. */
function slipIn(points: readonly OutlinePoint[]): string | undefined {
  if (points.length < 3) return `give three points at least; there are ${points.length}`;
  for (const [i, point] of points.entries()) {
    const [before, after] = [neighbour(points, i, -1), neighbour(points, i, 1)];
    if (distance(point.at, after.at) < LEAST_MM) return `points ${point.number} and ${after.number} lie on each other: leave one out`;
    if (!point.arc) continue;
    if (after.arc) return `points ${point.number} and ${after.number} are both on an arc: put a point where one arc ends and the next begins between them`;
    if (distance(before.at, after.at) < LEAST_MM) return `the arc through point ${point.number} ends where it starts: give points ${before.number} and ${after.number} apart`;
    if (Math.abs(cross(sub(after.at, before.at), sub(point.at, before.at))) < LEAST_MM * distance(before.at, after.at)) {
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
    return [{ x: point.at[0], y: point.at[1], bulge: through.arc ? bulgeThrough(point.at, through.at, end.at) : 0 }];
  });

/**
 * Bulge of the arc from `a` to `c` through `b`. The chord is seen from `b` under pi - sweep / 2, so that is how far
 * the way turns at `b` (Euclid, Elements III.20 and III.22: angles in a circle).
 */
const bulgeThrough = (a: Vec2, b: Vec2, c: Vec2): number => {
  const [into, out] = [sub(b, a), sub(c, b)];
  return bulgeOf(2 * Math.atan2(cross(into, out), dot(into, out)));
};

/** Corners are rounded from the last to the first, so that those still to come keep their places in the loop. */
function rounded(points: readonly OutlinePoint[]): FieldReading<Loop> {
  let loop = sharpLoop(points);
  const corners = points.filter((point) => !point.arc);
  for (let i = corners.length - 1; i >= 0; i--) {
    const { number, radiusMm } = corners[i] as OutlinePoint;
    if (radiusMm === 0) continue;
    if (loop[i]?.bulge !== 0 || loop.at(i - 1)?.bulge !== 0) {
      return { ok: false, mend: `point ${number} has a radius and an arc beside it: leave out r${figure(radiusMm)}, or let the arc end before it` };
    }
    const result = roundCorners(loop, [i], radiusMm);
    if (!result.ok) return { ok: false, mend: `r${figure(radiusMm)} at point ${number} is too big for the edges beside it: give at most ${atMost(result.largestMm)}` };
    loop = result.loop;
  }
  const crossing = selfCrossing(loop);
  if (crossing === undefined) return { ok: true, value: loop };
  return { ok: false, mend: `the outline meets itself at ${crossing.at.map((n) => figure(n)).join(',')}: give the points in their order round it` };
}
