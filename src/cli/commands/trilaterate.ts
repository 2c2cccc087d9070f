import { inLines } from '../terminal.ts';
import { hasStop } from '../../model/finding.ts';
import { SURVEY_ALLOWED, surveyDistances } from '../../use/survey/survey-distances.ts';
import { surveyText } from '../../use/survey/survey-text.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { wordOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { readInputsFile } from '../read-inputs-file.ts';
import { readTextFile } from '../read-text-file.ts';
import type { RunCommand } from './index.ts';

export const TRILATERATE_USAGE = 'trilaterate FILE';

const WANTED = {
  input: 'file',
  allowed: SURVEY_ALLOWED,
  tooLarge: 'give the distances of one part only',
};

/**
 * `trilaterate FILE`: coordinates of named points from tape distances, the residual of each, and
 * findings. JSON: `SurveyResult`. When a point is left loose, or the distances contradict each
 * other, the command ends as for a part that cannot be made.
 */
export const trilaterate = async (
  path: string,
  json: boolean,
  { out }: Console,
): Promise<number> => {
  const isNamed = /\.(?:ya?ml|json)$/i.test(path);
  const given = isNamed ? await readInputsFile(path) : await readTextFile(path, WANTED);
  const survey = surveyDistances({ name: path, given });
  if (!survey.ok) throw new WrongInput(survey.problems);
  out(json ? JSON.stringify(survey.result, rounded) : inLines(surveyText(survey.result)));
  return hasStop(survey.findings) ? EXIT.stopped : EXIT.made;
};

/**
 * The value rounded to a millionth of a millimetre, since anything below is noise of the
 * arithmetic.
 */
const rounded = (_: string, value: unknown): unknown =>
  typeof value === 'number' ? Math.round(value * 1e6) / 1e6 + 0 : value;

export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, { usage: TRILATERATE_USAGE, flags: {}, words: 2 });
  if (flags === undefined) return EXIT.made;
  const file = wordOf(flags);
  if (file === undefined)
    throw new WrongInput([
      {
        input: 'file',
        given: 'nothing',
        allowed: `the name of a file of distances: blankwright ${TRILATERATE_USAGE}`,
        mend: 'write one distance a line in it, such as A-B: 312',
      },
    ]);
  return trilaterate(file, flags['json'] === true, console);
};
