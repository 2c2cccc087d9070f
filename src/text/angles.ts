import { figure } from './figures.ts';

/** The angle between the faces of a bend that is turned from flat by some degrees. */
export const includedDeg = (turnedDeg: number): number => 180 - turnedDeg;

/** `90°`; `35° (145°)` where what a square reads is another figure; `180°` of a hem, which has no inside. */
export const foldAngle = (turnedDeg: number, decimals = 1): string => {
  const turned = `${figure(turnedDeg, decimals)}°`;
  const included = includedDeg(turnedDeg);
  return turnedDeg >= 180 || Math.abs(included - turnedDeg) < 10 ** -decimals / 2
    ? turned
    : `${turned} (${figure(included, decimals)}°)`;
};
