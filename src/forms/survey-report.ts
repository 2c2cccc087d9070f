import { figure } from '../text/figures.ts';
import type { Finding } from '../model/finding.ts';
import type { ReportFigure } from '../contract/report.ts';
import { surveyFindings } from '../survey/verdicts.ts';
import type { GivenPoints } from './points.ts';

/** Findings on points that came from tape distances; none for points given by coordinates. */
export const pointFindings = ({ survey }: GivenPoints): readonly Finding[] =>
  survey === null ? [] : surveyFindings(survey);

/** Difference between every distance and what was measured. */
export const residualFigures = ({ survey }: GivenPoints): readonly ReportFigure[] =>
  (survey?.residuals ?? []).map(({ from, to, residualMm, measuredMm }): ReportFigure => ({
    name: `residual of ${from}-${to}`,
    value: residualMm,
    unit: 'mm',
    about: `Found less measured; measured was ${figure(measuredMm)} mm.`,
  }));
