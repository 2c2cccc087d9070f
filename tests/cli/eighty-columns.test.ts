import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fitLines, textColumns } from '../../src/text/columns.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { blankwright, tempFolder } from '../helpers/command.ts';
import { byTurns, examplesIn } from '../helpers/extent.ts';

const MOST = 80;
let before: string | undefined;
beforeAll(() => {
  before = process.env['COLUMNS'];
  delete process.env['COLUMNS'];
});
afterAll(() => {
  process.env['COLUMNS'] = before;
});

/**
 * Lines that are longer than a terminal is wide, but for what is copied as it is: a flag with its
 * value, a key of a file with its text, a path.
 */
const tooLong = (text: string): string[] =>
  text
    .split('\n')
    .filter(
      (line) =>
        line.length > MOST &&
        !/^ +(?:--[a-z-]+ '[^']*'(?: \\)?|[a-zA-Z]+: [^:]*)$/.test(line) &&
        / \S+ /.test(line.trim().replace(/^\S+ {2,}/, '')),
    );

const PLACED = [...FAMILIES.keys()].map((family, place) => [family, place] as const);

describe.each(PLACED)('%s keeps to 80 columns', (family, place) => {
  test('when it is made, fitted and planned, in every example', async () => {
    const cwd = tempFolder();
    for (const [i, { inputs }] of examplesIn(await loadFamily(family)).entries()) {
      writeFileSync(join(cwd, `${i}.json`), JSON.stringify({ family, ...inputs }));
      const ways = [
        ['make', '--fit', '--tolerance', 'm', '--out', `o${i}`],
        ['plan'],
        ['make', '--fit', '--tolerance', 'm', '--out', `o${i}`, '--print-units', 'inch'],
        ['plan', '--print-units', 'inch'],
      ];
      for (const args of byTurns(ways, place + i, 2)) {
        const [command = '', ...flags] = args;
        const { out, err } = await blankwright(
          [command, family, '--from', `${i}.json`, ...flags],
          cwd,
        );
        expect(out.length).toBeGreaterThan(0);
        expect([args, tooLong(out), tooLong(err)]).toEqual([args, [], []]);
      }
    }
  });

  test('when it is described', async () => {
    const { out } = await blankwright(['describe', family], tempFolder());
    expect(tooLong(out)).toEqual([]);
  });
});

const RUNS: readonly (readonly [string, readonly string[]])[] = [
  ['materials', ['materials']],
  ['materials in inches', ['materials', '--print-units', 'inch']],
  ['job in inches', ['job', 'inch.job.yaml']],
  ['cutlist in inches', ['cutlist', 'inch.job.yaml']],
  ['shop', ['shop']],
  ['list', ['list']],
  ['reason', ['reason']],
  ['one rule', ['reason', 'web-too-thin']],
  ['bend', ['bend', '--thickness', '3', '--radius', '3', '--angle', '90']],
  ['cutlist', ['cutlist', 'cart.job.yaml']],
  ['job', ['job', 'cart.job.yaml']],
  ['the same again', ['job', 'cart.job.yaml']],
  ['inspect', ['inspect', 'out/vineyard-cart/seat-post/seat-post-L.dxf', '--thickness', '3']],
  ['pack', ['pack', 'cart.job.yaml', '--out', 'packed']],
];

/** A job with every second of its parts. */
const halfOf = (job: string, half: number): string => {
  const [head = '', ...parts] = job.split(/^(?= {2}- family: )/m);
  return [head, ...byTurns(parts, half, 2)].join('');
};

test('every other command keeps to 80 columns', async () => {
  const cwd = tempFolder();
  cpSync(resolve('templates/demo'), cwd, { recursive: true });
  const job = readFileSync(join(cwd, 'cart.job.yaml'), 'utf8');
  // Each half of its parts in one unit: families are gone through above.
  writeFileSync(join(cwd, 'cart.job.yaml'), halfOf(job, 0));
  writeFileSync(
    join(cwd, 'inch.job.yaml'),
    halfOf(job, 1)
      .replace('title: vineyard cart', 'title: cart in inches')
      .replace('defaults:', 'defaults:\n  printUnits: inch'),
  );
  for (const [name, args] of RUNS) {
    const { out, err } = await blankwright(args, cwd);
    expect(out.length).toBeGreaterThan(0);
    expect([name, tooLong(out), tooLong(err)]).toEqual([name, [], []]);
  }
});

test('lines go on where their words begin, and a word without room stays whole', () => {
  expect(fitLines('  fold   A: 90 deg up, inside radius 4', 24)).toBe(
    '  fold   A: 90 deg up,\n         inside radius 4',
  );
  expect(fitLines('  CAUTION Cut edges are sharp', 20)).toBe(
    '  CAUTION Cut edges\n          are sharp',
  );
  expect(fitLines('  wrote  /a/very/long/path/to/some/file', 20)).toBe(
    '  wrote  /a/very/long/path/to/some/file',
  );
  expect(fitLines('short\n\n  as it is', 20)).toBe('short\n\n  as it is');
  expect(
    textColumns(
      [
        ['a b c d e f g h i', '12'],
        ['x', '3'],
      ],
      (i) => i === 0,
      16,
    ),
  ).toEqual(['a b c d e f   12', 'g h i', 'x              3']);
});
