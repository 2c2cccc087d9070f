import { setbackMm, sinDeg } from '../../src/template.ts';
import { cheekSides, flangeOf, highEnd, lowEnd, type Place, wedgeDeg } from './sizes.ts';
import type { HeelRest } from './inputs.ts';
import { type Leg, legsOf } from './legs.ts';

/** Lengths of a heel rest to which `measure` applies. */
export type HeelRestLength =
  'width' | 'treadDepth' | 'flangeFront' | 'flangeRear' | 'cheekFlange' | 'hem' | 'lift';

/**
 * A heel rest whose lengths are all outside ones, and what was added to the given ones to make them
 * so, mm.
 */
export interface OutsideHeelRest extends HeelRest {
  readonly measure: 'outside';
  /** The heel rest as it was asked for. */
  readonly asked: HeelRest;
  readonly added: Readonly<Record<HeelRestLength, number>>;
}

/** A length as it was given, or as it would have to be given. */
export const given = (v: OutsideHeelRest, input: HeelRestLength, mm: number): number =>
  mm - v.added[input];

/**
 * The same heel rest by its outside lengths. Inside lengths end at the inside of a bend, and the
 * inside width is that between the cheeks, or from the only one to the bare edge.
 */
export const outsideHeelRest = (v: HeelRest): OutsideHeelRest => {
  const { insideRadiusMm: r, thicknessMm: t } = v;
  const more = (angleDeg: number | undefined): number =>
    v.measure === 'outside' || angleDeg === undefined
      ? 0
      : setbackMm(angleDeg, r, t, 'outside') - setbackMm(angleDeg, r, t, 'inside');
  const bends = (place: Place): number[] =>
    legsOf(v, place, place === highEnd(v) ? wedgeDeg(v) : -wedgeDeg(v)).map((leg) => leg.angleDeg);
  const [front, rear] = [bends('front'), bends('rear')];
  const flange = (place: Place, angles: readonly number[]): number =>
    flangeOf(v, place) > 0 ? more(angles.at(-1)) : 0;
  const added = {
    width: cheekSides(v).length * more(90),
    treadDepth: more(front[0]) + more(rear[0]),
    flangeFront: flange('front', front),
    flangeRear: flange('rear', rear),
    cheekFlange: v.cheekFlange > 0 ? more(90) : 0,
    hem: v.hem > 0 ? more(180) : 0,
    // A tread that is measured from inside stands higher.
    lift: v.lift > 0 ? -more((lowEnd(v) === 'front' ? front : rear)[0]) * sinDeg(wedgeDeg(v)) : 0,
  };
  const lengths = Object.fromEntries(
    Object.entries(added).map(([name, by]) => [name, v[name as HeelRestLength] + by]),
  );
  return { ...v, ...lengths, measure: 'outside', asked: v, added };
};

/**
 * Distance from the mould line of a leg's bend, which is that of the outside, to the face from
 * which the leg is measured: 0, or what is added inside.
 */
export const insetMm = (v: OutsideHeelRest, leg: Leg | undefined): number => {
  if (leg === undefined || v.asked.measure === 'outside') return 0;
  return (
    setbackMm(leg.angleDeg, leg.radiusMm, v.thicknessMm, 'outside') -
    setbackMm(leg.angleDeg, leg.radiusMm, v.thicknessMm, 'inside')
  );
};

/** The same at the left side, where a cheek may stand. */
export const leftInsetMm = (v: OutsideHeelRest): number =>
  cheekSides(v).includes('left') ? v.added.width / cheekSides(v).length : 0;
