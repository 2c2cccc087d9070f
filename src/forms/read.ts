import { nearest, nearestFew } from '../text/nearest.ts';
import type { ReadList } from '../contract/read-list.ts';
import type { Finding } from '../model/finding.ts';
import { COMMON_INPUTS, type CommonParsed, resolveCommon } from './common.ts';
import { type Json, JSON_SCHEMA } from './accepts.ts';
import { type Field, type FieldFacts, type Flaw, onlyWhen, withDefault } from './field.ts';
import { type Difference, inputsOfRight } from './differences.ts';
import { shown } from './given.ts';
import { camelCase, flagOf } from './input-name.ts';
import { lettersOf } from './letters.ts';
import { readListOf } from './read-list.ts';
import { takePlusMinus } from './plus-minus.ts';
import type { InputProblem } from './problem.ts';
import { unusedInputs } from './unused-inputs.ts';
import type { OwnInputs, Template, TemplateValues } from './template.ts';
import { resolveTubeCommon, TUBE_COMMON } from './tube-common.ts';

export type { InputProblem } from './problem.ts';

/**
 * `values` holds the family's own inputs and the common ones. `plusMinus` tells how far those
 * inputs may be off that state it, in mm, degrees or, for the rule, as a K factor. `lists` counts
 * the entries of the inputs that hold several. `findings` names inputs that have no meaning beside
 * the others.
 */
export type ReadInputs =
  | {
      readonly ok: true;
      readonly values: TemplateValues<OwnInputs>;
      readonly plusMinus: Readonly<Record<string, number>>;
      readonly lists: readonly ReadList[];
      readonly findings: readonly Finding[];
    }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

/**
 * Reads a full set of inputs as files and flags give them, by name in camelCase or kebab-case, and
 * tells every problem at once. `undefined` counts as left out. Never throws for anything given.
 */
export function readInputs(template: Template, raw: Readonly<Record<string, unknown>>): ReadInputs {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) {
    return {
      ok: false,
      problems: [
        {
          input: 'inputs',
          given: raw === undefined ? 'nothing' : shown(raw),
          allowed: `an object of inputs by name, such as { ${exampleOf(template)} }`,
        },
      ],
    };
  }
  const fields = fieldsOf(template);
  const { given, problems } = byName(fields, raw, template.family);
  const parsed: Record<string, unknown> = {};
  const plusMinus: Record<string, number> = {};
  const lists: ReadList[] = [];
  for (const [name, { field, facts }] of fields) {
    const taken = takePlusMinus(facts, given.get(name));
    if (!taken.ok) {
      problems.push({
        input: name,
        given: shown(given.get(name)),
        allowed: taken.allowed,
        mend: taken.mend,
      });
      continue;
    }
    if (taken.plusMinus !== undefined) plusMinus[name] = taken.plusMinus;
    const result = field.read(taken.value);
    if (result.ok) {
      parsed[name] = result.value;
      lists.push(
        ...[readListOf(name, facts, given.get(name), result.value)].flatMap((list) => list ?? []),
      );
    } else problems.push(problemFrom(name, facts, given.get(name), result.flaws[0]));
  }
  const resolve = template.stock === 'tube' ? resolveTubeCommon : resolveCommon;
  const common = resolve(parsed as CommonParsed, template.family);
  problems.push(...common.problems);
  if (common.values === undefined || problems.length > 0) return { ok: false, problems };
  const own: Record<string, unknown> = {};
  for (const name of Object.keys(template.inputs)) own[name] = parsed[name];
  const findings = unusedInputs(
    template.family,
    [...given.entries()].flatMap(([name, text]) => {
      const known = fields.get(name);
      return known === undefined
        ? []
        : [{ name, field: known.field, given: text, value: parsed[name] }];
    }),
    parsed,
  );
  // The grade of a tube stands in the place of a sheet's material.
  const values =
    template.stock === 'tube' ? { ...common.values, ...own } : { ...own, ...common.values };
  const together = [
    ...(template.problems?.(values) ?? []),
    ...rightProblems(template, raw, common.values.rightDiffers),
  ];
  return together.length > 0
    ? { ok: false, problems: together }
    : { ok: true, values, plusMinus, lists, findings };
}

/** What is wrong with the inputs of the right part, where it differs from the left one. */
const rightProblems = (
  template: Template,
  raw: Readonly<Record<string, unknown>>,
  differences: readonly Difference[],
): readonly InputProblem[] => {
  if (differences.length === 0) return [];
  const read = readInputs(template, inputsOfRight(raw, differences));
  return read.ok
    ? []
    : read.problems.map((problem) => ({ ...problem, input: `rightDiffers.${problem.input}` }));
};

/**
 * What one input says by itself, whatever the others are: its value in mm or degrees, or what is
 * wrong with it. `undefined` for an input that the family does not know.
 */
export function readInput(
  template: Template,
  name: string,
  given: unknown,
):
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly problem: InputProblem }
  | undefined {
  const known = fieldsOf(template).get(name);
  if (known === undefined) return undefined;
  const { field, facts } = known;
  const taken = takePlusMinus(facts, given);
  if (!taken.ok) {
    const { allowed, mend } = taken;
    return { ok: false, problem: { input: name, given: shown(given), allowed, mend } };
  }
  const read = field.read(taken.value);
  return read.ok
    ? { ok: true, value: read.value }
    : { ok: false, problem: problemFrom(name, facts, given, read.flaws[0]) };
}

