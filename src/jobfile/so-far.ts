import type { InputProblem } from '../forms/problem.ts';
import { readDocument } from '../forms/read-document.ts';
import { shown } from '../forms/given.ts';
import type { Template } from '../forms/template.ts';
import { parseYaml } from '../forms/yaml.ts';
import type { JobPart } from './job-file.ts';
import { measurementsOf } from './measurements.ts';
import { type JobEntries, jobSchema, part, type PartEntries } from './schema.ts';
import { type Context, readPart } from './part.ts';

/** How messages speak of a job file. */
export const JOB_WORDS = {
  input: 'job',
  allowed: 'a YAML or JSON file of a job: title, shop, defaults, measurements, silence, parts',
  look: 'begin with a title and a list of parts, each with its family and its inputs',
};

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
  const whole = readDocument(text, jobSchema, JOB_WORDS);
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
export const partSoFar = (
  given: unknown,
  i: number,
  context: Omit<Context, 'problems'>,
): PartSoFar => {
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
export const soundDefaults = (given: unknown): JobEntries['defaults'] => {
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
