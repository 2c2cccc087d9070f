import { angleWish, diameterWish, edge, faceOf, holeWishes, wish } from '../../src/template.ts';
import type { Cutout, Feature, Wish } from '../../src/template.ts';
import type { End, Section } from './section.ts';
import {
  cheekSides,
  flangeOf,
  hasRiser,
  highEnd,
  type Place,
  type Side,
  wedgeDeg,
} from './sizes.ts';
import type { HeelRest } from './inputs.ts';
import type { Leg } from './legs.ts';

/** The folds of the legs at either end, from the tread outwards. */
export type LegFolds = Readonly<Record<Place, readonly string[]>>;

/** What the inputs of a heel rest mean on it. */
export const heelRestWishes = (
  v: HeelRest,
  section: Section,
  folds: LegFolds,
  grip: readonly Cutout[],
): Wish[] => {
  const along = sidesOf(v, 'tread');
  const treadEnd = (place: Place): Feature =>
    cornerAt(
      v,
      'tread',
      folds[place][0],
      place === 'front' ? edge('tread', 'up') : edge('tread', 'down'),
    );
  return [
    wish('width', v.width, ...along),
    wish('treadDepth', v.treadDepth, treadEnd('rear'), treadEnd('front')),
    ...cheekSides(v).flatMap((s) =>
      v.cheekFlange > 0
        ? [
            wish(
              'cheekFlange',
              v.cheekFlange,
              edge(`${s} cheek flange`, 'up'),
              faceOf(`${s} cheek`, 'up', v.measure),
            ),
          ]
        : [],
    ),
    ...(grip.length > 0 && v.grip === 'holes'
      ? [diameterWish('gripSize', v.gripSize, 'tread', grip[0]?.from ?? '')]
      : []),
    ...holeWishes('holesTread', v.holesTread, {
      panel: 'tread',
      across: [treadEnd('rear'), treadEnd('front')],
      along,
    }),
    ...(['rear', 'front'] as const).flatMap((place) =>
      endWishes(v, section.ends[place], folds[place]),
    ),
  ];
};

/**
 * The sides from which a panel is measured along the folds: its own, or the cheeks that stand
 * there.
 */
const sidesOf = (v: HeelRest, panel: string): readonly [Feature, Feature] => {
  const side = (s: Side): Feature =>
    cheekSides(v).includes(s) ? faceOf(`${s} cheek`, 'down', v.measure) : edge(panel, s);
  return [side('left'), side('right')];
};

/** The end of a panel at a fold, or its edge where there is no fold. */
const cornerAt = (v: HeelRest, panel: string, fold: string | undefined, bare: Feature): Feature =>
  fold === undefined ? bare : { kind: 'fold', panel, fold, measure: v.measure };

const endWishes = (v: HeelRest, { place, legs }: End, folds: readonly string[]): Wish[] => {
  const outwards = place === 'front' ? 'up' : 'down';
  return legs.flatMap((leg, i): Wish[] => {
    const along = sidesOf(v, leg.id);
    const [near, far] = [
      cornerAt(v, leg.id, folds[i], edge(leg.id, outwards)),
      cornerAt(v, leg.id, folds[i + 1], edge(leg.id, outwards)),
    ];
    if (leg.id === 'hem') return [wish('hem', v.hem, far, near)];
    if (leg.id === 'stop') return stopWishes(v, leg, folds[i + 1], edge(leg.id, outwards));
    if (leg.id === `${highEnd(v)} riser`)
      return holeWishes('holesRiser', v.holesRiser, { panel: leg.id, across: [far, near], along });
    if (leg.id !== `${place} flange`) return [];
    const [input, specs] =
      place === 'front'
        ? (['holesFront', v.holesFront] as const)
        : (['holesRear', v.holesRear] as const);
    const before = legs[i - 1]?.id;
    return [
      wish(place === 'front' ? 'flangeFront' : 'flangeRear', flangeOf(v, place), near, far),
      angleWish(`treadAngle - floorAngle at the ${place}`, wedgeDeg(v), 'tread', leg.id),
      ...(before === `${place} riser` && hasRiser(v, place)
        ? [angleWish(`riserAngle at the ${place}`, v.riserAngle, before, leg.id)]
        : []),
      ...holeWishes(input, specs, { panel: leg.id, across: [near, far], along }),
    ];
  });
};

/**
 * A stop that stands square on the tread is measured from the tread's upper face to its own edge,
 * or to the round of the bend that folds it over.
 */
const stopWishes = (
  v: HeelRest,
  { angleDeg }: Leg,
  next: string | undefined,
  bare: Feature,
): Wish[] =>
  angleDeg === 90
    ? [
        wish(
          'lipHeight',
          v.lipHeight,
          next === undefined
            ? bare
            : { kind: 'fold', panel: 'stop', fold: next, measure: 'outside' },
          { kind: 'face', panel: 'tread', face: 'upper' },
        ),
      ]
    : [];
