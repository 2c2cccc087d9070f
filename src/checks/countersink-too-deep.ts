import { exceeds } from '../model/measured.ts';
import { atMost, figure } from '../text/figures.ts';
import { grouped } from '../text/grouped.ts';
import { type Finding, warn } from '../model/finding.ts';
import { type Check, type Hole, inputsOf, namesOf, onHole } from './check.ts';

/** A countersink that comes through the sheet. */
export const countersinkTooDeep: Check = {
  rule: 'countersink-too-deep',
  title: 'A countersink comes through the sheet.',
  severities: ['warn'],
  reason:
    'A countersink deeper than the sheet opens the hole on the other side to a sharp edge, and the screw pulls through it.',
  source: 'geometry of a cone of 90 degrees: it is half as deep as it is wider than its hole',
  measured: 'half of what the countersink is wider than its hole, against the thickness',
  mend: 'Take a smaller screw, dimple the sheet, or take thicker sheet.',
  run: ({ flat, holes }) =>
    grouped(
      holes,
      ({ panel, use, diameterMm }) => `${panel} ${use?.countersink?.diameterMm} ${diameterMm}`,
    ).flatMap((alike) => examine(flat.thicknessMm, alike as [Hole, ...Hole[]])),
};

function examine(thicknessMm: number, alike: readonly [Hole, ...Hole[]]): Finding[] {
  const [hole] = alike;
  const sunk = hole.use?.countersink;
  if (sunk === undefined || hole.diameterMm === undefined) return [];
  const deepMm = (sunk.diameterMm - hole.diameterMm) / 2;
  if (deepMm <= thicknessMm) return [];
  const message = `${namesOf(alike)}: a countersink of ${figure(sunk.diameterMm)} is ${figure(deepMm)} mm deep, and the sheet ${figure(thicknessMm)}. Take one of ${atMost(hole.diameterMm + 2 * thicknessMm)} or less with a smaller screw, dimple the sheet, or take thicker sheet.`;
  return [
    {
      ...warn(countersinkTooDeep, message),
      ...onHole(hole),
      inputs: inputsOf(alike),
      ...exceeds(deepMm, thicknessMm),
    },
  ];
}
