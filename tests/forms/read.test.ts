import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Template } from '../../src/forms/template.ts';
import { describeInputs, inputsJsonSchema, readInputs } from '../../src/forms/read.ts';
import { loadFamily } from '../helpers/check-template.ts';

let angle: Template;
beforeAll(async () => {
  angle = await loadFamily('bracket-angle');
});

const GOOD = { legA: 60, legB: '40mm', width: '80', thickness: 3 };

const valuesOf = (raw: Record<string, unknown>) => {
  const read = readInputs(angle, raw);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.values;
};

const problemsOf = (raw: Record<string, unknown>) => {
  const read = readInputs(angle, raw);
  return read.ok ? [] : read.problems;
};

describe('values', () => {
  test('numbers and texts, and the defaults of everything left out', () => {
    expect(valuesOf(GOOD)).toMatchObject({
      legA: 60,
      legB: 40,
      width: 80,
      bendAngle: 90,
      holesA: [],
      holesB: [],
      name: 'bracket-angle',
      material: { id: 's235' },
      thicknessMm: 3,
      insideRadiusMm: 3,
      rule: { id: 'din6935' },
      measure: 'outside',
      cornerRadiusMm: 0,
      hand: 'left',
      quantity: 1,
      reliefShape: 'round',
      leastSlotMm: 2,
      cornerGapMm: 0.5,
    });
  });

  test('inches, sums, kebab-case names and capitals', () => {
    // An inch is 25.4 mm exactly.
    const { legA: _, ...rest } = GOOD;
    expect(
      valuesOf({ ...rest, 'leg-a': '4in', hand: 'Both', rule: 'K:0.42', legB: '120-2*3' }),
    ).toMatchObject({
      legA: 101.6,
      legB: 114,
      hand: 'both',
      rule: { id: 'k', k: 0.42 },
    });
  });

  test('the radius is the larger of the least radius and the thickness', () => {
    expect(valuesOf({ ...GOOD, radius: 0 }).insideRadiusMm).toBe(0);
    // A hard aluminium alloy needs far more than its thickness.
    expect(valuesOf({ ...GOOD, material: '6082-t6' }).insideRadiusMm).toBeGreaterThan(3);
  });

  test('a gauge is another thickness on steel, galvanised sheet and aluminium', () => {
    const gauge = (material: string) =>
      valuesOf({ ...GOOD, material, thickness: '16ga' }).thicknessMm;
    // 0.0598, 0.0635 and 0.0508 in: Machinery's Handbook, 31st edition, p. 1453, table 20.
    expect(gauge('s235')).toBeCloseTo(0.0598 * 25.4, 2);
    expect(gauge('dx51d')).toBeCloseTo(0.0635 * 25.4, 2);
    expect(gauge('5754-h22')).toBeCloseTo(0.0508 * 25.4, 2);
  });

  test('undefined counts as left out', () => {
    expect(valuesOf({ ...GOOD, radius: undefined, nonsense: undefined })).toEqual(valuesOf(GOOD));
  });
});

