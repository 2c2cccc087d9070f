import { CAUTIONS } from '../data/cautions.ts';
import { nearest } from '../text/nearest.ts';
import { COMMON_INPUTS } from './common.ts';
import { type Field, withDefault } from './field.ts';
import { shown } from './given.ts';
import type { InputProblem } from './problem.ts';
import { TUBE_COMMON } from './tube-common.ts';
import { inputsIn } from './when.ts';
import { fun, list, name, object, oneOf, optional, text } from './shape.ts';

const FAMILY = 'a name of small letters and figures with hyphens between, such as crate-stop';

const TEMPLATE = object(
  {
    family: name(FAMILY),
    summary: name('a line of text that says what it is'),
    stock: optional(oneOf('tube')),
    sketch: optional(text),
    inputs: object({}, 'an object of inputs by name, each made by a function of fields'),
    defaults: optional(object({}, 'an object of common inputs by name, each with its default')),
    when: optional(object({}, 'an object of common inputs by name, each with its conditions')),
    cautions: optional(list(text, `cautions, any of ${Object.keys(CAUTIONS).join(', ')}`)),
    examples: optional(
      list(
        object(
          { title: text, inputs: object({}, 'an object of inputs by name') },
          'an example { title, inputs }',
        ),
        'examples { title, inputs }',
      ),
    ),
    build: fun('a function of the values that returns { part }'),
  },
  'an object made by defineTemplate({ family, summary, inputs, build })',
);

/**
 * Reasons why a value is not a template, each under the name of its field: `template.inputs.legA`.
 * It never throws, whoever wrote the value.
 */
export const templateFlaws = (template: unknown): InputProblem[] => {
  const flaws = TEMPLATE(template, '').map(({ at, given, wanted }) =>
    problem(at, given, wanted, given === 'nothing' ? `give ${at.split('.').at(-1)}` : undefined),
  );
  if (flaws.length > 0) return flaws;
  const {
    family,
    inputs,
    defaults = {},
    cautions = [],
    stock,
  } = template as {
    family: string;
    stock?: 'tube';
    inputs: Readonly<Record<string, unknown>>;
    defaults?: Readonly<Record<string, unknown>>;
    cautions?: readonly string[];
  };
  return [
    ...(/^[a-z\d]+(?:-[a-z\d]+)*$/.test(family) ? [] : [problem('family', shown(family), FAMILY)]),
    ...Object.entries(inputs).flatMap(([key, field]) => [
      ...inputFlaws(key, field, stock),
      ...(isField(field) ? otherFlaws(key, field, inputs) : []),
    ]),
    ...Object.entries(defaults).flatMap(([key, value]) => defaultFlaws(key, value)),
    ...cautions.flatMap((id, i) =>
      Object.hasOwn(CAUTIONS, id)
        ? []
        : [
            problem(
              `cautions[${i}]`,
              shown(id),
              Object.keys(CAUTIONS).join(', '),
              meant(id, Object.keys(CAUTIONS)),
            ),
          ],
    ),
  ];
};

const problem = (at: string, given: string, allowed: string, mend?: string): InputProblem => ({
  input: at === '' ? 'template' : `template.${at}`,
  given,
  allowed,
  ...(mend !== undefined && { mend }),
});

const meant = (given: string, names: readonly string[]): string | undefined => {
  const near = nearest(given, names);
  return near === undefined ? undefined : `did you mean ${near}?`;
};

const inputFlaws = (key: string, field: unknown, stock: 'tube' | undefined): InputProblem[] => {
  const at = `inputs.${key}`;
  const common: readonly string[] = stock === 'tube' ? TUBE_COMMON : Object.keys(COMMON_INPUTS);
  if (common.includes(key))
    return [
      problem(
        at,
        'a name that is common to all families',
        'another name',
        'leave it out: build gets the common inputs too, and defaults sets another default of one',
      ),
    ];
  if (!/^[a-z][A-Za-z\d]*$/.test(key))
    return [
      problem(
        at,
        shown(key),
        'a name of letters and figures that begins with a small letter, such as legA',
      ),
    ];
  if (!isField(field))
    return [
      problem(
        at,
        typeof field === 'function' ? 'a function' : shown(field),
        'a field',
        'make it with one of the functions of fields, such as fields.length({ about, min, max })',
      ),
    ];
  const { default: own, allowed } = field.facts;
  const works = own === undefined || field.read(undefined).ok;
  return works ? [] : [problem(at, `${shown(own)} as its default`, allowed)];
};

/** The inputs that a field refers to must exist. */
const otherFlaws = (
  key: string,
  { facts: { when, anchor } }: Field,
  inputs: Readonly<Record<string, unknown>>,
): InputProblem[] => {
  const names = [...Object.keys(inputs), ...Object.keys(COMMON_INPUTS)];
  const named = [
    ...(when === undefined ? [] : inputsIn(when).map((name) => ['when', name] as const)),
    ...(anchor?.kind === 'as' || anchor?.kind === 'panel of'
      ? [['anchor', anchor.input] as const]
      : []),
  ];
  return named
    .filter(([, name]) => !names.includes(name))
    .map(([what, name]) =>
      problem(
        `inputs.${key}.${what}`,
        shown(name),
        `an input of this template or of every family: ${names.join(', ')}`,
        meant(name, names),
      ),
    );
};

/**
 * A user's template brings its own copy of the code that made its fields, so a field is recognised
 * by its properties.
 */
const isField = (field: unknown): field is Field => FIELD(field, '').length === 0;

const FIELD = object(
  {
    facts: object({ kind: text, about: text, allowed: text, example: text }, ''),
    read: fun(''),
    form: fun(''),
  },
  '',
);

const defaultFlaws = (key: string, value: unknown): InputProblem[] => {
  const at = `defaults.${key}`;
  const names = Object.keys(COMMON_INPUTS);
  if (!Object.hasOwn(COMMON_INPUTS, key))
    return [
      problem(
        at,
        shown(value),
        `a default of a common input: ${names.join(', ')}`,
        meant(key, names),
      ),
    ];
  const field = COMMON_INPUTS[key as keyof typeof COMMON_INPUTS];
  return withDefault<unknown>(field, value as string).read(undefined).ok
    ? []
    : [problem(at, shown(value), field.facts.allowed)];
};
