import { withRule } from '../../model/finding-line.ts';
import type { SurveyResult } from '../../contract/survey.ts';
import { figure } from '../../text/figures.ts';

/** Points, how the distances fit, and what to make of both, as a person reads it. */
export const surveyText = (survey: SurveyResult): string => {
  const widest = Math.max(...survey.points.map((p) => p.name.length));
  const places = survey.points.map(
    (p) => `  ${p.name.padEnd(widest)}  ${fixed(p.x, 10)} ${fixed(p.y, 10)}`,
  );
  const pairs = survey.residuals.map((r) => `${r.from}-${r.to}`);
  const wide = Math.max(...pairs.map((p) => p.length), 'distance'.length);
  const fits = survey.residuals.map(
    (r, i) =>
      `  ${(pairs[i] as string).padEnd(wide)} ${fixed(r.measuredMm, 10)} ${fixed(r.foundMm, 10)} ${fixed(r.residualMm, 10)}`,
  );
  return [
    'Points that are pinned down, x and y in mm',
    ...places,
    '',
    `  ${'distance'.padEnd(wide)}   measured      found  found - measured`,
    ...fits,
    `Residuals: ${figure(survey.rmsMm)} mm root mean square`,
    '',
    ...survey.findings.map((f) => `${f.severity.padEnd(5)} ${withRule(f)}`),
  ].join('\n');
};

const fixed = (value: number, width: number): string => {
  const text = value.toFixed(2);
  return (text === '-0.00' ? '0.00' : text).padStart(width);
};
