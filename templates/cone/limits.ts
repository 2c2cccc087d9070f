import {
  atLeast,
  type Finding,
  figure,
  isOver,
  isUnder,
  just,
  loopExtents,
  orLess,
  orMore,
  orTry,
  refuse,
} from '../../src/template.ts';
import { outlineOf } from './outline.ts';
import { type ConeSizes, coneSizes, flatPiece, kindsOf } from './sizes.ts';
import type { Cone } from './inputs.ts';

/** Ends that differ by less than this have their apex so far away that it is a cylinder, mm. */
const LEAST_TAPER_MM = 1;

/** Findings on figures that give no cone, each with one that does. */
export const impossibleCone = (v: Cone): Finding[] => {
  if (isUnder(v.largeDiameter - v.smallDiameter, LEAST_TAPER_MM))
    return [
      refuse(
        'cone-without-taper',
        ['smallDiameter', 'largeDiameter'],
        `smallDiameter ${figure(v.smallDiameter)} is not smaller than largeDiameter ${figure(v.largeDiameter)} by ${LEAST_TAPER_MM} or more`,
        [
          ...(v.largeDiameter - LEAST_TAPER_MM >= 2
            ? [orLess('smallDiameter', v.largeDiameter - LEAST_TAPER_MM)]
            : []),
          orMore('largeDiameter', v.smallDiameter + LEAST_TAPER_MM),
        ],
        'take a shell, where both ends are alike',
      ),
    ];
  const s = coneSizes(v);
  if (isUnder(s.smallRadiusMm - v.thicknessMm / 2, v.thicknessMm))
    return [
      refuse(
        'rolled-too-tight',
        ['smallDiameter', 'thickness'],
        `smallDiameter ${figure(v.smallDiameter)} ${v.diameterOf} leaves an inside radius of ${figure(s.smallRadiusMm - v.thicknessMm / 2)}, less than the sheet is thick`,
        // However the wall leans, a face lies half a thickness from its middle at most.
        [orMore('smallDiameter', (v.diameterOf === 'outside' ? 4 : 3) * v.thicknessMm)],
      ),
    ];
  return [...seamFindings(v, s), ...sheetFindings(v, s)];
};

/** A seam that takes more than an eighth of a piece is none. */
const seamFindings = (v: Cone, s: ConeSizes): Finding[] => {
  const most = (2 * Math.PI * s.smallRadiusMm) / v.pieces / 8;
  const name = v.seam === 'lap' ? 'lap' : 'cornerGap';
  const given = v.seam === 'lap' ? v.lap : v.cornerGapMm;
  return isOver(given, most)
    ? [
        orTry(
          refuse(
            'seam-over-cone',
            [name, 'smallDiameter'],
            `${name} ${figure(given)} takes more than an eighth of the small end of a piece`,
            [orLess(name, most), ...(v.seam === 'lap' ? [just('seam', 'butt')] : [])],
          ),
          'smallDiameter',
        ),
      ]
    : [];
};

/** The longer side of the largest blank. */
const blankMm = (v: Cone, s: ConeSizes): number =>
  Math.max(
    ...Array.from({ length: kindsOf(v) }, (_, i) => {
      const box = loopExtents(outlineOf(s, flatPiece(v, s, i)));
      return box === undefined ? 0 : Math.max(box.maxX - box.minX, box.maxY - box.minY);
    }),
  );

const MOST_PIECES = 12;

const sheetFindings = (v: Cone, s: ConeSizes): Finding[] => {
  if (v.sheetLength === undefined) return [];
  const long = blankMm(v, s);
  if (!isOver(long, v.sheetLength)) return [];
  const fits = Array.from({ length: MOST_PIECES }, (_, i) => i + 1).find(
    (pieces) => pieces > v.pieces && !isOver(blankMm({ ...v, pieces }, s), v.sheetLength as number),
  );
  return [
    refuse(
      'wall-over-sheet',
      ['sheetLength', 'pieces'],
      `the blank is ${atLeast(long)} long, and sheetLength is ${figure(v.sheetLength)}`,
      [...(fits === undefined ? [] : [orMore('pieces', fits, 0)]), orMore('sheetLength', long)],
    ),
  ];
};
