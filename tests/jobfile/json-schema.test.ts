import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { parseYaml } from '../../src/forms/yaml.ts';
import { jobJsonSchema } from '../../src/jobfile/json-schema.ts';
import { ALL_FAMILIES } from '../../templates/index.ts';
import { blankwright, json, tempFolder } from '../helpers/command.ts';

const TEMPLATES = new Map(
  await Promise.all(
    [...ALL_FAMILIES].map(async ([name, load]) => [name, (await load()).default] as const),
  ),
);
const schema = jobJsonSchema(TEMPLATES);
/** Ajv, the JSON Schema validator, says whether a document keeps to the schema. */
const validate = new Ajv2020({ allErrors: true, strict: false }).compile(schema);

const part = (family: string, inputs: Record<string, unknown>) => ({ parts: [{ family, inputs }] });

describe('the JSON Schema of a job', () => {
  test('takes the job of the demo, and every example of every family as a part', () => {
    const demo = parseYaml(readFileSync('templates/demo/cart.job.yaml', 'utf8'));
    expect([demo.ok && validate(demo.value), validate.errors]).toEqual([true, null]);
    for (const [family, { examples }] of TEMPLATES)
      for (const { inputs } of examples)
        expect([family, validate(part(family, inputs)), validate.errors]).toEqual([
          family,
          true,
          null,
        ]);
  });

  test.each([
    ['a family that there is not', part('bracket-angel', {})],
    [
      'an input that its family does not have',
      part('ring', { outer: 100, inner: 40, boltCircle: 70, legA: 3 }),
    ],
    ['an input that is missing', part('ring', { outer: 100, inner: 40 })],
    ['no parts', { title: 'x' }],
    [
      'a name that it does not know',
      { ...part('ring', { outer: 100, inner: 40, boltCircle: 70 }), titel: 'x' },
    ],
    [
      'a hand that there is not',
      {
        parts: [
          { family: 'ring', hand: 'middle', inputs: { outer: 100, inner: 40, boltCircle: 70 } },
        ],
      },
    ],
  ])('refuses %s', (_, document) => {
    expect(validate(document)).toBe(false);
  });

  test('is what the command prints', async () => {
    expect(json(await blankwright(['schema', '--json'], tempFolder()))).toEqual(schema);
  });
});
