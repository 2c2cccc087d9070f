import {
  advise,
  cosDeg,
  figure,
  type Finding,
  isOver,
  isUnder,
  note,
  orLess,
  orMore,
} from '../../src/template.ts';
import { hatOf } from '../strap/sizes.ts';
import { loadOf } from './load.ts';
import { strapAt, strapPlaces } from './sizes.ts';
import type { Cradle } from './inputs.ts';

/** What the maker should know about a cradle that can be made. */
export const cradleNotes = (v: Cradle): Finding[] => [
  massNote(v),
  ...tips(v),
  ...railClear(v),
  ...cornerBites(v),
  ...(v.pullUp > 0
    ? [
        note(
          'strap-pull-up',
          `The feet of the straps stand off by ${figure(v.pullUp)} mm until the tensioning bolts pull them up; their slots are ${figure(v.boltHole)} x ${figure(v.boltHole + v.pullUp)}.`,
        ),
      ]
    : []),
];

const massNote = (v: Cradle): Finding => {
  const { fluidKg, fullKg } = loadOf(v);
  const what =
    v.emptyMass === undefined
      ? `${figure(fluidKg, 1)} kg of ${v.fluid}, and the tank itself, which was not given,`
      : `${figure(fullKg, 1)} kg, of which ${figure(fluidKg, 1)} kg are ${v.fluid},`;
  return note(
    'cradle-load',
    `Straps, rail and chassis carry ${what} standing still; a crash asks for many times as much. The figures say nothing about strength: leave that to licensed practice and local rules.`,
  );
};

/** A tank whose middle does not hang between its straps tips out of them. */
const tips = (v: Cradle): Finding[] => {
  const { alongMm } = loadOf(v);
  const [left, right] = strapPlaces(v);
  if (!isUnder(alongMm, left) && !isOver(alongMm, right)) return [];
  return [
    advise(
      'cradle-tips',
      ['leftStrap', 'rightStrap'],
      `The middle of what is in the tank lies ${figure(alongMm)} from its left end, and not between leftStrap ${figure(v.leftStrap)} and rightStrap ${figure(v.rightStrap)} from the right one`,
      [
        isUnder(alongMm, left)
          ? orLess('leftStrap', alongMm)
          : orLess('rightStrap', v.length - alongMm),
      ],
    ),
  ];
};

/** Bolts into the chassis that come to lie over a foot of a strap, or against it. */
const railClear = (v: Cradle): Finding[] => {
  const room = v.strapWidth / 2 + v.chassisHole;
  const isCovered = [v.chassisAt, v.chassisAt + v.chassisPitch].some((at) =>
    strapPlaces(v).some((strap) => isUnder(Math.abs(at - strap), room)),
  );
  return isCovered
    ? [
        advise(
          'cradle-bolt-covered',
          ['chassisAt', 'chassisPitch', 'leftStrap', 'rightStrap'],
          `chassisAt ${figure(v.chassisAt)} and chassisPitch ${figure(v.chassisPitch)} put the head of a bolt of the chassis in the way of a foot, with leftStrap ${figure(v.leftStrap)} and rightStrap ${figure(v.rightStrap)}`,
          [],
          `keep its middle ${figure(room)} from that of the strap`,
        ),
      ]
    : [];
};

/** The arc of a bend stands off a sharp corner of the tank: see the notes of a strap. */
const cornerBites = (v: Cradle): Finding[] => {
  const half = cosDeg(Math.max(...Object.values(hatOf(strapAt(v, v.leftStrap)).turnDeg)) / 2);
  const bites = v.insideRadiusMm * (1 - half);
  return isUnder(v.rubber, bites)
    ? [
        advise(
          'strap-corner',
          ['radius', 'rubber'],
          `A bend of radius ${figure(v.insideRadiusMm)} over rubber ${figure(v.rubber)} sits on the sharp corner of the tank before it sits on its faces`,
          [orMore('rubber', bites), orLess('radius', v.rubber / (1 - half))],
          'round the corner of the tank',
        ),
      ]
    : [];
};
