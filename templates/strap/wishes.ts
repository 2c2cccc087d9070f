import {
  angleWish,
  diameterWish,
  edge,
  faceOf,
  type Feature,
  type Part,
  slopesOf,
  type Wish,
  wish,
} from '../../src/template.ts';
import { boltFromSideMm, hatAsk, hatOf, insideMm, isSloped, riseDeg } from './sizes.ts';
import type { Strap } from './inputs.ts';

/**
 * What the inputs mean on the strap besides the wishes of every strip: the size that it goes over,
 * how it slopes, and the places of its bolts.
 */
export const withStrapWishes = (v: Strap, part: Part): Part => {
  const [one, other] = ['A', 'B'].map((s): Feature => faceOf(`side ${s}`, 'down', 'inside')) as [
    Feature,
    Feature,
  ];
  const bolts = ['A', 'B'].map((s): Feature => ({
    kind: 'hole',
    panel: `foot ${s}`,
    from: 'boltHole 1',
  })) as [Feature, Feature];
  return {
    ...part,
    wishes: [
      wish('across + 2 rubber', insideMm(v), one, other),
      ...(v.stepB === 0
        ? [wish('boltCentres', v.boltCentres, ...bolts)]
        : [
            // Level, from the one bolt to the end of the other foot.
            wish('boltCentres + beyond', v.boltCentres + v.beyond, bolts[0], edge('foot B', 'up')),
            wish(BOLT_OUT, boltFromSideMm(v), bolts[0], one),
            wish(BOLT_OUT, boltFromSideMm(v), bolts[1], other),
          ]),
      ...(v.pullUp > 0
        ? []
        : ['A', 'B'].map((s) => diameterWish('boltHole', v.boltHole, `foot ${s}`, 'boltHole 1'))),
      wish('beyond', v.beyond, bolts[0], edge('foot A', 'down')),
      wish('beyond', v.beyond, bolts[1], edge('foot B', 'up')),
      ...heightWishes(v),
      ...(part.wishes ?? []).filter((w) => !w.input.startsWith('boltHole')),
    ],
  };
};

const BOLT_OUT = 'boltCentres - across - 2 rubber, halved';

/** The heights of a level crown over both feet; of one that slopes its angles, and of one that leans along no heights. */
const heightWishes = (v: Strap): Wish[] => {
  const foot = (side: 'A' | 'B'): Feature => faceOf(`foot ${side}`, 'up', 'outside');
  if (v.over === 'round')
    return v.stepB === 0 ? [] : [wish('stepB', Math.abs(v.stepB), foot('A'), foot('B'))];
  const rise = riseDeg(v);
  const level = v.height + v.rubber - v.pullUp;
  if (!isSloped(v)) {
    const crown = faceOf('crown', 'down', 'inside');
    return [
      wish('height + rubber - pullUp', level, crown, foot('A')),
      ...(v.stepB === 0
        ? []
        : [wish('height + rubber - pullUp - stepB', level - v.stepB, crown, foot('B'))]),
    ];
  }
  const [, along, steep] = slopesOf(hatAsk(v));
  const named = [...(rise === 0 ? [] : ['slopeAcross']), ...(along === 0 ? [] : ['slopeAlong'])];
  const turn = (Math.acos(1 / steep) * 180) / Math.PI;
  const angle = angleWish(named.join(' + '), turn, 'crown', 'foot A');
  if (along !== 0)
    return [
      angle,
      ...(v.stepB === 0 ? [] : [wish('stepB', Math.abs(v.stepB), foot('A'), foot('B'))]),
    ];
  // To where the outside faces meet, or past square to the tangent, as the sides are measured.
  const { sideMm } = hatOf(v);
  const corner = (side: 'A' | 'B'): Feature => ({
    kind: 'fold',
    panel: `side ${side}`,
    fold: side === 'A' ? 'B' : 'C',
    measure: 'outside',
  });
  return [
    angle,
    wish(`height at side A`, sideMm.A, corner('A'), foot('A')),
    wish(
      v.heightB === undefined ? 'height + slopeAcross' : 'heightB',
      sideMm.B,
      corner('B'),
      foot('B'),
    ),
  ];
};
