import { MATERIALS } from '../../data/materials.ts';
import { TUBE_GRADES } from '../../data/tube-grades.ts';
import { describeInputs, readInput } from '../../forms/read.ts';
import type { Survey } from '../../survey/survey.ts';
import type { Template } from '../../forms/template.ts';
import { isMet } from '../../forms/when.ts';
import type { FieldAnswer } from './questions.ts';
import type { PartSoFar } from '../../jobfile/so-far.ts';

/** Inputs that a job file has beside a part's others. */
export const BESIDE = new Set(['name', 'hand', 'quantity']);

export const fieldsOf = (template: Template, so: PartSoFar): FieldAnswer[] => {
  const described = describeInputs(template);
  const written = new Map(
    Object.entries(so.given).map(([key, value]) => [camel(key), value] as const),
  );
  const read = new Map(
    described.map(({ name }) => {
      const one = readInput(template, name, so.inputs[name]);
      return [name, one?.ok === true ? one.value : undefined] as const;
    }),
  );
  const values = Object.fromEntries(read);
  // What reads a field stays here: only what is told of it goes to the page.
  return described.map((field) => ({
    ...field,
    withMeasurements: undefined,
    ...(field.kind === 'material' && {
      choices: (template.stock === 'tube' ? TUBE_GRADES : MATERIALS).map(({ id }) => id),
    }),
    given: typed(BESIDE.has(field.name) ? so.inputs[field.name] : written.get(field.name)),
    figure: figureOf(read.get(field.name)),
    survey: surveyOf(read.get(field.name)),
    applies: field.when === undefined || isMet(field.when, values),
  }));
};

export const camel = (key: string): string =>
  key.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());

export const typed = (given: unknown): string | boolean | undefined =>
  given === undefined || typeof given === 'boolean'
    ? given
    : typeof given === 'string' || typeof given === 'number'
      ? String(given)
      : JSON.stringify(given);

const figureOf = (value: unknown): number | undefined =>
  typeof value === 'number' ? value : undefined;

/** Of points that were given by tape distances, how they were found. */
const surveyOf = (value: unknown): Survey | undefined =>
  typeof value === 'object' && value !== null && 'survey' in value
    ? ((value as { readonly survey: Survey | null }).survey ?? undefined)
    : undefined;
