import type { Finding } from '../model/finding.ts';
import type { Survey } from '../survey/survey.ts';

/** The JSON document of `trilaterate --json`. Figures keep a millionth of a millimetre. */
export interface SurveyResult extends Pick<
  Survey,
  'points' | 'residuals' | 'rmsMm' | 'suspect' | 'loose' | 'weak'
> {
  readonly mirror: Survey['mirrors'];
  readonly findings: readonly Finding[];
}
