import {
  atLeast,
  type Finding,
  figure,
  isOver,
  isUnder,
  just,
  orLess,
  orMore,
  orTry,
  refuse,
  wholeUp,
} from '../../src/template.ts';
import { overSheet } from './over-sheet.ts';
import type { Shell } from './inputs.ts';
import { type ShellSizes, xAt } from './sizes.ts';

/** Findings on figures that give no shell, each with one that does. */
export const impossibleShell = (v: Shell, s: ShellSizes): Finding[] => {
  const round = tooTight(v, s);
  if (round.length > 0) return round;
  const seam = [...flangeFindings(v, s), ...lapFindings(v, s)];
  return seam.length > 0 ? seam : [...sheetFindings(v, s), ...holeFindings(v, s)];
};

/** What is added to an inside radius to get the diameter as it was given. */
const asGiven = ({ diameterOf, thicknessMm: t }: Shell, insideMm: number): number =>
  2 * insideMm + { inside: 0, outside: 2 * t, middle: t }[diameterOf];

const tooTight = (v: Shell, s: ShellSizes): Finding[] =>
  isUnder(s.insideMm, v.thicknessMm)
    ? [
        refuse(
          'rolled-too-tight',
          ['diameter', 'thickness'],
          `diameter ${figure(v.diameter)} ${v.diameterOf} leaves an inside radius of ${figure(s.insideMm)}, less than the sheet is thick`,
          [orMore('diameter', asGiven(v, v.thicknessMm))],
        ),
      ]
    : [];

const flangeFindings = (v: Shell, s: ShellSizes): Finding[] => {
  if (v.flange === 0) return [];
  if (s.flange === undefined || s.aroundMm <= 0)
    return [
      orTry(
        refuse(
          'flange-over-round',
          ['flange', 'radius', 'diameter'],
          `the bends of flange ${figure(v.flange)} with radius ${figure(v.insideRadiusMm)} take all of the round`,
          [just('flange', 0)],
        ),
        'diameter',
        'radius',
      ),
    ];
  const least = s.flange.setbackMm;
  return isUnder(v.flange, least + v.thicknessMm)
    ? [
        refuse(
          'flange-too-narrow',
          ['flange'],
          `flange ${figure(v.flange)} is all bend, which takes ${figure(least)} of it`,
          [orMore('flange', least + v.thicknessMm), just('flange', 0)],
        ),
      ]
    : [];
};

/** A lap over a quarter of its piece would be a second wall. */
const lapFindings = (v: Shell, s: ShellSizes): Finding[] => {
  if (v.seam === 'lap' && !s.hasLap)
    return [
      refuse(
        'lap-without-seam',
        ['seam', s.isClosed ? 'flange' : 'arc'],
        s.isClosed
          ? `seam lap is for a shell without flanges, and flange is ${figure(v.flange)}`
          : `seam lap is for a whole cylinder, and arc is ${figure(v.arc)}`,
        [just('seam', 'butt'), s.isClosed ? just('flange', 0) : just('arc', 360)],
      ),
    ];
  const most = (s.aroundMm - v.lap) / 4;
  return s.hasLap && isOver(v.lap, most)
    ? [
        refuse('lap-too-long', ['lap'], `lap ${figure(v.lap)} goes more than a quarter round`, [
          orLess('lap', most),
          just('seam', 'butt'),
        ]),
      ]
    : [];
};

/** Length of the blank of a piece along the way in which it is rolled. */
export const blankMm = (v: Shell, s: ShellSizes): number =>
  s.aroundMm + (s.flange === undefined ? 0 : 2 * v.flange);

const MOST_PIECES = 24;

const sheetFindings = (v: Shell, s: ShellSizes): Finding[] =>
  overSheet(blankMm(v, s), v.sheetLength, () => {
    const more = blankMm(v, s) - s.aroundMm + (s.hasLap ? v.lap : 0);
    const room = (v.sheetLength as number) - more;
    const pieces = wholeUp((v.pieces * (s.aroundMm - (s.hasLap ? v.lap : 0))) / room);
    return room > 0 && pieces <= MOST_PIECES ? pieces : undefined;
  });

const holeFindings = (v: Shell, s: ShellSizes): Finding[] =>
  v.holes.flatMap(({ angleDeg, diameterMm }, i): Finding[] => {
    const called = `holes ${i + 1}`;
    if (!isUnder(diameterMm, 2 * s.insideMm))
      return [
        refuse(
          'hole-over-round',
          ['holes', 'diameter'],
          `${called}, ${figure(diameterMm)} across, is as wide as the shell, ${figure(2 * s.insideMm)} inside`,
          [],
          'give a smaller hole',
        ),
      ];
    const half = s.middleMm * Math.asin(diameterMm / 2 / s.insideMm);
    const deg = ((angleDeg % 360) + 360) % 360;
    const x = xAt(s, deg % s.pieceDeg);
    if (deg > v.arc)
      return [
        refuse(
          'hole-over-seam',
          ['holes', 'arc'],
          `${called} lies at ${figure(angleDeg)} deg, and the wall ends at arc ${figure(v.arc)}`,
          [],
          'give it an angle on the wall',
        ),
      ];
    const room = s.hasLap ? s.aroundMm - v.lap : s.aroundMm;
    // Under the lap the other end covers what lies at its beginning.
    const first = s.hasLap ? v.lap : 0;
    if (x - half >= first && x + half <= room) return [];
    const least = ((half + first + s.gapMm / 2) / s.middleMm / Math.PI) * 180;
    return [
      refuse(
        'hole-over-seam',
        ['holes'],
        `${called} at ${figure(angleDeg)} deg reaches over ${s.isClosed || v.pieces > 1 ? 'the seam' : 'the edge of the wall'}`,
        [],
        `keep it ${atLeast(least, 1)} deg from there, or turn the whole so that the seam lies elsewhere`,
      ),
    ];
  });
