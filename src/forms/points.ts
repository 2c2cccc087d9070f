import { figure } from '../text/figures.ts';
import { solveDistances } from '../survey/solve.ts';
import type { PlacedPoint, Survey } from '../survey/survey.ts';
import { surveyFindings } from '../survey/verdicts.ts';
import { parseLength } from '../text/units.ts';
import { DISTANCES_ALLOWED, MOST_POINTS, ONE_NAME, readDistances } from './distances.ts';
import { entriesOf } from './split-entries.ts';
import { TEXT } from './accepts.ts';
import {
  type Field,
  type FieldFacts,
  type FieldReading,
  makeField,
  optionalField,
  type Said,
  saidOf,
} from './field.ts';
import { shown } from './given.ts';

/**
 * Named points, mm. `survey` tells how they were found when they came from distances, else `null`.
 */
export interface GivenPoints {
  readonly points: readonly PlacedPoint[];
  readonly survey: Survey | null;
}

export const POINTS_ALLOWED = `points as x,y or name: x,y with ';' or a new line between them, or ${DISTANCES_ALLOWED}`;

const FARTHEST_MM = 10_000;

/** Distances begin with two names and a hyphen; anything else is a list of points. */
const BEGINS_AS_DISTANCES = /^\s*[^\s:;,-][^:;,\n-]*-[^:;,\n]+(?::|$)/u;

/**
 * Reads points given by coordinates or by tape distances. Points without a name are called P1, P2
 * and so on by their place. Distances that leave a point loose or contradict themselves are refused
 * with the reason.
 */
export const readPoints = (given: string): FieldReading<GivenPoints> =>
  BEGINS_AS_DISTANCES.test(given) ? fromDistances(given) : fromCoordinates(given);

type PointsOptions = Said & { readonly example?: string };

/** A field of points that must be given. */
export const points = (options: PointsOptions): Field<GivenPoints> =>
  makeField(factsOfPoints(options), TEXT, readPoints);

/** A field of points that may be left out; `otherwise` says what then takes its place. */
export const optionalPoints = ({
  otherwise,
  ...options
}: PointsOptions & { readonly otherwise: string }): Field<GivenPoints | undefined> =>
  optionalField(points(options), otherwise);

/** The kind is text: to programs that fill in forms it is a line to type. */
const factsOfPoints = (options: PointsOptions): FieldFacts => ({
  kind: 'text',
  list: { one: 'point', many: 'points', under: 'points' },
  ...saidOf(options),
  allowed: POINTS_ALLOWED,
  example: options.example ?? 'A-B: 312, A-C: 188.5, B-C: 240',
});

/**
 * The last distances that were solved. Whoever looks for a mend reads the same inputs again and
 * again with another one changed, and solving takes longer than all the rest.
 */
let lastSolved: { readonly given: string; readonly reading: FieldReading<GivenPoints> } | undefined;

function fromDistances(given: string): FieldReading<GivenPoints> {
  if (lastSolved?.given !== given) lastSolved = { given, reading: solved(given) };
  return lastSolved.reading;
}

function solved(given: string): FieldReading<GivenPoints> {
  const read = readDistances(given);
  if (!read.ok) return read;
  const survey = solveDistances(read.value.distances, { sides: read.value.sides });
  const stops = surveyFindings(survey).filter((f) => f.severity === 'stop');
  if (stops.length > 0)
    return {
      ok: false,
      given: shown(given),
      allowed: POINTS_ALLOWED,
      mend: stops.map((f) => f.message.replace(/\.$/, '')).join('; '),
    };
  return { ok: true, value: { points: survey.points, survey } };
}

function fromCoordinates(given: string): FieldReading<GivenPoints> {
  const entries = entriesOf(given, MOST_POINTS).map((e) => e.trim());
  if (entries.length === 0) return { ok: false, mend: 'give one point at least' };
  if (entries.length > MOST_POINTS)
    return { ok: false, given: `${entries.length} points`, mend: `give at most ${MOST_POINTS}` };
  const found: PlacedPoint[] = [];
  for (const [index, entry] of entries.entries()) {
    const read = readPoint(entry, `P${index + 1}`);
    const mend = typeof read === 'string' ? read : twin(read, found);
    if (mend !== undefined || typeof read === 'string')
      return {
        ok: false,
        given: `${shown(entry)} as point ${index + 1}`,
        allowed: POINTS_ALLOWED,
        ...(mend !== undefined && { mend }),
      };
    found.push(read);
  }
  return { ok: true, value: { points: found, survey: null } };
}

/** The point, or what is wrong with it. */
function readPoint(entry: string, unnamed: string): PlacedPoint | string {
  const colon = entry.indexOf(':');
  const name = colon < 0 ? unnamed : entry.slice(0, colon).trim();
  if (!ONE_NAME.test(name)) return "a name has up to 24 letters, digits, '_' or '.'";
  const [x, y, ...more] = entry.slice(colon + 1).split(',');
  if (x === undefined || y === undefined || more.length > 0) {
    return "write two figures with one comma between them, x,y; a ';' before the next point, and a point as decimal mark";
  }
  const [xMm, yMm] = [parseLength(x), parseLength(y)];
  if (!xMm.ok || !yMm.ok)
    return [xMm.ok ? [] : [`x: ${xMm.reason}`], yMm.ok ? [] : [`y: ${yMm.reason}`]]
      .flat()
      .join('; ');
  if (Math.max(Math.abs(xMm.value), Math.abs(yMm.value)) > FARTHEST_MM)
    return `x and y must lie between -${FARTHEST_MM} and ${FARTHEST_MM} mm`;
  return { name, x: xMm.value, y: yMm.value };
}

/** Two points of one name, or in one place, are a slip. */
function twin({ name, x, y }: PlacedPoint, others: readonly PlacedPoint[]): string | undefined {
  if (others.some((o) => o.name === name))
    return `there is a point ${name} already; give each its own name`;
  const same = others.find((o) => o.x === x && o.y === y);
  return same === undefined
    ? undefined
    : `${same.name} lies at ${figure(x)},${figure(y)} already; leave one of them out`;
}
