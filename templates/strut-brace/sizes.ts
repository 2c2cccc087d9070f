import { figure, refuse } from '../../src/template.ts';
import type {
  CommonValues,
  Direction,
  Finding,
  GivenOutline,
  GivenPoints,
  HoleSpec,
  NamedHole,
  Place,
  SideChoice,
  SizedHole,
  Vec2,
} from '../../src/template.ts';

/** What a strut brace is asked to be, in mm and degrees. */
export interface StrutBrace extends CommonValues {
  readonly points: GivenPoints;
  readonly boltHole: SizedHole;
  readonly pickups: readonly NamedHole[] | undefined;
  readonly edge: number;
  readonly outline: GivenOutline | undefined;
  readonly holes: readonly HoleSpec[];
  readonly crease: readonly [Place, Place] | undefined;
  readonly creaseAngle: number;
  readonly creaseDirection: Direction;
  readonly creaseStyle: 'folded' | 'slit';
  readonly slotLength: number;
  readonly slotLand: number | undefined;
  readonly return: SideChoice | undefined;
  readonly returnHeight: number;
  readonly returnDirection: Direction;
  readonly returnInset: number | undefined;
  readonly notch: Place | undefined;
  readonly notchWidth: number;
  readonly tube: number;
  readonly tubeSpan: number | undefined;
  readonly tubeRise: number;
  readonly tubeMiddle: number | undefined;
  readonly tubeBend: number | undefined;
  readonly tubeBeyond: number;
  readonly saddle: Place | undefined;
  readonly saddleHole: SizedHole;
  readonly saddleAcross: number | undefined;
  readonly saddleAlong: number;
  readonly saddleTurn: number;
}

/** A hole that has metal round it. */
export interface BraceHole extends SizedHole {
  /** As findings will name it: `hole P`. */
  readonly from: string;
  readonly at: Vec2;
}

export const slotLandMm = (v: StrutBrace): number => v.slotLand ?? 2 * v.thicknessMm;

/** Where a place lies; a name that no point has is a finding. */
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

/** A place as it is typed. */
export const placeText = (place: Place): string =>
  'name' in place ? place.name : place.at.map((n) => figure(n)).join(',');

/** A side as it is typed. */
export const sideText = (side: SideChoice): string => {
  if ('between' in side) return side.between.join('-');
  const [x, y] = side.facing;
  return x === 0 ? (y > 0 ? 'top' : 'bottom') : x > 0 ? 'right' : 'left';
};