describe('problems', () => {
  test('all are told at once, each with what was given and what is allowed', () => {
    const problems = problemsOf({
      legA: 'wide',
      legB: 0,
      bendAngle: 200,
      material: 'wood',
      thickness: 99,
      hand: 'lefty',
      quantity: 1.5,
      rule: 'guess',
      holesA: '20,15',
      legC: 5,
    });
    expect(Object.fromEntries(problems.map((p) => [p.input, p.given]))).toEqual({
      legC: '5',
      legA: "'wide'",
      legB: '0',
      width: 'nothing',
      bendAngle: '200',
      material: "'wood'",
      thickness: "'99'",
      hand: "'lefty'",
      quantity: '1.5',
      rule: "'guess'",
      holesA: "'20,15' as the first hole",
    });
    expect(problems.every((p) => p.allowed.length > 0)).toBe(true);
    const by = Object.fromEntries(problems.map((p) => [p.input, p]));
    expect(by['legB']).toMatchObject({
      allowed: 'a length from 1 to 6000 mm',
      mend: 'write 1 or more',
    });
    expect(by['hand']).toMatchObject({
      allowed: 'one of left, right, both',
      mend: 'did you mean left?',
    });
    expect(by['legC']?.mend).toMatch(/^did you mean leg[AB]\?$/);
    expect(by['width']?.mend).toBe('give it, such as 80');
  });

  test.each([
    ['widht', 'width'],
    ['thicknes', 'thickness'],
    ['leg-A', 'legA'],
    ['matrial', 'material'],
    ['corner', undefined],
    ['xyzzy', undefined],
  ])('unknown name %s, meant %s', (name, meant) => {
    const problem = problemsOf({ ...GOOD, [name]: 1 }).find((p) => p.input === name);
    if (name === 'leg-A') expect(problem?.mend).toBe('did you mean legA?');
    else expect(problem?.mend).toBe(meant && `did you mean ${meant}?`);
  });

  test('an input given under both its names', () => {
    expect(problemsOf({ ...GOOD, 'leg-a': 60 })).toEqual([
      { input: 'legA', given: 'twice, as legA and leg-a', allowed: 'one of the two' },
    ]);
  });

  test('a gauge where the metal has no scale for it', () => {
    const problems = problemsOf({ ...GOOD, material: '1.4301', thickness: '16ga' });
    expect(problems.map((p) => p.input)).toEqual(['thickness']);
  });

  test('names that every object has are only unknown names', () => {
    const raw = JSON.parse(
      '{"legA":60,"legB":40,"width":80,"thickness":3,"__proto__":{"legA":1},"constructor":1,"toString":2}',
    ) as Record<string, unknown>;
    expect(problemsOf(raw).map((p) => p.input)).toEqual(['__proto__', 'constructor', 'toString']);
    expect(({} as Record<string, unknown>)['legA']).toBeUndefined();
    // The prototype of the inputs is no set of inputs.
    expect(problemsOf(Object.create(GOOD) as Record<string, unknown>).map((p) => p.input)).toEqual([
      'legA',
      'legB',
      'width',
      'thickness',
    ]);
  });

  test('whatever is given, it is read or refused, in single lines that name an input', () => {
    const value = fc.oneof(
      fc.anything(),
      fc.string(),
      fc.double(),
      fc.constantFrom('60', 60, '1/2in'),
    );
    const name = fc.oneof(
      fc.constantFrom(
        'legA',
        'legB',
        'width',
        'thickness',
        'material',
        'holesA',
        'name',
        'rule',
        'hand',
      ),
      fc.string(),
    );
    fc.assert(
      fc.property(fc.dictionary(name, value), (raw) => {
        for (const problem of problemsOf(raw)) {
          const line = Object.values(problem).join(' ');
          expect(line).not.toMatch(/[\n\r\0]/);
          expect(problem.given.length).toBeLessThan(120);
        }
      }),
      { numRuns: 500 },
    );
  });
});

describe('descriptions', () => {
  test('of an input of its own and of a common one', () => {
    const inputs = describeInputs(angle);
    expect(inputs.find((i) => i.name === 'legA')).toEqual({
      name: 'legA',
      flag: 'leg-a',
      letter: 'a',
      group: 'Sizes',
      kind: 'length',
      about: 'Leg A, from its free edge to the fold.',
      allowed: 'a length from 1 to 6000 mm',
      unit: 'mm',
      minimum: 1,
      maximum: 6000,
      required: true,
      example: '60',
      common: false,
    });
    expect(inputs.find((i) => i.name === 'hand')).toMatchObject({
      choices: ['left', 'right', 'both'],
      default: 'left',
      required: false,
      common: true,
    });
    expect(inputs.find((i) => i.name === 'radius')?.otherwise).toContain('the larger of');
  });

  test('JSON Schema: limits, defaults, choices, and no other names', () => {
    const schema = inputsJsonSchema(angle);
    expect(schema).toMatchObject({
      $schema: 'https://json-schema.org/draft/2020-12/schema',
      title: 'bracket-angle',
      additionalProperties: false,
      required: ['legA', 'legB', 'width', 'thickness'],
      properties: {
        legA: { minimum: 1, maximum: 6000, unit: 'mm', type: ['number', 'string'] },
        bendAngle: { default: 90, unit: 'degrees' },
        measure: { enum: ['outside', 'inside'], default: 'outside' },
      },
    });
    expect(JSON.parse(JSON.stringify(schema))).toEqual(schema);
  });
});
