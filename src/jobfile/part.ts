import { describeInputs, readInputs } from '../forms/read.ts';
import type { InputProblem } from '../forms/problem.ts';
import { shown } from '../forms/given.ts';
import type { Template } from '../forms/template.ts';
import { valueAt } from '../forms/value-path.ts';
import type { ValuePath } from '../forms/yaml.ts';
import { wayIn } from '../forms/making.ts';
import { nearest } from '../text/nearest.ts';
import { safeName } from '../text/safe-name.ts';
import type { JobPart } from './job-file.ts';
import { namesIn, unknownName, withMeasurements } from './measurements.ts';
import { BESIDE, type JobEntries, PART_NAMES, type PartEntries, SHARED } from './schema.ts';

/** A part as its entry says it, its problems added to those of the file. */
export function readPart(part: PartEntries, i: number, context: Context): JobPart {
  const { entries, families, placeOf, problems } = context;
  const { defaults } = entries;
  const template = families.get(part.family);
  const name = part.name ?? part.family;
  if (template === undefined) {
    const meant = nearest(part.family, families.keys());
    problems.push({
      input: `parts[${i}].family`,
      given: `${shown(part.family)} at ${placeOf(['parts', i, 'family'], 'value')}`,
      allowed: `a family: ${[...families.keys()].join(', ')}`,
      ...(meant !== undefined && { mend: `did you mean ${meant}?` }),
    });
  }
  const inputs = template === undefined ? {} : inputsOf(template, part, i, context);
  const { foldAt = defaults.foldAt, datum = defaults.datum, wideBends = defaults.wideBends } = part;
  return {
    name,
    folder: safeName(name),
    family: part.family,
    inputs,
    way: {
      ...wayIn(defaults),
      ...(foldAt !== undefined && { foldAt }),
      ...(datum !== undefined && { datum }),
      ...(wideBends !== undefined && { wideBends }),
    },
    silence: [...entries.silence, ...part.silence],
    note: part.note,
    revision: part.revision,
    cardOf: part.cardOf,
  };
}

/**
 * The part's inputs, with the job's defaults below them and measurements put in; their problems are
 * added to the list.
 */
export function inputsOf(
  template: Template,
  part: PartEntries,
  i: number,
  context: Context,
): Record<string, unknown> {
  const { entries, values, problems } = context;
  const described = new Map(
    describeInputs(template).flatMap((d) => [[d.name, d] as const, [d.flag, d] as const]),
  );
  const own: Record<string, unknown> = {};
  for (const [key, given] of Object.entries(part.inputs)) {
    const input = described.get(key);
    const isWord =
      input === undefined ||
      input.isFreeText === true ||
      ['choice', 'flag', 'material', 'rule'].includes(input.kind);
    const put = (text: string): string => withMeasurements(text, values);
    own[key] = isWord ? given : (input.withMeasurements?.(given, put) ?? inTexts(given, put));
  }
  const has = (name: string): boolean =>
    Object.keys(own).some((key) => described.get(key)?.name === name);
  // What a job says of its sheet is nothing to a tube.
  const ofSheet = template.stock === 'tube' ? [] : SHARED;
  const shared = ofSheet.flatMap((name) =>
    entries.defaults[name] === undefined || has(name)
      ? []
      : [[name, entries.defaults[name]] as const],
  );
  const beside = BESIDE.flatMap((name) =>
    part[name] === undefined || has(name) ? [] : [[name, part[name]] as const],
  );
  const raw = { ...Object.fromEntries([...shared, ...beside]), ...own };
  const read = readInputs(template, raw);
  if (!read.ok)
    problems.push(...placedProblems(read.problems, { part, i, own, described, shared }, context));
  return raw;
}

/** What is known of a part's inputs when some of them are wrong. */
export interface GivenInputs {
  readonly part: PartEntries;
  readonly i: number;
  readonly own: Readonly<Record<string, unknown>>;
  readonly described: ReadonlyMap<string, { readonly name: string }>;
  readonly shared: readonly (readonly [string, unknown])[];
}

/** Problems of inputs, each with the place in the job file where its value stands. */
export function placedProblems(
  given: readonly InputProblem[],
  { part, i, own, described, shared }: GivenInputs,
  { entries, values, placeOf }: Context,
): InputProblem[] {
  const problems: InputProblem[] = [];
  // A misspelt name is also a missing one, but that is a single mistake.
  const misspelt = new Set(given.map(({ mend }) => /^did you mean (\w+)\?$/.exec(mend ?? '')?.[1]));
  for (const problem of given) {
    if (problem.given === 'nothing' && misspelt.has(problem.input)) continue;
    const [name = '', ...within] = stepsOf(problem.input);
    const key = Object.keys(own).find((k) => k === name || described.get(k)?.name === name);
    const isShared = key === undefined && shared.some(([name]) => name === problem.input);
    const path: ValuePath =
      key !== undefined
        ? ['parts', i, 'inputs', key, ...stepsThere(own[key], within)]
        : isShared
          ? ['defaults', problem.input]
          : part[problem.input as 'name'] !== undefined
            ? ['parts', i, problem.input]
            : ['parts', i];
    // A wrong measurement is reported where it is defined, not here.
    if (
      key !== undefined &&
      namesIn(String(own[key])).some(
        (name) => Object.hasOwn(entries.measurements, name) && !values.has(name),
      )
    )
      continue;
    const meant =
      key !== undefined && typeof own[key] === 'string'
        ? unknownName(own[key], Object.keys(entries.measurements))
        : undefined;
    const isBeside = key !== undefined && !described.has(key) && PART_NAMES.includes(key);
    problems.push({
      ...problem,
      ...(meant !== undefined && { mend: meant }),
      ...(isBeside && { mend: `write ${key} beside inputs, not in it` }),
      input:
        key === undefined && isShared
          ? `defaults.${problem.input}`
          : `parts[${i}].inputs.${problem.input}`,
      given: `${problem.given} at ${placeOf(path, key !== undefined && !described.has(key) ? 'name' : 'value')}`,
    });
  }
  return problems;
}

/** `flanges[2].height` in steps. */
export const stepsOf = (input: string): ValuePath =>
  input.match(/[^.[\]]+/g)?.map((step) => (/^\d+$/.test(step) ? Number(step) : step)) ?? [];

/** As many of the steps as lead to something that is there. */
export const stepsThere = (value: unknown, steps: ValuePath): ValuePath => {
  const missing = steps.findIndex((_, i) => valueAt(value, steps.slice(0, i + 1)) === undefined);
  return missing < 0 ? steps : steps.slice(0, missing);
};

/** An input with something done to its texts, however deep they lie. */
export const inTexts = (given: unknown, put: (text: string) => string): unknown => {
  if (typeof given === 'string') return put(given);
  if (Array.isArray(given)) return given.map((item) => inTexts(item, put));
  return typeof given === 'object' && given !== null
    ? Object.fromEntries(Object.entries(given).map(([key, item]) => [key, inTexts(item, put)]))
    : given;
};

export interface Context {
  readonly entries: JobEntries;
  readonly families: ReadonlyMap<string, Template>;
  readonly values: ReadonlyMap<string, number>;
  readonly placeOf: PlaceOf;
  readonly problems: InputProblem[];
}

export type PlaceOf = (path: ValuePath, what: 'value' | 'name') => string;
