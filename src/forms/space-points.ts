import type { Vec3 } from '../geometry/vec3.ts';
import { parseLength } from '../text/units.ts';
import { TEXT } from './accepts.ts';
import { type Field, type FieldReading, makeOptionalField, type Said } from './field.ts';
import { shown } from './given.ts';
import { entriesOf } from './split-entries.ts';

const ALLOWED = "2 points at least as x,y,z with ';' or a new line between them";
const MOST_POINTS = 1002;
const FARTHEST_MM = 20_000;

/** Points in space, mm, in their order; `undefined` where they are left out. */
export const optionalSpacePoints = (
  options: Said & { readonly otherwise: string },
): Field<readonly Vec3[] | undefined> =>
  makeOptionalField(
    {
      kind: 'text',
      list: { one: 'point', many: 'points' },
      allowed: ALLOWED,
      example: '0,0,0; 400,0,0; 400,300,0',
      ...options,
    },
    TEXT,
    readSpacePoints,
  );

/** Reads points of space; the refusal names the one that is wrong, counted from 1. */
export function readSpacePoints(given: string): FieldReading<readonly Vec3[]> {
  const entries = entriesOf(given, MOST_POINTS);
  if (entries.length > MOST_POINTS)
    return { ok: false, given: 'more points', mend: `give at most ${MOST_POINTS}` };
  if (entries.length < 2) return { ok: false, mend: 'give both ends at least' };
  const points: Vec3[] = [];
  for (const [i, entry] of entries.entries()) {
    const read = readPoint(entry);
    if (typeof read === 'string')
      return { ok: false, given: `${shown(entry.trim())} as point ${i + 1}`, mend: read };
    points.push(read);
  }
  return { ok: true, value: points };
}

/** The point, or what is wrong with it. */
const readPoint = (entry: string): Vec3 | string => {
  const parts = entry.split(',');
  const read = parts.map((part) => parseLength(part));
  const [x, y, z] = read;
  if (parts.length !== 3 || x?.ok !== true || y?.ok !== true || z?.ok !== true) {
    const wrong = read.flatMap((one) => (one.ok ? [] : [one.reason]));
    return parts.length === 3
      ? wrong.join('; ')
      : 'write three figures with commas between them, x,y,z, and a point as decimal mark';
  }
  const point: Vec3 = [x.value, y.value, z.value];
  return point.some((v) => Math.abs(v) > FARTHEST_MM)
    ? `x, y and z must lie between -${FARTHEST_MM} and ${FARTHEST_MM} mm`
    : point;
};
