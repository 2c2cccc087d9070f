import { figure } from '../text/figures.ts';
import { type Finding, note, stop, warn } from '../model/finding.ts';
import type { Contradiction, Mirror, SideStatement, Survey, Suspect, WeakPoint } from './survey.ts';

/**
 * What the maker of a part should know about a survey. A set that fixes no point, or contradicts
 * itself, is a stop.
 */
export const surveyFindings = (survey: Survey): Finding[] => [
  ...survey.contradictions.map(contradiction),
  ...loose(survey),
  ...(survey.suspect === null ? [] : [suspect(survey.suspect, survey.rmsMm)]),
  ...(survey.contradictions.length > 0 ? [] : survey.weak.map(weak)),
  ...survey.unkept.map(unkept),
  ...(survey.otherFigure ? [OTHER_FIGURE] : []),
  ...survey.mirrors.map(mirror),
  fit(survey),
];

const contradiction = ({ from, to, measuredMm, way, wayMm }: Contradiction): Finding =>
  stop(
    'survey-contradiction',
    `${from}-${to} is given as ${figure(measuredMm)} mm, but ${way.join('-')} comes to ${figure(wayMm)} mm only, and no straight line is longer than a way round. Measure again: ${from}-${to} must be ${figure(wayMm)} mm or less, or the others longer.`,
  );

function loose({ loose: points, missing, points: pinned }: Survey): Finding[] {
  if (points.length === 0) return [];
  const named = (why: 'apart' | 'swings'): string =>
    points
      .filter((p) => p.why === why)
      .map((p) => p.name)
      .join(', ');
  const [apart, swings] = [named('apart'), named('swings')];
  const body = pinned.map((p) => p.name).join(', ');
  const said = [
    ...(apart === '' ? [] : [`No distance leads from ${body} to ${apart}.`]),
    ...(swings === '' ? [] : [`Still free to swing about ${body}: ${swings}.`]),
  ];
  const more = missing === 1 ? 'One more distance is' : `${missing} more distances are`;
  return [
    stop(
      'survey-loose',
      `The distances do not pin the figure down. ${said.join(' ')} ${more} needed at least; a point is fixed by its distances from two that are.`,
    ),
  ];
}

function suspect(
  { from, to, measuredMm, wouldBeMm, rmsWithoutMm, rivals }: Suspect,
  rmsMm: number,
): Finding {
  const falls = `the residuals fall from ${figure(rmsMm)} to ${figure(rmsWithoutMm)} mm (root mean square)`;
  if (rivals.length === 0) {
    return warn(
      'survey-suspect',
      `${from}-${to} disagrees most: given ${figure(measuredMm)} mm, where the other distances make it ${figure(wouldBeMm)} mm. Without it ${falls}. Measure it again.`,
    );
  }
  const all = [{ from, to }, ...rivals].map((r) => `${r.from}-${r.to}`).join(', ');
  return warn(
    'survey-suspect',
    `The distances disagree, and too few of them check each other to tell which one is wrong: without any one of ${all} ${falls}. Measure these again, or one distance more.`,
  );
}

const weak = ({ name, mmPerMm }: WeakPoint): Finding =>
  warn(
    'survey-weak',
    `${name} lies nearly in line with the points it is measured from: 1 mm on the tape moves it about ${figure(mmPerMm, 0)} mm${mmPerMm >= 1000 ? ' or more' : ''}. Measure it from a point well off that line as well.`,
  );

const unkept = ({ from, to, point, side }: SideStatement): Finding =>
  warn(
    'survey-side',
    `${from}-${to}-${point}: ${side} does not go with the distances and the other statements: ${point} does not lie ${side} of ${from}->${to}. Check the distances, or write ${side === 'left' ? 'right' : 'left'}.`,
  );

const OTHER_FIGURE = warn(
  'survey-other-figure',
  'Another figure, not only a mirror image of a part, fits these distances as well. Measure one more, between points that are far apart and not tied yet.',
);

const WHY = {
  stated: 'as stated',
  fit: 'which fits a little better',
  default: 'as nothing else was said',
} as const;

const mirror = ({ points, from, to, side, why, whole, otherwise }: Mirror): Finding => {
  const subject = whole
    ? `The whole figure was taken with ${otherwise.split(/[-:]/)[2]}`
    : `${points.join(', ')} ${points.length === 1 ? 'was' : 'were'} taken to lie`;
  const relative = whole
    ? `to the ${side} of`
    : points.length === 1
      ? `${side} of`
      : `so that ${points[0]} is ${side} of`;
  return note(
    'survey-mirror',
    `${subject} ${relative} ${from}->${to}, ${WHY[why]}. The distances allow the mirror image too: for that write ${otherwise}.`,
  );
};

function fit({ residuals, rmsMm, redundancy }: Survey): Finding {
  const largest = residuals.reduce((p, q) =>
    Math.abs(q.residualMm) > Math.abs(p.residualMm) ? q : p,
  );
  if (redundancy <= 0)
    return note(
      'survey-fit',
      'No distance is to spare, so nothing checks the readings. One more between points not tied yet would show a slip.',
    );
  return note(
    'survey-fit',
    `${redundancy} ${redundancy === 1 ? 'distance' : 'distances'} more than needed; residuals ${figure(rmsMm)} mm root mean square, the largest ${figure(largest.residualMm)} mm at ${largest.from}-${largest.to}.`,
  );
}
