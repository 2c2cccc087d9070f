import { figure, orLess, orMore, orTry, refuse } from '../../src/template.ts';
import type { CommonValues, Finding } from '../../src/template.ts';

/** Most baffles in one tank; more than this are a slip. */
export const MOST_BAFFLES = 20;

/** Figures of the bays, mm. */
interface BayWords extends Pick<CommonValues, 'thicknessMm'> {
  readonly longestBay: number;
  readonly flange: number;
  readonly clearance: number;
}

/**
 * Finding on more baffles than anybody wants; `input` is the one that gives the length of the tank.
 */
export const tooManyBaffles = (
  input: string,
  v: BayWords,
  lengthMm: number,
  count: number,
  most: number,
): Finding => {
  const least = (lengthMm - most * v.thicknessMm) / (most + 1);
  return refuse(
    'too-many-baffles',
    ['longestBay', input],
    `longestBay ${figure(v.longestBay)} takes ${count} baffles over a ${input} of ${figure(lengthMm)} mm, more than ${most}`,
    [orMore('longestBay', least)],
  );
};

/** Finding on bays that are too short for a flange. */
export const shortBays = (v: BayWords, bayMm: number): Finding =>
  orTry(
    refuse(
      'bay-too-short',
      ['longestBay', 'flange'],
      `longestBay ${figure(v.longestBay)} makes bays of ${figure(bayMm)} mm, shorter than flange ${figure(v.flange)}`,
      bayMm > v.clearance ? [orLess('flange', bayMm - v.clearance)] : [],
    ),
    'longestBay',
  );
