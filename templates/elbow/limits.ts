import {
  type Finding,
  figure,
  isOver,
  isUnder,
  just,
  note,
  orLess,
  orMore,
  orTry,
  refuse,
  wholeUp,
} from '../../src/template.ts';
import { overSheet } from '../shell/over-sheet.ts';
import { aroundMm, type ElbowSizes, riseMm } from './sizes.ts';
import type { Elbow } from './inputs.ts';

/** Findings on figures that give no elbow, each with one that does. */
export const impossibleElbow = (v: Elbow, s: ElbowSizes): Finding[] => {
  if (isUnder(s.insideMm, v.thicknessMm)) {
    const more = { inside: 0, outside: 2, middle: 1 }[v.diameterOf] * v.thicknessMm;
    return [
      refuse(
        'rolled-too-tight',
        ['diameter', 'thickness'],
        `diameter ${figure(v.diameter)} ${v.diameterOf} leaves an inside radius of ${figure(s.insideMm)}, less than the sheet is thick`,
        [orMore('diameter', 2 * v.thicknessMm + more)],
      ),
    ];
  }
  return [
    ...backsetFindings(v, s),
    ...throatFindings(v, s),
    ...seamFindings(v, s),
    ...sheetFindings(v, s),
  ];
};

/** Flatter mitres than this have no edge to weld. */
const MOST_BACKSET_DEG = 60;

const backsetFindings = (v: Elbow, s: ElbowSizes): Finding[] =>
  isOver(s.backsetDeg, MOST_BACKSET_DEG)
    ? [
        refuse(
          'elbow-too-few-segments',
          ['segments', 'angle'],
          `segments ${v.segments} for angle ${figure(v.angle)} have ends that slope by ${figure(s.backsetDeg)} deg`,
          [
            orMore('segments', Math.ceil(v.angle / (2 * MOST_BACKSET_DEG)) + 1, 0),
            orLess('angle', 2 * (v.segments - 1) * MOST_BACKSET_DEG),
          ],
        ),
      ]
    : [];

/** Least length of a segment at its throat, in thicknesses: two welds lie beside each other there. */
const LEAST_THROAT = 3;

const throatFindings = (v: Elbow, s: ElbowSizes): Finding[] => {
  const half = (s.centreMm - s.outsideMm) * s.backset;
  const ofMiddle = v.segments > 2 ? 2 * half : half + v.stub;
  const least = LEAST_THROAT * v.thicknessMm;
  if (!isUnder(ofMiddle, least) && !isUnder(half + v.stub, least)) return [];
  const radius =
    s.outsideMm +
    Math.max(v.segments > 2 ? least / (2 * s.backset) : 0, (least - v.stub) / s.backset);
  return [
    orTry(
      refuse(
        'throat-too-narrow',
        ['centreRadius', 'diameter'],
        `centreRadius ${figure(s.centreMm)} leaves ${figure(Math.min(ofMiddle, half + v.stub))} mm of a segment at the throat, outside`,
        [orMore('centreRadius', radius)],
      ),
      'segments',
      'stub',
    ),
  ];
};

const seamFindings = (v: Elbow, s: ElbowSizes): Finding[] => {
  const most = (2 * Math.PI * s.middleMm) / v.pieces / 8;
  const [name, given] =
    v.seam === 'lap' ? (['lap', v.lap] as const) : (['cornerGap', v.cornerGapMm] as const);
  return isOver(given, most)
    ? [
        refuse(
          'lap-too-long',
          [name],
          `${name} ${figure(given)} takes more than an eighth of the round${v.pieces > 1 ? ' of a piece' : ''}`,
          [orLess(name, most), ...(v.seam === 'lap' ? [just('seam', 'butt')] : [])],
        ),
      ]
    : [];
};

const MOST_PIECES = 12;

/** A segment may be longer at its back than it goes round; then no more pieces make it shorter. */
const sheetFindings = (v: Elbow, s: ElbowSizes): Finding[] => {
  const half = riseMm(s, 0);
  const high = Math.max(v.stub + half, v.segments > 2 ? 2 * half : 0);
  return overSheet(Math.max(aroundMm(v, s), high), v.sheetLength, () => {
    const room = (v.sheetLength as number) - (v.seam === 'lap' ? v.lap : -v.cornerGapMm);
    const pieces = wholeUp((2 * Math.PI * s.middleMm) / room);
    return room > 0 && pieces <= MOST_PIECES && !isOver(high, v.sheetLength as number)
      ? pieces
      : undefined;
  });
};

/** Less than this many diameters cost the air dear (common practice: one and a half). */
const TIGHT_DIAMETERS = 1;

/** What air dislikes can be made. */
export const remarks = (s: ElbowSizes): Finding[] =>
  isUnder(s.centreMm, TIGHT_DIAMETERS * 2 * s.middleMm)
    ? [
        note(
          'tight-elbow',
          `centreRadius ${figure(s.centreMm)} is less than the diameter: the air leaves the throat. One and a half diameters, ${figure(3 * s.middleMm, 0)}, are usual where there is room.`,
        ),
      ]
    : [];
