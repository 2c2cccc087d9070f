import { describeInputs, readInputs } from '../forms/read.ts';
import type { InputProblem } from '../forms/problem.ts';
import { readDocument } from '../forms/read-document.ts';
import { shown } from '../forms/given.ts';
import type { Template } from '../forms/template.ts';
import { valueAt } from '../forms/value-path.ts';
import { parseYaml, type ValuePath } from '../forms/yaml.ts';
import { wayIn } from '../forms/making.ts';
import { nearest } from '../text/nearest.ts';
import { safeName } from '../text/safe-name.ts';
import type { JobFile, JobPart } from './job-file.ts';
import { measurementsOf, namesIn, unknownName, withMeasurements } from './measurements.ts';
import { BESIDE, type JobEntries, jobSchema, part, type PartEntries, SHARED } from './schema.ts';

export type ReadJob =
  | { readonly ok: true; readonly job: JobFile }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

const WORDS = {
  input: 'job',
  allowed: 'a YAML or JSON file of a job: title, shop, defaults, measurements, silence, parts',
  look: 'begin with a title and a list of parts, each with its family and its inputs',
};

type PlaceOf = (path: ValuePath, what: 'value' | 'name') => string;

/**
 * Reads the text of a job file. Every problem is told at once, with the line and column of the
 * value: problems of the file itself, of its measurements, and of the inputs of every part. It
 * never throws, whatever the text.
 */
