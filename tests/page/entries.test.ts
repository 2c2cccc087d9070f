import { describe, expect, test } from 'vitest';
import { FAMILIES } from '../../templates/index.ts';
import { describeInputs, readInput } from '../../src/forms/read.ts';
import {
  figureIn,
  type Row,
  type RowKind,
  rowsOf,
  splitSides,
  textOf,
  withFigure,
} from '../../src/page/model/entries.ts';

/** Inputs shown as rows: whatever the rows write has to mean what the text meant. */

interface Listed {
  readonly family: string;
  readonly name: string;
  readonly kind: RowKind;
  readonly text: string;
}

const listedExamples = async (): Promise<Listed[]> => {
  const found: Listed[] = [];
  for (const [family, load] of FAMILIES) {
    const template = (await load()).default;
    const described = describeInputs(template);
    for (const { inputs } of template.examples)
      for (const { name, kind, list } of described) {
        const text = (inputs as Readonly<Record<string, unknown>>)[name];
        if (typeof text !== 'string' || text === '') continue;
        if (kind === 'holes') found.push({ family, name, kind: 'holes', text });
        else if (list?.under === 'points')
          found.push({
            family,
            name,
            kind: /^\s*\w+-\w+/.test(text) ? 'distances' : 'points',
            text,
          });
      }
  }
  return found;
};

describe('rows of a text', () => {
  test('say what the text says, in all examples of all families that they can show', async () => {
    const all = await listedExamples();
    let shown = 0;
    for (const { family, name, kind, text } of all) {
      const template = (await (FAMILIES.get(family) as () => Promise<{ default: never }>)())
        .default;
      const { distances, sides } =
        kind === 'distances' ? splitSides(text) : { distances: text, sides: [] };
      const rows = rowsOf(kind, distances);
      if (rows === undefined) continue;
      shown += 1;
      const again = [textOf(kind, rows), ...sides].join(', ');
      expect(readInput(template, name, again)).toEqual(readInput(template, name, text));
    }
    // Nearly everything that people write can be shown.
    expect(shown).toBeGreaterThan(0.8 * all.length);
    expect(all.length).toBeGreaterThan(20);
  });

  test.each<[RowKind, string, readonly Row[]]>([
    [
      'holes',
      '35,20,M8; 35,60,M8',
      [
        ['35', '20', 'M8'],
        ['35', '60', 'M8'],
      ],
    ],
    ['holes', 'from fold 35, from left 20, M8', [['from fold 35', 'from left 20', 'M8']]],
    ['holes', '', []],
    [
      'points',
      'A: 0,0; 112, 8',
      [
        ['A', '0', '0'],
        ['', '112', '8'],
      ],
    ],
    [
      'distances',
      'A-B: 312, B-C: 240',
      [
        ['A', 'B', '312'],
        ['B', 'C', '240'],
      ],
    ],
    [
      'flanges',
      'lip on base top 20 90 up from 10 to 110',
      [['lip', 'base top', '20', '90', 'up', 'from 10 to 110']],
    ],
  ])('%s: %s', (kind, text, rows) => {
    expect(rowsOf(kind, text)).toEqual(rows);
    expect(rowsOf(kind, textOf(kind, rows))).toEqual(rows);
  });

  test.each<[RowKind, string]>([
    ['holes', '35,20,M8; middle, M10'],
    ['points', 'A: 0,0; somewhere'],
    ['flanges', 'lip on top left_foot.height + 8 90 up'],
  ])('what rows cannot show stays a text: %s %s', (kind, text) => {
    expect(rowsOf(kind, text)).toBeUndefined();
  });

  test('half-typed rows come back as they are', () => {
    const half: readonly Row[] = [
      ['35', '', 'M8'],
      ['', '', ''],
    ];
    expect(rowsOf('holes', textOf('holes', half))).toEqual(half);
  });
});

describe('the figure of a cell', () => {
  test.each([
    ['35', 35],
    ['from fold 35.5', 35.5],
    ['-4', -4],
    ['width/2', undefined],
    ['60+3', undefined],
    ['2 1/2', undefined],
    ['', undefined],
  ])('%s', (cell, figure) => {
    expect(figureIn(cell)).toBe(figure);
  });

  test('another one keeps the words before it', () => {
    expect(withFigure('from fold 35', 40)).toBe('from fold 40');
    expect(withFigure('35', 36.0004)).toBe('36');
  });
});
