import { figure, just, length3, orLess, orMore, refuse, sub3 } from '../../src/template.ts';
import type { Finding, Vec3 } from '../../src/template.ts';
import type { TankPlan } from './inputs.ts';
import { bendReachMm, type Sheet } from './panels.ts';
import { inwardCorners, type Shape, sideName } from './planes.ts';
import { FACES, seamOf } from './seam-plate.ts';
import { foldedDeg } from './turned-up.ts';

/** Floors and tops whose edges cannot be folded as was asked. */
export const seamFindings = (v: TankPlan, shape: Shape, sheet: Sheet): Finding[] =>
  FACES.filter((which) => sheet.seams[which] !== 'edge').flatMap((which) => {
    const input = which === 'floor' ? 'floorSeam' : 'topSeam';
    const seam = sheet.seams[which];
    const inwards = inwardCorners(shape).map((corner) => corner + 1);
    if (inwards.length > 0)
      return [
        refuse(
          'seam-corner-inwards',
          [input, 'outline'],
          `${input} ${seam} folds the edges of the ${which}, and those beside corner ${inwards.join(' and ')} of outline would take the same sheet`,
          [just(input, 'edge')],
        ),
      ];
    if (which === 'floor' && shape.planes.risers.length > 0)
      return [
        refuse(
          'seam-floor-stepped',
          [input, 'floorStep'],
          `${input} ${seam} folds every edge of the floor along one line, and over a step its edges have several`,
          [just(input, 'edge')],
        ),
      ];
    return [...allBend(v, shape, sheet, which), ...flangesMeet(v, shape, sheet, which)];
  });

/** Flanges that their bends use up. */
const allBend = (v: TankPlan, shape: Shape, sheet: Sheet, which: 'floor' | 'top'): Finding[] => {
  const turned = seamOf(shape, which, sheet);
  const least = Math.max(
    ...shape.low.map((_, side) => bendReachMm(-foldedDeg(turned, side), sheet) + v.thicknessMm),
  );
  if (sheet.seamFlangeMm >= least) return [];
  const inside = v.measure === 'inside' ? v.thicknessMm : 0;
  return [
    refuse(
      'seam-flange-all-bend',
      ['seamFlange', 'radius'],
      `seamFlange ${figure(v.seamFlange)} of the ${which} is taken up by its bend of radius ${figure(v.insideRadiusMm)}, which takes ${figure(least - inside)}`,
      [orMore('seamFlange', least - inside)],
      'give a smaller radius',
    ),
  ];
};

/** Flanges over the sides that leave no side to be seen, or reach beyond it. */
const flangesMeet = (
  v: TankPlan,
  shape: Shape,
  sheet: Sheet,
  which: 'floor' | 'top',
): Finding[] => {
  if (sheet.seams[which] !== 'lapped') return [];
  const both = FACES.every((each) => sheet.seams[each] === 'lapped');
  if (both && which === 'top') return [];
  const depths = shape.low.map((at, i) => length3(sub3(shape.high[i] as Vec3, at)));
  const depth = Math.min(...depths);
  const flanges = both ? 2 : 1;
  const room = (depth - LEAST_MM) / flanges + v.thicknessMm;
  if (sheet.seamFlangeMm <= room) return [];
  const inside = v.measure === 'inside' ? v.thicknessMm : 0;
  return [
    refuse(
      'seam-flanges-meet',
      ['seamFlange'],
      `seamFlange ${figure(v.seamFlange)} leaves less than ${LEAST_MM} mm of ${sideName(depths.indexOf(depth))} to weld to, which is ${figure(depth)} high`,
      room - inside > 5 ? [orLess('seamFlange', room - inside)] : [],
      `give ${which === 'floor' ? 'floorSeam' : 'topSeam'} edge`,
    ),
  ];
};

/** Of a side so much is left beyond flanges that lie on it; a limit of this program. */
const LEAST_MM = 10;