export function readJob(text: string, families: ReadonlyMap<string, Template>): ReadJob {
  const read = readDocument(text, jobSchema, WORDS);
  if (!read.ok)
    return {
      ok: false,
      problems: [
        ...read.problems,
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
    defaults: { out, papers, paper, printUnits },
  } = entries;
  return { ok: true, job: { title, shop, out, papers, paper, printUnits, parts } };
}

/** A job as far as its file can be read while it is being written. */
export interface JobSoFar {
  readonly title: string;
  /** Path of the shop file as written, if one is named. */
  readonly shop: string | undefined;
  /** What is wrong with the file, but for its parts. */
  readonly problems: readonly InputProblem[];
  /** Measurements in the order of the file; without `mm` where one cannot be read. */
  readonly measurements: readonly {
    readonly name: string;
    readonly given: string;
    readonly mm: number | undefined;
  }[];
  readonly parts: readonly PartSoFar[];
}

/** A part as far as it can be read. */
export interface PartSoFar {
  readonly family: string;
  readonly name: string;
  /** The inputs as they are written, by the names that are written. */
  readonly given: Readonly<Record<string, unknown>>;
  /** The inputs with the job's defaults below them and measurements put in, by the same names. */
  readonly inputs: Readonly<Record<string, unknown>>;
  /** The part, where nothing is wrong with it. */
  readonly part: JobPart | undefined;
  readonly problems: readonly InputProblem[];
}

/**
 * Reads as much of a job as is in order, part by part: what is wrong with one part keeps no other
 * from being made. It never throws, whatever the text.
 */
export function readJobSoFar(text: string, families: ReadonlyMap<string, Template>): JobSoFar {
  const whole = readDocument(text, jobSchema, WORDS);
  const yaml = parseYaml(text);
  const isMap = yaml.ok && typeof yaml.value === 'object' && yaml.value !== null;
  const value = isMap ? (yaml.value as Partial<Record<keyof JobEntries, unknown>>) : {};
  const measured = jobSchema.readers.measurements.read(value.measurements);
  const measurements = measured.ok ? measured.value : {};
  const { values, problems } = measurementsOf(measurements);
  const entries: JobEntries = {
    title: typeof value.title === 'string' ? value.title : '',
    measurements,
    defaults: soundDefaults(value.defaults),
    silence: [],
    parts: [],
  };
  const ofPart = /^parts\[(\d+)\]/;
  const told = whole.ok ? [] : whole.problems;
  const context = { entries, families, values };
  return {
    title: entries.title,
    shop: typeof value.shop === 'string' ? value.shop : undefined,
    problems: [
      ...told.filter(({ input }) => !ofPart.test(input)),
      ...problems.map(({ name, allowed, mend }) => ({
        input: `measurements.${name}`,
        given: shown(measurements[name]),
        allowed,
        ...(mend !== undefined && { mend }),
      })),
    ],
    measurements: Object.entries(measurements).map(([name, given]) => ({
      name,
      given: String(given),
      mm: values.get(name),
    })),
    parts:
      yaml.ok && Array.isArray(value.parts)
        ? (value.parts as unknown[]).map((given, i) => {
            const read = partSoFar(given, i, { ...context, placeOf: yaml.placeOf });
            const own = told.filter(({ input }) => ofPart.exec(input)?.[1] === String(i));
            return { ...read, problems: [...own, ...read.problems] };
          })
        : [],
  };
}

/** One part, with what is wrong with its inputs. */
const partSoFar = (given: unknown, i: number, context: Omit<Context, 'problems'>): PartSoFar => {
  const raw = typeof given === 'object' && given !== null ? (given as Partial<PartEntries>) : {};
  const family = String(raw.family ?? '');
  const names = { family, name: String(raw.name ?? family), given: { ...raw.inputs } };
  const read = part.read(given);
  if (!read.ok) return { ...names, inputs: names.given, part: undefined, problems: [] };
  const problems: InputProblem[] = [];
  const made = readPart(read.value, i, { ...context, problems });
  return {
    ...names,
    inputs: made.inputs,
    part: problems.length === 0 ? made : undefined,
    problems,
  };
};

/**
 * The defaults that are valid when each is read alone, so that a part is not told that it lacks an
 * input which the file does give.
 */
const soundDefaults = (given: unknown): JobEntries['defaults'] => {
  const { defaults } = jobSchema.readers;
  const whole = defaults.read(given);
  if (whole.ok) return whole.value;
  const entries: readonly (readonly [string, unknown])[] =
    typeof given === 'object' && given !== null ? Object.entries(given) : [];
  const sound = Object.fromEntries(
    entries.filter(([name, value]) => defaults.read({ [name]: value }).ok),
  );
  const read = defaults.read(sound);
  if (!read.ok) throw new Error('defaults that are sound each by itself are not together');
  return read.value;
};

interface Context {
  readonly entries: JobEntries;
  readonly families: ReadonlyMap<string, Template>;
  readonly values: ReadonlyMap<string, number>;
  readonly placeOf: PlaceOf;
  readonly problems: InputProblem[];
}

function readPart(part: PartEntries, i: number, context: Context): JobPart {
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
  const { foldAt = defaults.foldAt, datum = defaults.datum } = part;
  return {
    name,
    folder: safeName(name),
    family: part.family,
    inputs,
    way: {
      ...wayIn(defaults),
      ...(foldAt !== undefined && { foldAt }),
      ...(datum !== undefined && { datum }),
    },
    silence: [...entries.silence, ...part.silence],
    note: part.note,
    revision: part.revision,
  };
}

/**
 * The part's inputs, with the job's defaults below them and measurements put in; their problems are
 * added to the list.
 */
function inputsOf(
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
  const shared = SHARED.flatMap((name) =>
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
interface GivenInputs {
  readonly part: PartEntries;
  readonly i: number;
  readonly own: Readonly<Record<string, unknown>>;
  readonly described: ReadonlyMap<string, { readonly name: string }>;
  readonly shared: readonly (readonly [string, unknown])[];
}

/** Problems of inputs, each with the place in the job file where its value stands. */
function placedProblems(
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
    problems.push({
      ...problem,
      ...(meant !== undefined && { mend: meant }),
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
const stepsOf = (input: string): ValuePath =>
  input.match(/[^.[\]]+/g)?.map((step) => (/^\d+$/.test(step) ? Number(step) : step)) ?? [];

/** As many of the steps as lead to something that is there. */
const stepsThere = (value: unknown, steps: ValuePath): ValuePath => {
  const missing = steps.findIndex((_, i) => valueAt(value, steps.slice(0, i + 1)) === undefined);
  return missing < 0 ? steps : steps.slice(0, missing);
};

/** An input with something done to its texts, however deep they lie. */
const inTexts = (given: unknown, put: (text: string) => string): unknown => {
  if (typeof given === 'string') return put(given);
  if (Array.isArray(given)) return given.map((item) => inTexts(item, put));
  return typeof given === 'object' && given !== null
    ? Object.fromEntries(Object.entries(given).map(([key, item]) => [key, inTexts(item, put)]))
    : given;
};

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
