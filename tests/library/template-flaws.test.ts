import { describe, expect, test } from 'vitest';
import { checkTemplate, FAMILIES, makeParts, type Template } from '../../src/index.ts';
import { fields } from '../../src/template.ts';
import { type Loose, DRAFT, SHORT, INPUTS } from './crate-stop.ts';

/**
 * A template that is spoilt in one place, the field that has to be named, and what has to be said
 * of it.
 */
const WRONG: readonly (readonly [name: string, template: unknown, input: string, says: string])[] =
  [
    ['nothing', undefined, 'template', 'defineTemplate'],
    ['a function', () => 0, 'template', 'a function'],
    ['no family', { ...SHORT, family: undefined }, 'template.family', 'crate-stop'],
    [
      'a family with capitals',
      { ...SHORT, family: 'Crate Stop' },
      'template.family',
      'small letters',
    ],
    ['no summary', { ...SHORT, summary: undefined }, 'template.summary', 'give summary'],
    ['inputs that are a list', { ...SHORT, inputs: [] }, 'template.inputs', 'object of inputs'],
    [
      'a field made by hand',
      { ...SHORT, inputs: { floor: { type: 'length' } } },
      'template.inputs.floor',
      'fields.length',
    ],
    [
      'a field that was not called',
      { ...SHORT, inputs: { floor: fields.length } },
      'template.inputs.floor',
      'a function',
    ],
    [
      'an input all families have',
      { ...SHORT, inputs: { thickness: DRAFT.inputs.floor } },
      'template.inputs.thickness',
      'leave it out',
    ],
    [
      'an input with hyphens',
      { ...SHORT, inputs: { 'leg-a': DRAFT.inputs.floor } },
      'template.inputs.leg-a',
      'legA',
    ],
    [
      'a default beyond its own limits',
      {
        ...SHORT,
        inputs: { floor: fields.length({ about: 'x.', min: 10, max: 20, default: 30 }) },
      },
      'template.inputs.floor',
      'a length from 10 to 20 mm',
    ],
    [
      'a condition on an input that there is not',
      {
        ...SHORT,
        inputs: {
          floor: fields.length({ about: 'x.', min: 10, max: 20, when: { flor: 'given' } }),
        },
      },
      'template.inputs.floor.when',
      'did you mean floor?',
    ],
    [
      'a default of an input that is not common',
      { ...SHORT, defaults: { matreial: 's235' } },
      'template.defaults.matreial',
      'did you mean material?',
    ],
    [
      'a default that is no material',
      { ...SHORT, defaults: { material: 'wood' } },
      'template.defaults.material',
      'catalogue',
    ],
    [
      'a caution nobody knows',
      { ...SHORT, cautions: ['sharp-edge'] },
      'template.cautions[0]',
      'did you mean sharp-edges?',
    ],
    [
      'an example without inputs',
      { ...SHORT, examples: [{ title: 'x' }] },
      'template.examples[0].inputs',
      'inputs by name',
    ],
    ['no build', { ...SHORT, build: undefined }, 'template.build', 'function of the values'],
  ];

describe('a template that is none', () => {
  test.each(WRONG)('%s: its field is named', (_, template, input, says) => {
    const problems = checkTemplate(template);
    expect(problems.map((p) => p.input)).toEqual(
      template === undefined || typeof template === 'function' ? ['template'] : [input],
    );
    expect(Object.values(problems[0] ?? {}).join('; ')).toContain(says);
    // Made all the same, it is refused in the same words, and nothing is thrown.
    const made = makeParts(template as Template, INPUTS);
    expect(made.ok ? [] : made.problems).toEqual(problems);
  });

  test('everything that is wrong with it at once', () => {
    expect(checkTemplate({ inputs: [], examples: 3 }).map((p) => p.input)).toEqual(
      ['family', 'summary', 'inputs', 'examples', 'build'].map((name) => `template.${name}`),
    );
  });
});

describe('checkTemplate', () => {
  test('finds nothing wrong with the families there are', async () => {
    for (const load of Object.values(FAMILIES)) expect(checkTemplate(await load())).toEqual([]);
  });

  test('makes the examples, and names the input that is wrong, the stop, or what build threw', () => {
    const withExample = (inputs: Loose, more: Loose = {}) =>
      checkTemplate({
        ...SHORT,
        examples: [
          { title: 'good', inputs: INPUTS },
          { title: 'bad', inputs },
        ],
        ...more,
      });
    expect(withExample(INPUTS)).toEqual([]);
    expect(withExample({ floor: 5, thickness: 2 })).toMatchObject([
      { input: 'template.examples[1].inputs.floor', given: '5' },
    ]);
    // The bend takes more than there is of the floor, and still more of the lip: one radius mends
    // both.
    expect(withExample({ ...INPUTS, radius: 60 })).toEqual([
      {
        input: 'template.examples[1]',
        given: expect.stringMatching(/stopped: lip .*give radius [\d.]+ or less/),
        allowed: 'inputs that make a part',
      },
    ]);
    const throws = withExample(INPUTS, {
      build: () => {
        throw new Error('no sheet left');
      },
    });
    expect(throws).toMatchObject([
      {
        input: 'template.build',
        given: 'an error: no sheet left',
        mend: 'see template.examples[0]',
      },
      {},
    ]);
  });
});
