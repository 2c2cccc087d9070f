import { cosDeg, type Direction, sinDeg } from '../../src/template.ts';
import { flangeOf, hasRiser, hemRadiusMm, lipAt, type Place, setbackOf } from './sizes.ts';
import type { HeelRest } from './inputs.ts';

/**
 * A leg in the section through a heel rest, along its slope. Each end of the tread is treated by
 * itself: outwards is the direction from the tread to the end, headings are degrees over the floor,
 * and `up` turns them counter-clockwise. Points lie on the lower face of the sheet, which on a riser
 * is the face towards the wedge.
 */
export interface Leg {
  readonly id: string;
  /** The bend between this leg and the one before it, or the tread. */
  readonly angleDeg: number;
  readonly direction: Direction;
  readonly radiusMm: number;
  /** Depth of a teardrop hem, outside. */
  readonly teardropMm?: number;
  /** Length between its tangent lines. */
  readonly flatMm: number;
}

export type Bend = Pick<Leg, 'angleDeg' | 'direction' | 'radiusMm'>;

/** A leg whose length is not given: it reaches to the floor. */
export type OpenLeg = Omit<Leg, 'flatMm'> & { readonly flatMm: number | 'to the floor' };

/**
 * The angle between floor and standing leg, within the wedge. A stop without a riser stands square
 * to the tread.
 */
export const footDeg = (v: HeelRest, place: Place, slopeDeg: number): number =>
  hasRiser(v, place) ? v.riserAngle : 90 - slopeDeg;

/** Legs at one end; `slopeDeg` is the tread's heading outwards, over the floor. */
export function legsOf(v: HeelRest, place: Place, slopeDeg: number): readonly OpenLeg[] {
  const lip = lipAt(v, place);
  if (lip === 'single') return singleStop(v);
  const foot = footDeg(v, place, slopeDeg);
  if (lip === 'double')
    return [
      ...doubleStop(v, place, 180 - foot - slopeDeg),
      ...flange(v, place, bendOf(v, foot, 'up')),
    ];
  if (!hasRiser(v, place)) return flange(v, place, bendOf(v, Math.abs(slopeDeg), 'up'));
  return [
    { id: `${place} riser`, ...bendOf(v, foot + slopeDeg, 'down'), flatMm: 'to the floor' },
    ...flange(v, place, bendOf(v, foot, 'up')),
  ];
}

const bendOf = (v: HeelRest, angleDeg: number, direction: Direction): Bend => ({
  angleDeg,
  direction,
  radiusMm: v.insideRadiusMm,
});

/** The bend that folds the sheet right over, away from the heel. */
const rightOver = (v: HeelRest): Bend => ({
  angleDeg: 180,
  direction: 'down',
  radiusMm: hemRadiusMm(v),
});

const flange = (v: HeelRest, place: Place, last: Bend): OpenLeg[] =>
  flangeOf(v, place) === 0
    ? []
    : [
        {
          id: `${place} flange`,
          ...last,
          flatMm: flangeOf(v, place) - setbackOf(v, last.angleDeg, last.radiusMm),
        },
      ];

/** A stop folded up, right over and down; `turnedDeg` is the bend at its foot. */
const doubleStop = (v: HeelRest, place: Place, turnedDeg: number): readonly OpenLeg[] => {
  const [up, over] = [bendOf(v, turnedDeg, 'up'), rightOver(v)];
  return [
    {
      id: 'stop',
      ...up,
      flatMm: v.lipHeight - insideSetback(up) - over.radiusMm - v.thicknessMm,
    },
    {
      id: hasRiser(v, place) ? `${place} riser` : 'back of the stop',
      ...over,
      flatMm: 'to the floor',
    },
  ];
};

/** A stop folded up square, with a hem along its top where one is asked for. */
const singleStop = (v: HeelRest): readonly OpenLeg[] => {
  const [up, over] = [bendOf(v, 90, 'up'), rightOver(v)];
  const top = v.hem > 0 ? over.radiusMm + v.thicknessMm : 0;
  const hem: OpenLeg = {
    id: 'hem',
    ...over,
    ...(v.hemShape === 'teardrop' && { teardropMm: v.hem }),
    flatMm: v.hem - setbackOf(v, 180, over.radiusMm),
  };
  return [
    { id: 'stop', ...up, flatMm: v.lipHeight - insideSetback(up) - top },
    ...(v.hem > 0 ? [hem] : []),
  ];
};

/**
 * Setback of the stop, which is measured over the upper face of the tread; that face lies inside
 * its bend.
 */
const insideSetback = ({ angleDeg, radiusMm }: Bend): number =>
  angleDeg > 90 ? radiusMm : (radiusMm * sinDeg(angleDeg)) / (1 + cosDeg(angleDeg));
