import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { unzipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { safeName } from '../../src/text/safe-name.ts';
import { blankwright, json, type Problems, type Ran, tempFolder } from '../helpers/command.ts';
import { everything, ring, ringJob } from '../helpers/faults.ts';
import type { JobResult } from '../../src/contract/job.ts';
import { fileNames } from '../helpers/file-names.ts';

/** Names that a part may have, and that must not lead anywhere. */
const HELL = [
  '../x',
  '../../../../up',
  '/etc/passwd',
  '~/x',
  'a\\b',
  'c:\\d',
  'CON',
  'nul.txt',
  'COM1',
  'lpt¹',
  '. .',
  '...',
  ' leading and trailing. ',
  '-rf',
  '--force',
  '🔧',
  '🔧🔩 bolt',
  '日本',
  "it's",
  '"quoted"',
  '`id`',
  '$(touch pwned)',
  '%PATH%',
  '*',
  '?',
  '<script>alert(1)</script>',
  '__proto__',
  'constructor',
  'part',
  'part.json',
  'making.json',
  'x.dxf.1-2-3.part',
  'e\u0301'.repeat(30),
  'm'.repeat(80),
  "=cmd|' /C calc'!A0",
  '+1+1',
  '-1+1',
  '@SUM(1)',
  '＝1+1',
  'a,b;c',
  '#1',
];

const jobIn = (cwd: string, text: string): void => writeFileSync(join(cwd, 'job.yaml'), text);
const run = (cwd: string, ...flags: string[]): Promise<Ran> =>
  blankwright(['job', 'job.yaml', ...flags], cwd);

/** Every name that some file system takes for something else, or not at all. */
const expectPlain = (path: string): void => {
  for (const name of path.split('/').filter((step) => step !== '')) {
    expect(name).toMatch(/^[A-Za-z0-9_][A-Za-z0-9._-]{0,120}$/);
    expect(name).not.toMatch(/[.-]$|^(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)/i);
  }
};

/** Of names whose folders would meet, the first. */
const apart = HELL.filter(
  (name, i) =>
    HELL.findIndex(
      (other) => safeName(other.trim()).toLowerCase() === safeName(name.trim()).toLowerCase(),
    ) === i,
);

describe('names of parts from hell', () => {
  test('each has its own folder in that of the job, and is told as it was given', async () => {
    const cwd = tempFolder();
    expect(apart.length).toBeGreaterThan(25);
    jobIn(
      cwd,
      ringJob(
        apart.map((name, i) => ring(name, 100 + i)),
        '[]',
        '../../up/..',
      ),
    );
    const ran = await run(cwd, '--json');
    expect([ran.code, ran.err]).toEqual([0, '']);
    const { parts, folder } = json<JobResult>(ran);
    expect(parts.map((p) => p.name)).toEqual(apart.map((name) => name.trim()));
    expect(new Set(parts.map((p) => p.folder.toLowerCase())).size).toBe(apart.length);
    expect(readdirSync(cwd).toSorted()).toEqual(['job.yaml', 'out']);
    expect([folder, readdirSync(join(cwd, 'out'))]).toEqual([join('out', 'up'), ['up']]);
    for (const path of Object.keys(everything(join(cwd, 'out')))) expectPlain(path);
    expect(
      readdirSync(join(cwd, folder), { withFileTypes: true }).filter((e) => e.isDirectory()),
    ).toHaveLength(apart.length);
    expect((await run(cwd)).out).toContain(`0 made, ${apart.length} unchanged`);
    // What is read by a browser or a spreadsheet runs nothing.
    const index = readFileSync(join(cwd, folder, 'index.html'), 'utf8');
    expect(index).not.toMatch(/<script|onerror=|javascript:/i);
    const rows = parse(readFileSync(join(cwd, folder, 'cutlist.csv'), 'utf8'));
    expect(rows.flat().filter((cell) => /^[=+\-@＝＋－＠\t\r]/.test(cell))).toEqual([]);
    expect(rows.slice(1).map((row) => row[2]?.replace(/^'/, ''))).toEqual(
      apart.map((name) => name.trim()),
    );
  });

  test('in the archives for a cutting service too, and its parts list holds no formula', async () => {
    const cwd = tempFolder();
    const noted = ringJob(
      apart.map((name, i) =>
        ring(name, 100 + i).replace(
          'inputs:',
          `note: ${JSON.stringify(name)}, revision: '=1', inputs:`,
        ),
      ),
      '[]',
      '=cmd|x',
    );
    jobIn(cwd, noted);
    const ran = await blankwright(['pack', 'job.yaml'], cwd);
    expect([ran.code, ran.err]).toEqual([0, '']);
    expect(readdirSync(cwd).toSorted()).toEqual(['job.yaml', 'pack']);
    const [zip, ...others] = readdirSync(join(cwd, 'pack'));
    expect(others).toEqual([]);
    expectPlain(zip as string);
    const files = unzipSync(readFileSync(join(cwd, 'pack', zip as string)));
    expect(Object.keys(files)).toHaveLength(apart.length + 3);
    for (const name of Object.keys(files)) expectPlain(name);
    const rows = parse(Buffer.from(files['parts.csv'] as Uint8Array).toString());
    expect(rows).toHaveLength(apart.length + 1);
    expect(rows.flat().filter((cell) => /^[=+\-@＝＋－＠\t\r]/.test(cell))).toEqual([]);
  });

  test('two that make one folder are told, both as given, and nothing is made', async () => {
    const pairs = [
      ['Cover', 'cover'],
      ['d\u00e9ckel', 'de\u0301ckel'],
      ['a/b', 'a\\b'],
      [`${'m'.repeat(79)}a`, `${'m'.repeat(79)}b`],
      ['lid!', 'lid?'],
    ];
    const cwd = tempFolder();
    jobIn(cwd, ringJob(pairs.flat().map((name) => ring(name))));
    const ran = await run(cwd, '--json');
    expect(ran.code).toBe(2);
    const { problems } = json<Problems>(ran);
    expect(problems.map((p) => p.input)).toEqual(pairs.map((_, i) => `parts[${2 * i + 1}].name`));
    for (const [i, pair] of pairs.entries())
      for (const name of pair) expect(problems[i]?.given).toContain(name.slice(0, 50));
    expect(readdirSync(cwd)).toEqual(['job.yaml']);
  });

  test('two without a Latin letter are two parts, in a job, on the command line, on paper and in an archive', async () => {
    const names = ['日本', '🔧'];
    const cwd = tempFolder();
    jobIn(
      cwd,
      ringJob(
        names.map((name, i) => ring(name, 100 + i).replace('inputs:', 'hand: both, inputs:')),
        '[card]',
      ),
    );
    const job = await run(cwd, '--json');
    expect([job.code, job.err]).toEqual([0, '']);
    const { parts, folder } = json<JobResult>(job);
    expect(new Set(parts.map((p) => p.folder)).size).toBe(2);
    for (const one of parts) {
      const files = readdirSync(join(cwd, folder, one.folder));
      expect(files.toSorted()).toEqual(
        [
          ...['L', 'R'].flatMap((hand) => fileNames(`${one.folder}-${hand}`, ['card'])),
          'part.json',
        ].toSorted(),
      );
    }
    const made = await Promise.all(
      names.map((name) =>
        blankwright(
          [
            ...'make ring --outer 100 --inner 40 --bolt-circle 70 --thickness 2 --out made'.split(
              ' ',
            ),
            '--name',
            name,
          ],
          cwd,
        ),
      ),
    );
    expect(made.map((ran) => [ran.code, ran.err])).toEqual([
      [0, ''],
      [0, ''],
    ]);
    expect(readdirSync(join(cwd, 'made'))).toHaveLength(2 * fileNames('').length);
    expect((await blankwright(['pack', 'job.yaml'], cwd)).code).toBe(0);
    const [zip] = readdirSync(join(cwd, 'pack'));
    // A ring is the same in both hands, which are cut from one file.
    expect(
      Object.keys(unzipSync(readFileSync(join(cwd, 'pack', zip as string)))).filter((name) =>
        name.endsWith('.dxf'),
      ),
    ).toHaveLength(2);
  });

  test("those of the job's own files are told", async () => {
    const taken = ['index.html', 'Manifest.JSON', 'cutlist.csv'];
    const cwd = tempFolder();
    jobIn(cwd, ringJob(['cover', ...taken].map((name) => ring(name))));
    const ran = await run(cwd, '--json');
    expect([ran.code, json<Problems>(ran).problems]).toEqual([
      2,
      taken.map((name, i) =>
        expect.objectContaining({ input: `parts[${i + 1}].name`, given: `'${name}'` }),
      ),
    ]);
    expect(readdirSync(cwd)).toEqual(['job.yaml']);
  });

  test('those that steer a terminal, or are too long or too short, are refused and steer none', async () => {
    const refused = [
      'n'.repeat(300),
      'x\ny',
      'x\0y',
      'x\u2028y',
      '\u001b[31mred',
      'left\u202eright',
      '',
      ' ',
    ];
    const cwd = tempFolder();
    jobIn(cwd, ringJob(refused.map((name) => ring(name))));
    const ran = await run(cwd);
    const lines = ran.err.trimEnd().split('\n');
    expect([ran.code, ran.out, lines.length]).toEqual([2, '', refused.length]);
    for (const [i, line] of lines.entries())
      expect(line).toMatch(new RegExp(`^parts\\[${i}\\]\\.name: given '[^\\p{Cc}\\p{Cf}]*$`, 'u'));
    for (const title of ['x\ny', '\u001b[31mred']) {
      jobIn(cwd, ringJob([ring('cover')], '[]', title));
      expect((await run(cwd)).err.trimEnd()).toMatch(/^title: given '[^\p{Cc}\p{Cf}]*$/u);
    }
    expect(readdirSync(cwd)).toEqual(['job.yaml']);
  });
});

describe('titles of jobs', () => {
  test.each(['/etc', 'CON', 'a/../..'])(
    '%s: one plain folder in the folder asked for',
    async (title) => {
      const cwd = tempFolder();
      jobIn(cwd, ringJob([ring('cover')], '[]', title));
      const ran = await run(cwd, '--out', 'deep/out');
      expect([ran.code, ran.err]).toEqual([0, '']);
      expect([
        readdirSync(cwd).toSorted(),
        readdirSync(join(cwd, 'deep')),
        readdirSync(join(cwd, 'deep', 'out')).length,
      ]).toEqual([['deep', 'job.yaml'], ['out'], 1]);
      for (const path of Object.keys(everything(join(cwd, 'deep')))) expectPlain(path);
    },
  );

  test('two of which one folder comes do not take away what is of the other, unless forced', async () => {
    const cwd = tempFolder();
    jobIn(cwd, ringJob([ring('cover')], '[]', 'cart!'));
    await run(cwd);
    const before = everything(join(cwd, 'out'));
    jobIn(cwd, ringJob([ring('lid')], '[]', 'cart?'));
    const ran = await run(cwd);
    expect([ran.code, ran.err]).toEqual([
      2,
      expect.stringContaining("title: given 'cart?', but out/cart holds the job 'cart!'"),
    ]);
    expect(everything(join(cwd, 'out'))).toEqual(before);
    expect((await run(cwd, '--force')).out).toContain('taken away: cover');
    expect((await run(cwd)).code).toBe(0);
  });
});

describe('names on the command line', () => {
  const RING = 'make ring --outer 100 --inner 40 --bolt-circle 70 --thickness 2'.split(' ');

  test.each(['-rf', 'a\n\u001b[31mred'])(
    '--out %j makes that folder and no other, and steers no terminal',
    async (out) => {
      const cwd = tempFolder();
      const made = await blankwright([...RING, `--out=${out}`], cwd);
      expect([made.code, readdirSync(cwd), readdirSync(join(cwd, out)).toSorted()]).toEqual([
        0,
        [out],
        fileNames('ring'),
      ]);
      // A file of somebody else's in the way.
      writeFileSync(join(cwd, out, 'ring.dxf'), 'mine');
      const refused = await blankwright([...RING, `--out=${out}`], cwd);
      expect([refused.code, refused.err.trimEnd()]).toEqual([
        2,
        expect.stringMatching(/^out: given [^\p{Cc}\p{Cf}]*$/u),
      ]);
    },
  );

  test('--out of too many letters: exit 3', async () => {
    const cwd = tempFolder();
    const ran = await blankwright([...RING, '--out', 'n'.repeat(300)], cwd);
    expect([ran.code, ran.err]).toEqual([3, expect.stringContaining('the name is too long')]);
    expect(readdirSync(cwd)).toEqual([]);
  });

  test.each(['n'.repeat(300), '\u001b[31mred'])('--name %j is refused', async (name) => {
    const cwd = tempFolder();
    const ran = await blankwright([...RING, `--name=${name}`], cwd);
    expect([ran.code, ran.err.trimEnd(), readdirSync(cwd)]).toEqual([
      2,
      expect.stringMatching(/^(?:--)?name: given [^\p{Cc}\p{Cf}]*$/u),
      [],
    ]);
  });
});
