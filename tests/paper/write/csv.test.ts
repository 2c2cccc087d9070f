import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import { csv } from '../../../src/text/csv.ts';

const HOSTILE = [
  '=1+1',
  '+1',
  '-1',
  '@sum',
  '＝1',
  '\tx',
  'a;=cmd',
  'a\n=cmd',
  'a|=cmd',
  '"=1"',
  'x, "y"',
  'plain',
  '2-3',
  '',
];

/** RFC 4180, read by a library of others; a spreadsheet may part cells by a semicolon too. */
test.each([',', ';'])('no cell begins like a formula, parted by %j', (delimiter) => {
  const text = csv([['name', 'count'], ...HOSTILE.map((name) => [name, 3])]);
  const cells = (
    parse(text, { delimiter, relax_column_count: true, relax_quotes: true }) as string[][]
  ).flat();
  expect(cells.filter((cell) => /^[=+\-@＝＋－＠\t\r]/.test(cell))).toEqual([]);
});

test('what is harmless comes back as it was', () => {
  const rows = ['x, "y"', 'plain', '2-3', 'two\nlines', ''];
  expect(parse(csv(rows.map((name) => [name]))) as string[][]).toEqual(rows.map((name) => [name]));
});
