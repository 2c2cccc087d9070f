import {
  angleWish,
  diameterWish,
  edge,
  type Feature,
  type Part,
  wish,
} from '../../src/template.ts';
import type { Saddle } from './inputs.ts';
import { boltsMm, hugRadiusMm, type Profile } from './sizes.ts';

/** The face towards the tube, which lies under the drawing. */
const tubeFace = (panel: string): Feature => ({ kind: 'face', panel, face: 'lower' });
const bolt = (panel: string): Feature => ({ kind: 'hole', panel, from: 'boltHole 1' });

/** What the inputs mean on the clip besides the wishes of every strip. */
export const withSaddleWishes = (v: Saddle, profile: Profile, part: Part): Part => {
  const ears = v.kind === 'p' ? ['foot', 'ear'] : ['ear A', 'ear B'];
  const [one, other] = ears as [string, string];
  return {
    ...part,
    wishes: [
      ...(v.kind === 'p' ? roundOnce(v, profile, one, other) : overTube(v, profile, one, other)),
      ...ears.map((ear) => diameterWish('boltHole', v.boltHole, ear, 'boltHole 1')),
      wish('beyond', v.beyond, bolt(one), edge(one, 'down')),
      wish('beyond', v.beyond, bolt(other), edge(other, 'up')),
      ...(part.wishes ?? []).filter((w) => !w.input.startsWith('boltHole')),
    ],
  };
};

const overTube = (v: Saddle, profile: Profile, one: string, other: string) => {
  const [a, b] = boltsMm(v, profile);
  const { seatMm } = profile;
  const lowMm = v.kind === 'halves' ? -v.gap / 2 : seatMm - v.gap;
  const said = v.kind === 'halves' ? '- gap / 2' : '+ seat - gap';
  return [
    wish(
      v.boltFromB === undefined ? '2 boltFrom' : 'boltFrom + boltFromB',
      a + b,
      bolt(one),
      bolt(other),
    ),
    ...[one, other].map((ear) =>
      wish(
        `diameter / 2 + rubber ${said}`,
        hugRadiusMm(v) + lowMm,
        tubeFace('crown'),
        tubeFace(ear),
      ),
    ),
    ...(v.kind === 'saddle'
      ? [angleWish('around', Math.min(v.around, 360 - v.around), 'side A', 'side B')]
      : []),
  ];
};

const roundOnce = (v: Saddle, profile: Profile, one: string, other: string) => [
  wish('gap', v.gap, bolt(one), bolt(other)),
  wish(
    'boltFrom + diameter / 2 + rubber + thickness',
    boltsMm(v, profile)[0] + hugRadiusMm(v) + v.thicknessMm,
    bolt(one),
    {
      kind: 'fold',
      panel: one,
      fold: 'A',
      measure: 'outside',
    },
  ),
];
