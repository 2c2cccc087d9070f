import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Json } from '../../src/forms/accepts.ts';
import type { Reader } from '../../src/forms/field.ts';
import * as fields from '../../src/forms/fields.ts';
import { WAY } from '../../src/forms/making.ts';
import { flagOf } from '../../src/forms/input-name.ts';
import { checked, list, optional, section, unless } from '../../src/forms/sections.ts';
import { WAY_FLAGS } from '../../src/cli/make-flags.ts';
import { jobSchema } from '../../src/jobfile/schema.ts';
import { shopSchema } from '../../src/shop/schema.ts';

const row = section('A row.', {
  size: fields.length({ about: 'Its size.', min: 1, max: 10 }),
  kind: fields.choice({ about: 'Its kind.', choices: ['near', 'far'], default: 'near' }),
  note: optional(fields.text({ about: 'A note.', max: 20 })),
});
const table = section('A table.', {
  rows: checked(list('The rows.', row, { what: 'rows', min: 1, max: 3 }), (rows, disagree) => {
    if (rows[0]?.kind === 'far') disagree([0, 'kind'], 'near in the first row', 'write near');
  }),
  name: unless(fields.text({ about: 'Its name.', max: 20 }), 'table'),
});

describe('sections and lists of fields', () => {
  test('give what was read, with defaults, and nothing of what was left out', () => {
    expect(
      table.read({ rows: [{ size: '1/4in' }, { size: 2, kind: 'Far', note: ' x ' }] }),
    ).toEqual({
      ok: true,
      value: {
        // A quarter of an inch of 25.4 mm.
        rows: [
          { size: 6.35, kind: 'near' },
          { size: 2, kind: 'far', note: 'x' },
        ],
        name: 'table',
      },
    });
  });

  test('tell every flaw at once, by its path', () => {
    const read = table.read({ rows: [{ size: 0, kidn: 'far' }, 7, { kind: 'fra' }], nmae: 1 });
    expect(read.ok ? [] : read.flaws.map(({ path }) => path.join('.'))).toEqual([
      'rows.0.size',
      'rows.0.kidn',
      'rows.1',
      'rows.2.size',
      'rows.2.kind',
      'nmae',
    ]);
  });

  test('a check is asked only of what is sound in itself', () => {
    const told = (rows: unknown) => {
      const read = table.read({ rows });
      return read.ok ? [] : read.flaws;
    };
    expect(told([{ size: 2, kind: 'far' }])).toEqual([
      { path: ['rows', 0, 'kind'], allowed: 'near in the first row', mend: 'write near' },
    ]);
    expect(told([{ size: 0, kind: 'far' }]).map(({ path }) => path.at(-1))).toEqual(['size']);
    expect(told([]).map(({ allowed }) => allowed)).toEqual(['a list of 1 to 3 rows']);
  });

  test('whatever is given to a shop or a job, it is read or refused in words of our own', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<Reader>(shopSchema, jobSchema, table),
        fc.oneof(fc.jsonValue(), fc.record({ cutters: fc.jsonValue(), parts: fc.jsonValue() })),
        (reader, given) => {
          const read = reader.read(given);
          for (const { allowed, mend = '' } of read.ok ? [] : read.flaws)
            expect(`${allowed}; ${mend}`).not.toMatch(/invalid|expected|undefined|\n/i);
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('the JSON Schema of files', () => {
  /** Every name in a schema, by its path, that says nothing of itself. */
  const silent = (json: Json, path: string): string[] => [
    ...(typeof json['description'] === 'string' || json['anyOf'] !== undefined ? [] : [path]),
    ...Object.entries((json['properties'] as Record<string, Json> | undefined) ?? {}).flatMap(
      ([name, inner]) => silent(inner, `${path}.${name}`),
    ),
    ...(json['items'] === undefined ? [] : silent(json['items'] as Json, `${path}[]`)),
    ...((json['anyOf'] as readonly Json[] | undefined) ?? [])
      .filter((each) => each['properties'] !== undefined)
      .flatMap((each) => silent(each, path)),
  ];

  test('says of every name of a shop and of a job what it is', () => {
    expect(silent(shopSchema.json(), 'shop')).toEqual([]);
    expect(silent(jobSchema.json(), 'job').filter((path) => !path.endsWith('papers[]'))).toEqual(
      [],
    );
  });

  test('names what has to be given, and no more', () => {
    expect(row.json()).toMatchObject({ required: ['size'], additionalProperties: false });
    expect(table.json()).toMatchObject({ required: ['rows'] });
  });
});

test('options of making are the same flags, defaults of a job and words', () => {
  const defaults = (jobSchema.json()['properties'] as Record<string, Json>)['defaults'];
  const known = defaults?.['properties'] as Record<string, Json>;
  for (const [name, { facts }] of Object.entries(WAY)) {
    expect(Object.keys(WAY_FLAGS)).toContain(flagOf(name));
    expect(known[name]).toMatchObject({ kind: facts.kind });
    expect(known[name]?.['enum']).toEqual(facts.choices);
    expect(known[name]?.['description']).toContain(facts.about);
  }
  expect(Object.keys(WAY_FLAGS)).toHaveLength(Object.keys(WAY).length);
});
