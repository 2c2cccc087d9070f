import type { SurveyResult } from '../../contract/survey.ts';
import { DISTANCES_ALLOWED, readDistances } from '../../forms/distances.ts';
import { shown } from '../../forms/given.ts';
import type { InputProblem } from '../../forms/problem.ts';
import { solveDistances } from '../../survey/solve.ts';
import { surveyFindings } from '../../survey/verdicts.ts';
import type { Done, Refused } from '../use-case.ts';

export interface SurveyRequest {
  /** Name of the distances in messages. */
  readonly name: string;
  /**
   * A text with one distance or side a line and `#` before remarks, or the same as values by name.
   */
  readonly given: string | Readonly<Record<string, unknown>>;
}

export const SURVEY_ALLOWED = `a text file of ${DISTANCES_ALLOWED}, '#' before remarks; or a YAML or JSON file with the same under distances and sides, or by name`;

/**
 * Coordinates of named points from the distances between them, the residual of each distance, and
 * findings: a `stop` where they leave a point loose or contradict each other. It never throws.
 */
export function surveyDistances({ name, given }: SurveyRequest): Refused | Done<SurveyResult> {
  const problems: InputProblem[] = [];
  const text =
    typeof given === 'string'
      ? given.replace(/#.*$/gm, '')
      : linesOf(given, (value, of) =>
          problems.push({
            input: 'file',
            given: `${shown(value)} as ${shown(of)} in ${name}`,
            allowed: SURVEY_ALLOWED,
            mend: 'write a length or a side',
          }),
        );
  if (problems.length > 0) return { ok: false, problems };
  const read = readDistances(text);
  if (!read.ok) {
    const { given: wrong = 'nothing', allowed = DISTANCES_ALLOWED, mend } = read;
    const problem = { input: 'file', given: `${wrong} in ${name}`, allowed };
    return { ok: false, problems: [{ ...problem, ...(mend !== undefined && { mend }) }] };
  }
  const survey = solveDistances(read.value.distances, { sides: read.value.sides });
  const findings = surveyFindings(survey);
  const { points, residuals, rmsMm, suspect, loose, weak, mirrors } = survey;
  const result = { points, residuals, rmsMm, suspect, loose, weak, mirror: mirrors, findings };
  return { ok: true, result, findings, files: [] };
}

/**
 * Names and values of a file, including those under `distances` and `sides`, as lines of the text
 * notation.
 */
const linesOf = (
  given: Readonly<Record<string, unknown>>,
  refuse: (value: unknown, name: string) => void,
): string =>
  Object.entries(given)
    .map(([name, value]) => {
      const isGroup = name === 'distances' || name === 'sides';
      if (isGroup && Array.isArray(value) && value.every((v) => typeof v === 'string'))
        return value.join('\n');
      if (isGroup && typeof value === 'string') return value;
      if (isGroup && typeof value === 'object' && value !== null && !Array.isArray(value))
        return linesOf(value as Record<string, unknown>, refuse);
      if (typeof value === 'string' || typeof value === 'number') return `${name}: ${value}`;
      refuse(value, name);
      return '';
    })
    .join('\n');
