import { spawnSync } from 'node:child_process';
import { readdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';
import { blankwright, json, tempFolder } from '../helpers/command.ts';

interface Lists {
  readonly lists: readonly {
    readonly input: string;
    readonly count: number;
    readonly what: string;
    readonly endsOpen: boolean;
  }[];
}

const PLATE = [
  'make',
  'plate',
  '--outline',
  '0,0; 120,0; 120,80; 0,80',
  '--thickness',
  '2',
  '--material',
  's235',
];

test('make counts back what it read of each input that holds several', async () => {
  const ran = await blankwright(
    [
      ...PLATE,
      '--holes',
      '20,20,6; 60,40, 4 off PC 20 4',
      '--folds',
      '0,60 120,60 90 up',
      '--cutouts',
      '80,10; 100,10; 90,30',
    ],
    tempFolder(),
  );
  expect(ran.err).toBe('');
  expect(ran.out.split('\n').filter((line) => line.endsWith(' read'))).toEqual([
    'outline: 4 points read',
    'cutouts: 1 cut-out read',
    'folds: 1 fold line read',
    'holes: 5 holes read',
  ]);
});

test('a text that stops where another would begin is told, and JSON says the same', async () => {
  expect(
    (await blankwright([...PLATE, '--holes', '20,20,6; 40,20,6;'], tempFolder())).out,
  ).toContain("holes: 2 holes read; the text stops at a ';'");
  const { lists } = json<Lists>(
    await blankwright([...PLATE, '--holes', '20,20,6;', '--json'], tempFolder()),
  );
  expect(lists).toEqual([
    { input: 'outline', count: 4, what: 'points', endsOpen: false },
    { input: 'holes', count: 1, what: 'hole', endsOpen: true },
  ]);
});

test('a shell that takes the second hole for a command leaves one, and the count says so', () => {
  const cwd = tempFolder();
  const { stdout, stderr } = spawnSync(
    'bash',
    [
      '-c',
      `"$0" "$1" make bracket-angle --leg-a 60 --leg-b 40 --width 80 --thickness 3 --holes-a 35,20,M8; 35,60,M8`,
      process.execPath,
      resolve('dist/blankwright.cjs'),
    ],
    { cwd, encoding: 'utf8' },
  );
  expect(stderr).toContain('35,60,M8');
  expect(stdout).toContain('holesA: 1 hole read');
  expect(readdirSync(join(cwd, 'out'))).toContain('bracket-angle.dxf');
});

test('in a file each may stand on a line of its own, with or without a ; at its end', async () => {
  const cwd = tempFolder();
  writeFileSync(
    join(cwd, 'plate.yaml'),
    'family: plate\nthickness: 2\nmaterial: s235\noutline: |\n  0,0;\n  120,0;\n\n  120,80\n  0,80\nholes: |\n  20,20,6;\n  40,20,6\nfolds: |\n  0,60 120,60 90 up;\n',
  );
  const { lists } = json<Lists>(
    await blankwright(['make', 'plate', '--from', 'plate.yaml', '--json'], cwd),
  );
  expect(lists.map((l) => [l.input, l.count])).toEqual([
    ['outline', 4],
    ['folds', 1],
    ['holes', 2],
  ]);
});

test('describe draws what the figures of a short hole are measured from, each pair once', async () => {
  const pictureOf = async (family: string): Promise<string> =>
    /measured from\n([^]*?)\n\nHoles have/.exec(
      (await blankwright(['describe', family], tempFolder())).out,
    )?.[1] ?? '';
  expect(await pictureOf('bracket-angle')).toBe(
    [
      '  --holes-a, --holes-b 35,20,M8',
      '    left',
      '    |<- 20 ->o',
      '    |        ^',
      '    |        35',
      '    |        v',
      '    +----------- fold',
    ].join('\n'),
  );
  expect(await pictureOf('plate')).toContain(
    '    x = 0\n    |<- 35 ->o\n    |        ^\n    |        20\n',
  );
  expect(
    (await pictureOf('tray')).split('\n').filter((line) => line.startsWith('  --')),
  ).toHaveLength(5);
});
