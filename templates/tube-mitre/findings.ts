import {
  advise,
  figure,
  type Finding,
  MOST_MITRE_DEG,
  type MitreFlaw,
  orLess,
  orMore,
  refuse,
  type TubeValues,
  wholeUp,
} from '../../src/template.ts';
import type { inputs } from './inputs.ts';

export type Values = TubeValues<typeof inputs>;

/** One and a half diameters, as bought elbows have it that are called long (ASME B16.9; from memory). */
const USUAL_DIAMETERS = 1.5;

export const radiusOf = ({ radius, diameter }: Values): number =>
  radius ?? USUAL_DIAMETERS * diameter;

/** Why the bend cannot be made as it was asked for. */
export const refusal = (v: Values, { kind, given, limit }: MitreFlaw): Finding => {
  switch (kind) {
    case 'tight':
      return refuse(
        'mitre-tight',
        ['radius', 'diameter'],
        `radius ${figure(given)} is no more than half the tube of ${figure(2 * limit)} mm: within the bend nothing is left of the pieces`,
        [orMore('radius', USUAL_DIAMETERS * v.diameter)],
      );
    case 'turn':
    case 'pieces':
      return refuse(
        'mitre-steep',
        ['pieces', 'turn'],
        `${v.pieces} pieces for ${figure(v.turn)} degrees are cut at ${figure(v.turn / (v.pieces - 1) / 2)} degrees from square; ${MOST_MITRE_DEG} are the most`,
        [orMore('pieces', wholeUp(v.turn / MOST_MITRE_DEG / 2) + 1)],
      );
  }
};

/** What leaves no bore. */
export const wallFindings = ({ wall, diameter }: Values): Finding[] =>
  2 * wall < diameter
    ? []
    : [
        refuse(
          'cope-no-bore',
          ['wall', 'diameter'],
          `wall ${figure(wall)} leaves no bore in a tube of ${figure(diameter)} mm`,
          [orLess('wall', 0.45 * diameter)],
        ),
      ];

/** So many walls a weld and what it heats take to either side (common practice, from memory). */
const WELD_WALLS = 3;

/** Within the bend the welds of a short piece run into each other. */
export const shortInside = (v: Values, insideMm: number): Finding[] => {
  const least = 2 * WELD_WALLS * v.wall;
  return v.pieces < 3 || insideMm >= least
    ? []
    : [
        advise(
          'mitre-short-inside',
          ['radius', 'pieces'],
          `within the bend the pieces are ${figure(insideMm, 1)} mm long, and the welds at their ends take ${figure(least, 1)}`,
          [
            orMore(
              'radius',
              wholeUp(v.diameter / 2 + ((radiusOf(v) - v.diameter / 2) * least) / insideMm),
            ),
          ],
          'take fewer pieces',
        ),
      ];
};
