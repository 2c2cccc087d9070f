import type { InputProblem } from '../forms/problem.ts';
import { readDocument } from '../forms/read-document.ts';
import { shown } from '../forms/given.ts';
import { describeInputs } from '../forms/read.ts';
import type { Template } from '../forms/template.ts';
import type { JobFile, JobPart } from './job-file.ts';
import { measurementsOf } from './measurements.ts';
import { type JobEntries, jobSchema, PART_NAMES } from './schema.ts';
import { type PlaceOf, readPart } from './part.ts';
import { JOB_WORDS, readJobSoFar } from './so-far.ts';

export type ReadJob =
  | { readonly ok: true; readonly job: JobFile }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

/**
 * Reads the text of a job file. Every problem is told at once, with the line and column of the
 * value: problems of the file itself, of its measurements, and of the inputs of every part. It
 * never throws, whatever the text.
 */
export function readJob(text: string, families: ReadonlyMap<string, Template>): ReadJob {
  const read = readDocument(text, jobSchema, JOB_WORDS);
  if (!read.ok)
    return {
      ok: false,
      problems: [
        ...read.problems.map((problem) => asInput(problem, families)),
        ...readJobSoFar(text, families)
          .parts.flatMap(({ problems }) => problems)
          .filter(({ input }) => read.problems.every((told) => told.input !== input)),
      ],
    };
  const { value: entries, placeOf } = read;
  const measured = measurementsOf(entries.measurements);
  const problems: InputProblem[] = measured.problems.map(({ name, allowed, mend }) => ({
    input: `measurements.${name}`,
    given: `${shown(entries.measurements[name])} at ${placeOf(['measurements', name], 'value')}`,
    allowed,
    ...(mend !== undefined && { mend }),
  }));
  const parts = entries.parts.map((part, i) =>
    readPart(part, i, { entries, families, values: measured.values, placeOf, problems }),
  );
  problems.push(...sameFolders(parts, entries, placeOf));
  if (problems.length > 0) return { ok: false, problems };
  const {
    title,
    shop,
    defaults: { out, papers, paper, sizes, date, printUnits },
  } = entries;
  return { ok: true, job: { title, shop, out, papers, paper, sizes, date, printUnits, parts } };
}

/** Where a name beside the inputs of a part is that of an input, it is told where it belongs. */
function asInput(problem: InputProblem, families: ReadonlyMap<string, Template>): InputProblem {
  const [, name = ''] = /^parts\[\d+\]\.(\w+)$/.exec(problem.input) ?? [];
  const isInput =
    !PART_NAMES.includes(name) &&
    [...families.values()].some((f) => describeInputs(f).some((input) => input.name === name));
  return isInput ? { ...problem, mend: `write ${name} under inputs` } : problem;
}

/**
 * Parts that would be written into the same folder; upper and lower case count as equal, as they do
 * on some disks.
 */
function sameFolders(
  parts: readonly JobPart[],
  { parts: entries }: JobEntries,
  placeOf: PlaceOf,
): InputProblem[] {
  const first = new Map<string, JobPart>();
  return parts.flatMap((part, i) => {
    const key = part.folder.toLowerCase();
    const other = first.get(key);
    if (other === undefined) {
      first.set(key, part);
      return [];
    }
    const at = placeOf(
      entries[i]?.name === undefined ? ['parts', i] : ['parts', i, 'name'],
      'value',
    );
    return [
      {
        input: `parts[${i}].name`,
        given: `${shown(part.name)} at ${at}, beside ${shown(other.name)}`,
        allowed: 'names whose folders differ',
        mend: 'give one of the two another name',
      },
    ];
  });
}
