import {
  figure,
  type Finding,
  hoopPoints,
  legPoints,
  note,
  orLess,
  orMore,
  refuse,
  tubeLegs,
  type TubeLegs,
  type TubeValues,
  type Vec3,
} from '../../src/template.ts';
import type { inputs } from './inputs.ts';

export type Values = TubeValues<typeof inputs>;

/** A centre line that can be bent, or what keeps the inputs from being one. */
export type CentreLine =
  | { readonly legs: TubeLegs; readonly findings: readonly Finding[] }
  | { readonly legs?: undefined; readonly findings: readonly Finding[] };

/** The centre line by whichever of the three ways it is given in. */
export function centreLine(v: Values): CentreLine {
  const given = (['points', 'legs', 'span'] as const).filter((name) => v[name] !== undefined);
  const [way, ...more] = given;
  if (way === undefined || more.length > 0)
    return {
      findings: [
        refuse(
          'tube-no-line',
          way === undefined ? ['points', 'legs', 'span'] : given,
          way === undefined
            ? 'nothing says where the tube runs'
            : `${given.join(' and ')} both say where the tube runs`,
          [],
          'give one of points, legs and span',
        ),
      ],
    };
  const points = pointsOf(v, way);
  if ('rule' in points) return { findings: [points] };
  const legs = tubeLegs(points);
  if (!('why' in legs))
    return {
      legs,
      findings: legs.straightOn.map((i) =>
        note(
          'tube-no-bend',
          `The tube runs straight on at point ${i + 1}: there is no bend there. Leave the point out, or move it.`,
        ),
      ),
    };
  const [first = 0, second = 0] = legs.points;
  return {
    findings: [
      legs.why === 'turns back'
        ? refuse(
            'tube-turns-back',
            [way],
            `the tube comes back along itself at point ${first + 1}`,
            [],
            'move that point, or put two corners in its place',
          )
        : refuse(
            'tube-same-place',
            [way],
            `points ${first + 1} and ${second + 1} are in one place`,
            [],
            'leave out one of them',
          ),
    ],
  };
}

const pointsOf = (v: Values, way: 'points' | 'legs' | 'span'): readonly Vec3[] | Finding => {
  if (way === 'points') return v.points ?? [];
  if (way === 'legs' && v.legs !== undefined) return legPoints(v.legs.firstMm, v.legs.rest);
  const [spanMm, heightMm] = [v.span ?? 0, v.height ?? v.span ?? 0];
  const hoop = hoopPoints({ spanMm, heightMm, leanDeg: v.lean, diameterMm: v.diameter });
  if (hoop !== undefined) return hoop;
  const leanMm = (heightMm - v.diameter / 2) * Math.tan((v.lean * Math.PI) / 180);
  return heightMm <= v.diameter / 2
    ? refuse(
        'tube-hoop-too-narrow',
        ['height', 'diameter'],
        `height ${figure(heightMm)} is no higher than the tube`,
        [orMore('height', Math.ceil(v.diameter))],
      )
    : refuse(
        'tube-hoop-too-narrow',
        ['span', 'height', 'lean'],
        `span ${figure(spanMm)} leaves nothing across the top, where legs that lean ${figure(v.lean)} degrees take ${figure(2 * leanMm)} mm`,
        [orMore('span', Math.ceil(2 * leanMm + v.diameter)), orLess('lean', 0)],
      );
};