/** What help, flags and forms need to know of one input. */
export interface InputDescription extends FieldFacts {
  /** Name as in a file: `legA`. */
  readonly name: string;
  /** Name as on the command line, without the hyphens in front: `leg-a`. */
  readonly flag: string;
  readonly required: boolean;
  /** Whether all families have it. */
  readonly common: boolean;
  /** The letter by which pictures show it, where it is a length or an angle of the part. */
  readonly letter?: string;
}

/** The family's own inputs first, then the common ones, each group in the order of its schema. */
export const describeInputs = (template: Template): readonly InputDescription[] => {
  const described = [...fieldsOf(template)].map(([name, { flag, facts }]) => ({
    name,
    flag,
    ...facts,
    required: isRequired(facts),
    common: !Object.hasOwn(template.inputs, name),
  }));
  const letters = lettersOf(described);
  return described.map((one) => {
    const letter = letters.get(one.name);
    return letter === undefined ? one : { ...one, letter };
  });
};

/** The JSON Schema (draft 2020-12) of a full set of inputs as a file holds it. */
export function inputsJsonSchema(template: Template): Json {
  const fields = [...fieldsOf(template)];
  return {
    $schema: JSON_SCHEMA,
    type: 'object',
    properties: Object.fromEntries(fields.map(([name, { field }]) => [name, field.json()])),
    required: fields.flatMap(([name, { facts }]) => (isRequired(facts) ? [name] : [])),
    additionalProperties: false,
    title: template.family,
    description: template.summary,
  };
}

interface NamedField {
  readonly field: Field;
  readonly facts: FieldFacts;
  readonly flag: string;
}

const prepared = new WeakMap<OwnInputs, ReadonlyMap<string, NamedField>>();

/** Fields by name. A map, so that no name given can be mistaken for a property every object has. */
function fieldsOf({
  inputs,
  defaults = {},
  when = {},
  stock,
}: Template): ReadonlyMap<string, NamedField> {
  const known = prepared.get(inputs);
  if (known !== undefined) return known;
  const fields = new Map<string, NamedField>();
  const common = commonInputs(stock, defaults, when);
  for (const [name, field] of [...Object.entries(inputs), ...common]) {
    if (fields.has(name))
      throw new TypeError(
        `the input ${name} is common to all families and cannot be a template's own`,
      );
    fields.set(name, { field, facts: field.facts, flag: flagOf(name) });
  }
  prepared.set(inputs, fields);
  return fields;
}

const commonInputs = (
  stock: Template['stock'],
  defaults: NonNullable<Template['defaults']>,
  when: NonNullable<Template['when']>,
): [string, Field][] =>
  namesOfCommon(stock).map((name) => {
    const [own, then] = [defaults[name], when[name]];
    const field: Field = COMMON_INPUTS[name];
    const usual = own === undefined ? field : withDefault(field, own);
    return [name, then === undefined ? usual : onlyWhen(usual, then)];
  });

const namesOfCommon = (stock: Template['stock']): readonly (keyof typeof COMMON_INPUTS)[] =>
  stock === 'tube' ? TUBE_COMMON : (Object.keys(COMMON_INPUTS) as (keyof typeof COMMON_INPUTS)[]);

function byName(
  fields: ReadonlyMap<string, NamedField>,
  raw: Readonly<Record<string, unknown>>,
  family: string,
): { readonly given: ReadonlyMap<string, unknown>; readonly problems: InputProblem[] } {
  const given = new Map<string, unknown>();
  const problems: InputProblem[] = [];
  for (const [key, value] of Object.entries(raw)) {
    if (value === undefined) continue;
    const name = fields.has(key) ? key : camelCase(key);
    if (!fields.has(name)) problems.push(unknownInput(key, value, fields, family));
    else if (given.has(name))
      problems.push({
        input: name,
        given: `twice, as ${name} and ${flagOf(name)}`,
        allowed: 'one of the two',
      });
    else given.set(name, value);
  }
  return { given, problems };
}

/** `legA: 60` */
const exampleOf = (template: Template): string => {
  const [first] = [...fieldsOf(template)].filter(([, { facts }]) => isRequired(facts));
  return first === undefined ? 'thickness: 2' : `${first[0]}: ${first[1].facts.example}`;
};

/** Number of names that are told of a family that has more. */
const MOST_TOLD = 3;

function unknownInput(
  key: string,
  value: unknown,
  fields: ReadonlyMap<string, NamedField>,
  family: string,
): InputProblem {
  const names = [...fields.keys()];
  const meant = nearest(key, names);
  const allowed = `an input this family knows, such as ${nearestFew(key, names, MOST_TOLD).join(', ')}; blankwright describe ${family} lists all ${names.length}`;
  const problem = { input: shown(key).replace(/^'|'$/g, ''), given: shown(value), allowed };
  return meant === undefined ? problem : { ...problem, mend: `did you mean ${meant}?` };
}

function problemFrom(
  name: string,
  facts: FieldFacts,
  given: unknown,
  flaw: Flaw | undefined,
): InputProblem {
  if (given === undefined)
    return {
      input: name,
      given: 'nothing',
      allowed: facts.allowed,
      mend: `give it, such as ${facts.example}`,
    };
  return {
    input: name,
    given: flaw?.given ?? shown(given),
    allowed: flaw?.allowed ?? facts.allowed,
    ...(flaw?.mend !== undefined && { mend: flaw.mend }),
  };
}

const isRequired = (facts: FieldFacts): boolean =>
  facts.default === undefined && facts.otherwise === undefined;
