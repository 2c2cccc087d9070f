import { distance, figure, isOver, orLess, refuse, selfCrossing } from '../../src/template.ts';
import type { Finding, Vec2 } from '../../src/template.ts';
import type { TankSections } from './inputs.ts';
import { after, cornerDeg, loopOf, turnedRound } from './sections.ts';
import type { SectionAt } from './surface.ts';

/** The least turn of a corner that is a corner, and the most that leaves room for a torch. */
const LEAST_TURN_DEG = 5;
const MOST_TURN_DEG = 150;

/** Sections nearer to each other than this have no wall between them, mm; a limit of this program. */
const LEAST_APART_MM = 20;

/** The least length of a side inside, mm; a limit of this program. */
const LEAST_MM = 10;

/** Findings on what was measured, one after the other: those before tell what those after rely on. */
export const impossibleSections = (v: TankSections): Finding[] => {
  const given = v.sections;
  const [first] = given as [(typeof given)[number]];
  const unlike = given.filter(({ corners }) => corners.length !== first.corners.length);
  if (unlike.length > 0)
    return unlike.map(({ atMm, corners }) =>
      refuse(
        'sections-unlike',
        ['sections'],
        `sections has ${corners.length} corners at station ${figure(atMm)}, and ${first.corners.length} at ${figure(first.atMm)}`,
        [],
        `give it ${first.corners.length}, from the same corner on: a corner that is not there yet lies on the straight side, a little out of it`,
      ),
    );
  const order = given.slice(1).flatMap(({ atMm }, i) => {
    const before = (given[i] as (typeof given)[number]).atMm;
    return isOver(before + LEAST_APART_MM, atMm) ? [outOfOrder(before, atMm)] : [];
  });
  if (order.length > 0) return order;
  const sections = turnedRound(given);
  const wrong = sections.flatMap(impossibleSection);
  if (wrong.length > 0) return wrong;
  return v.seam > first.corners.length
    ? [
        refuse(
          'no-such-side',
          ['seam'],
          `seam names corner ${v.seam}, and the sections have ${first.corners.length}`,
          [orLess('seam', first.corners.length, 0)],
        ),
      ]
    : [];
};

const outOfOrder = (before: number, atMm: number): Finding =>
  refuse(
    'sections-out-of-order',
    ['sections'],
    `sections has station ${figure(atMm)} after ${figure(before)}`,
    [],
    atMm <= before
      ? 'give sections in the order of their stations, that of the lowest first'
      : `give one of them a station ${LEAST_APART_MM} mm or more from the other, or leave it out`,
  );

/** A section that crosses itself, or has a corner that is none. */
const impossibleSection = ({ atMm, corners }: SectionAt): Finding[] => {
  const where = `sections at station ${figure(atMm)}`;
  const tiny = corners.findIndex((p, i) => distance(p, after(corners, i)) < LEAST_MM);
  if (tiny >= 0)
    return [
      refuse(
        'section-corner',
        ['sections'],
        `corner ${tiny + 1} of ${where} lies less than ${LEAST_MM} mm from the next`,
        [],
        'leave one of them out in every section, or move them apart',
      ),
    ];
  const crossing = selfCrossing(loopOf(corners));
  if (crossing !== undefined)
    return [
      refuse(
        'walls-cross',
        ['sections'],
        `sides ${crossing.first + 1} and ${crossing.second + 1} of ${where} cross, near ${crossing.at.map((c) => figure(c)).join(',')}`,
        [],
        'give its corners in their order round it',
      ),
    ];
  return corners.flatMap((_, i) => {
    const turn = Math.abs(cornerDeg(corners, i));
    if (turn >= LEAST_TURN_DEG && turn <= MOST_TURN_DEG) return [];
    return [
      refuse(
        'section-corner',
        ['sections'],
        turn < LEAST_TURN_DEG
          ? `corner ${i + 1} of ${where} turns by ${figure(turn)} degrees, which is no corner`
          : `corner ${i + 1} of ${where} turns by ${figure(turn)} degrees, and no torch gets into it`,
        [],
        turn < LEAST_TURN_DEG
          ? `leave it out in every section, or give a turn of ${LEAST_TURN_DEG}`
          : `turn it by ${MOST_TURN_DEG} at most, or cut it off by two corners`,
      ),
    ];
  });
};

/** Halvings of a share after which it is known to a millionth. */
export const HALVINGS = 20;

/** Sections that have no inside of their own left, with the thickness that leaves them one. */
export const tooThin = (
  v: TankSections,
  isClear: (thicknessMm: number, clearanceMm: number) => boolean,
): Finding[] => {
  if (isClear(v.thicknessMm, v.clearance)) return [];
  const most = (what: (share: number) => boolean): number => {
    let [low, high] = [0, 1];
    if (!what(0)) return 0;
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (low + high) / 2;
      if (what(middle)) low = middle;
      else high = middle;
    }
    return low;
  };
  const clearance = v.clearance * most((share) => isClear(v.thicknessMm, share * v.clearance));
  const thickness = v.thicknessMm * most((share) => isClear(share * v.thicknessMm, v.clearance));
  return [
    refuse(
      'section-too-thin',
      ['sections', ...(v.clearance > 0 ? ['clearance'] : []), 'thickness'],
      `thickness ${figure(v.thicknessMm)}${v.clearance > 0 ? ` and clearance ${figure(v.clearance)}` : ''} leave less than ${LEAST_MM} mm of a side of sections inside, or of the length`,
      [
        ...(v.clearance > 0 && clearance > 0 ? [orLess('clearance', clearance)] : []),
        ...(thickness > 0 ? [orLess('thickness', thickness)] : []),
      ],
      'measure larger sections',
    ),
  ];
};

/** Whether each side of a section runs as it did before it was drawn in, and is no mere edge. */
export const hasInside = (sections: readonly SectionAt[], inside: readonly SectionAt[]): boolean =>
  sections.every(({ corners }, k) => {
    const own = (inside[k] as SectionAt).corners;
    return (
      selfCrossing(loopOf(own)) === undefined &&
      corners.every((p, i) => {
        const [a, b] = [own[i], after(own, i)] as [Vec2, Vec2];
        const to = after(corners, i);
        const long = distance(p, to);
        const along = ((b[0] - a[0]) * (to[0] - p[0]) + (b[1] - a[1]) * (to[1] - p[1])) / long;
        return along >= LEAST_MM;
      })
    );
  });
