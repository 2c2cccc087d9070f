import { figure, refuse } from '../../src/template.ts';
import type { Finding, Place, SideChoice, SizedHole, Vec2 } from '../../src/template.ts';
import type { StrutBrace } from './inputs.ts';

/** A hole that has metal round it. */
export interface BraceHole extends SizedHole {
  /** Its name in findings: `hole P`. */
  readonly from: string;
  readonly at: Vec2;
}

export const slotLandMm = (v: StrutBrace): number => v.slotLand ?? 2 * v.thicknessMm;

/** Coordinates of a place, or a finding on a name that no point has. */
export function locate(v: StrutBrace, input: string, place: Place): Vec2 | Finding {
  if ('at' in place) return place.at;
  const point = v.points.points.find((p) => p.name === place.name);
  return point === undefined ? unknownPoint(v, input, place.name) : [point.x, point.y];
}

export const isFinding = (value: Vec2 | Finding): value is Finding => 'severity' in value;

export const unknownPoint = (v: StrutBrace, input: string, ...names: readonly string[]): Finding =>
  refuse(
    'unknown-point',
    [input, 'points'],
    `${input} names ${names.join(', ')}, but the points are ${v.points.points.map((p) => p.name).join(', ')}`,
    [],
    'name one of them',
  );

/** A place as typed. */
export const placeText = (place: Place): string =>
  'name' in place ? place.name : place.at.map((n) => figure(n)).join(',');

/** A side as typed. */
export const sideText = (side: SideChoice): string => {
  if ('between' in side) return side.between.join('-');
  const [x, y] = side.facing;
  return x === 0 ? (y > 0 ? 'top' : 'bottom') : x > 0 ? 'right' : 'left';
};
