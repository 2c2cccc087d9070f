import {
  type Finding,
  figure,
  flatDeg,
  isOver,
  isUnder,
  just,
  lineMm,
  loopExtents,
  orLess,
  orMore,
  orTry,
  refuse,
  sinDeg,
} from '../../src/template.ts';
import { overSheet } from '../shell/over-sheet.ts';
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
  const seam = seamFindings(v, s);
  return seam.length > 0 ? seam : [...flatnessFindings(v, s), ...sheetFindings(v, s)];
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

/**
 * The room in the flat between the two edges of a blank at its small end, where it is least: what is
 * left of the round about the apex; less than nothing where they lie over each other.
 */
const roomMm = (v: Cone): number => {
  const s = coneSizes(v);
  const { from, small } = flatPiece(v, s, 0);
  const left = 360 - flatDeg(s.surface, small[0], small[1]);
  // Beyond half of the round the edges are farthest apart.
  const reach = s.smallShare * lineMm(s.surface, from);
  return 2 * reach * sinDeg(Math.min(left, 180) / 2);
};

/** A flat cone takes all of the round about its apex: with a lap, more than there is. */
const flatnessFindings = (v: Cone, s: ConeSizes): Finding[] => {
  const room = v.pieces > 1 ? Infinity : roomMm(v);
  if (!isUnder(room, v.thicknessMm)) return [];
  const passes = (more: Partial<Cone>): boolean =>
    !isUnder(roomMm({ ...v, ...more }), v.thicknessMm);
  const name = v.seam === 'lap' ? 'lap' : 'cornerGap';
  const most = v.seam === 'lap' ? turning(v.lap, 1, (lap) => passes({ lap })) : undefined;
  const height = turning(v.height, MOST_HEIGHT_MM, (h) => passes({ height: h }));
  const inTwo = { ...v, pieces: 2 };
  return [
    refuse(
      'cone-too-flat',
      ['height', name],
      `height ${figure(v.height)} is so little that the two edges of the blank, laid flat, ${room > 0 ? `lie ${figure(room)} apart, less than the sheet is thick` : `lie over each other by ${figure(-room)}`}`,
      [
        ...(seamFindings(inTwo, s).length === 0 ? [orMore('pieces', 2, 0)] : []),
        ...(height === undefined ? [] : [orMore('height', height)]),
        ...(most === undefined ? [] : [orLess('lap', most)]),
      ],
    ),
  ];
};

const MOST_HEIGHT_MM = 6000;

/** Where a figure between one that does not pass and one that may begins to, found by halving. */
const turning = (
  fails: number,
  may: number,
  passes: (value: number) => boolean,
): number | undefined => {
  if (!passes(may)) return undefined;
  let [bad, good] = [fails, may];
  for (let i = 0; i < 60; i++) {
    const middle = (bad + good) / 2;
    if (passes(middle)) good = middle;
    else bad = middle;
  }
  return good;
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

const sheetFindings = (v: Cone, s: ConeSizes): Finding[] =>
  overSheet(v.sheetLength === undefined ? 0 : blankMm(v, s), v.sheetLength, () =>
    Array.from({ length: MOST_PIECES }, (_, i) => i + 1).find(
      (pieces) =>
        pieces > v.pieces && !isOver(blankMm({ ...v, pieces }, s), v.sheetLength as number),
    ),
  );
