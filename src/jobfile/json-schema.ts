import { type Json, JSON_SCHEMA } from '../forms/accepts.ts';
import { inputsJsonSchema } from '../forms/read.ts';
import type { Template } from '../forms/template.ts';
import { BESIDE, jobSchema, SHARED } from './schema.ts';

/** Inputs that a part may take from the defaults of its job, or that stand beside its inputs. */
const ELSEWHERE: ReadonlySet<string> = new Set([...SHARED, ...BESIDE]);

/**
 * The JSON Schema (draft 2020-12) of a job file. Editors complete and check the file with it: the
 * inputs of each part are those of its family.
 */
export function jobJsonSchema(families: ReadonlyMap<string, Template>): Json {
  const whole = jobSchema.json() as Json & { properties: Record<string, Json> };
  const part = (whole.properties['parts'] as { items: Json & { properties: Record<string, Json> } })
    .items;
  const { family, inputs, ...rest } = part.properties;
  const items = {
    ...part,
    properties: { family: { ...family, enum: [...families.keys()] }, inputs, ...rest },
    allOf: [...families].map(([name, template]) =>
      when(
        { properties: { family: { const: name } } },
        { properties: { inputs: inputsOf(template) } },
      ),
    ),
  };
  return {
    $schema: JSON_SCHEMA,
    ...whole,
    title: 'A blankwright job',
    properties: { ...whole.properties, parts: { ...whole.properties['parts'], items } },
  };
}

/**
 * A rule for parts of one kind. The key `then` is added under a computed name, because an object
 * with a literal `then` is mistaken for a promise.
 */
const when = (condition: Json, rule: Json): Json => {
  const [met] = ['then'];
  return { if: condition, [met as string]: rule };
};

const inputsOf = (template: Template): Json => {
  const {
    $schema: _,
    required,
    ...schema
  } = inputsJsonSchema(template) as Json & { required?: readonly string[] };
  return { ...schema, required: (required ?? []).filter((name) => !ELSEWHERE.has(name)) };
};
