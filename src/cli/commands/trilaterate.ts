import { withRule } from '../../model/finding-line.ts';
import { createReadStream } from 'node:fs';
import { figure } from '../../text/figures.ts';
import { DISTANCES_ALLOWED, type GivenDistances, readDistances } from '../../forms/distances.ts';
import { shown } from '../../forms/given.ts';
import { type Finding, hasStop } from '../../model/finding.ts';
import { solveDistances } from '../../survey/solve.ts';
import type { Survey } from '../../survey/survey.ts';
import { surveyFindings } from '../../survey/verdicts.ts';
import type { Console } from '../console.ts';
import { EXIT, readingReason, WrongInput } from '../failure.ts';
import { readInputsFile } from '../read-inputs-file.ts';
import { wordOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import type { RunCommand } from './index.ts';

export const TRILATERATE_USAGE = 'trilaterate FILE';

const ALLOWED = `a text file of ${DISTANCES_ALLOWED}, '#' before remarks; or a YAML or JSON file with the same under distances and sides, or by name`;

/**
 * `trilaterate FILE`: coordinates of named points out of tape distances, the residual of each, and
 * what to make of it. JSON:
 * `{"points","residuals","rmsMm","suspect","loose","weak","mirror","findings"}`, of `Survey`. A set
 * that leaves a point loose, or contradicts itself, ends as a part that cannot be made does.
 */
export const trilaterate = async (
  path: string,
  json: boolean,
  { out }: Console,
): Promise<number> => {
  const { distances, sides } = await readFile(path);
  const survey = solveDistances(distances, { sides });
  const findings = surveyFindings(survey);
  out(json ? surveyJson(survey, findings) : surveyText(survey, findings));
  return hasStop(findings) ? EXIT.stopped : EXIT.made;
};

const refuse = (given: string, allowed: string, mend: string | undefined): never => {
  throw new WrongInput([{ input: 'file', given, allowed, ...(mend !== undefined && { mend }) }]);
};

const readFile = async (path: string): Promise<GivenDistances> => {
  const isNamed = /\.(?:ya?ml|json)$/i.test(path);
  const text = isNamed
    ? linesOf(await readInputsFile(path), path)
    : (await readText(path)).replace(/#.*$/gm, '');
  const read = readDistances(text);
  if (read.ok) return read.value;
  return refuse(
    `${read.given ?? 'nothing'} in ${path}`,
    read.allowed ?? DISTANCES_ALLOWED,
    read.mend,
  );
};

/**
 * Names and values of a file, those under `distances` and `sides` included, as lines of the text
 * notation.
 */
const linesOf = (given: Readonly<Record<string, unknown>>, path: string): string =>
  Object.entries(given)
    .map(([name, value]) => {
      const isGroup = name === 'distances' || name === 'sides';
      if (isGroup && Array.isArray(value) && value.every((v) => typeof v === 'string'))
        return value.join('\n');
      if (isGroup && typeof value === 'string') return value;
      if (isGroup && typeof value === 'object' && value !== null && !Array.isArray(value))
        return linesOf(value as Record<string, unknown>, path);
      if (typeof value === 'string' || typeof value === 'number') return `${name}: ${value}`;
      return refuse(
        `${shown(value)} as ${shown(name)} in ${path}`,
        ALLOWED,
        'write a length or a side',
      );
    })
    .join('\n');

const LARGEST_BYTES = 100_000;

const readText = async (path: string): Promise<string> => {
  const parts: Buffer[] = [];
  try {
    // The end is asked for, since a pipe or a device tells no size and may never end.
    for await (const part of createReadStream(path, { end: LARGEST_BYTES }))
      parts.push(part as Buffer);
  } catch (error) {
    return refuse(path, ALLOWED, `it cannot be read: ${readingReason(error)}`);
  }
  const bytes = Buffer.concat(parts);
  if (bytes.length > LARGEST_BYTES)
    return refuse(
      `${path}, which is larger`,
      `a file of at most ${LARGEST_BYTES} bytes`,
      'give the distances of one part only',
    );
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return refuse(`${path}, which is not UTF-8 text`, ALLOWED, 'save it as UTF-8');
  }
};

/** Figures in JSON keep a millionth of a millimetre; what lies below is noise of the arithmetic. */
const surveyJson = (
  { points, residuals, rmsMm, suspect, loose, weak, mirrors }: Survey,
  findings: readonly Finding[],
): string =>
  JSON.stringify(
    { points, residuals, rmsMm, suspect, loose, weak, mirror: mirrors, findings },
    (_, value: unknown) => (typeof value === 'number' ? Math.round(value * 1e6) / 1e6 + 0 : value),
  );

const surveyText = (survey: Survey, findings: readonly Finding[]): string => {
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
    ...findings.map((f) => `${f.severity.padEnd(5)} ${withRule(f)}`),
  ].join('\n');
};

const fixed = (value: number, width: number): string => {
  const text = value.toFixed(2);
  return (text === '-0.00' ? '0.00' : text).padStart(width);
};

export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, { usage: TRILATERATE_USAGE, flags: {}, words: 2 });
  if (flags === undefined) return EXIT.made;
  const file =
    wordOf(flags) ??
    refuse(
      'nothing',
      `the name of a file of distances: blankwright ${TRILATERATE_USAGE}`,
      'write one distance a line in it, such as A-B: 312',
    );
  return trilaterate(file, flags['json'] === true, console);
};
