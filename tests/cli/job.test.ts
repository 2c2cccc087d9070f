import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import {
  blankwright,
  COMMAND,
  contents,
  json,
  type Problems,
  type Ran,
  runProcess,
  tempFolder,
} from '../helpers/command.ts';
import type { JobResult } from '../../src/contract/job.ts';
import { fileNames } from '../helpers/file-names.ts';

const JOB = `title: hand cart
defaults: { material: s235, thickness: 2, papers: [card] }
measurements: { postWidth: 80 }
parts:
  - family: bracket-angle
    name: seat post
    hand: both
    inputs: { legA: 60, legB: 40, width: postWidth, radius: 2 }
  - { family: ring, name: cover, inputs: { outer: 100, inner: 40, boltCircle: 70 } }
  - { family: test-strip, name: coupon, quantity: 3, inputs: { flatLength: 150 } }
`;

const FOLDER = join('out', 'hand-cart');

const jobIn = (cwd: string, text: string = JOB): void =>
  writeFileSync(join(cwd, 'cart.yaml'), text);
const run = (cwd: string, ...flags: string[]): Promise<Ran> =>
  blankwright(['job', 'cart.yaml', ...flags], cwd);
const runJson = async (cwd: string, ...flags: string[]): Promise<JobResult> =>
  json<JobResult>(await run(cwd, '--json', ...flags));
const statusOf = ({ parts }: JobResult): Record<string, string> =>
  Object.fromEntries(parts.map((p) => [p.name, p.status]));

/** Every file below a folder, by its path from there, with what it holds. */
const tree = (folder: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((name) => statSync(join(folder, name)).isFile())
      .toSorted()
      .map((name) => [name, readFileSync(join(folder, name), 'latin1')]),
  );

describe('a job', () => {
  test('makes a folder for each part, an index and a manifest of every file; the same again anywhere', async () => {
    const [one, two] = [tempFolder(), tempFolder()];
    jobIn(one);
    jobIn(two);
    const first = await run(one);
    expect([first.code, first.err]).toEqual([0, '']);
    for (const said of [
      `made       seat post, ${2 * fileNames('', ['card']).length} files`,
      '3 made, 0 unchanged, 0 refused',
      join(FOLDER, 'index.html'),
    ])
      expect(first.out).toContain(said);
    await run(two);
    const files = tree(join(one, FOLDER));
    expect(files).toEqual(tree(join(two, FOLDER)));
    expect(Object.keys(files)).toEqual(
      expect.arrayContaining([
        'index.html',
        'manifest.json',
        'seat-post/seat-post-L.dxf',
        'seat-post/seat-post-R-card.pdf',
        'cover/cover.svg',
        'coupon/part.json',
      ]),
    );
    const manifest = JSON.parse(files['manifest.json'] ?? '') as {
      parts: { files: { path: string; sha256: string }[]; inputs: object }[];
    };
    const listed = manifest.parts.flatMap((p) => p.files);
    for (const { path, sha256 } of listed)
      expect(
        createHash('sha256')
          .update(readFileSync(join(one, FOLDER, path)))
          .digest('hex'),
      ).toBe(sha256);
    expect(listed.map((f) => f.path).toSorted()).toEqual(
      Object.keys(files).filter((name) => name.includes('/') && !name.endsWith('part.json')),
    );
    expect(manifest.parts[0]?.inputs).toMatchObject({ width: '80' });
  });

  test('makes again only what has changed, and takes away what is no longer in it', async () => {
    const cwd = tempFolder();
    jobIn(cwd);
    await run(cwd);
    const before = tree(join(cwd, FOLDER));
    const again = await runJson(cwd);
    expect(statusOf(again)).toEqual({
      'seat post': 'unchanged',
      cover: 'unchanged',
      coupon: 'unchanged',
    });
    expect(tree(join(cwd, FOLDER))).toEqual(before);
    jobIn(
      cwd,
      JOB.replace('postWidth: 80', 'postWidth: 90').replace(/ {2}- \{ family: ring.*\n/, ''),
    );
    const changed = await runJson(cwd);
    expect(statusOf(changed)).toEqual({ 'seat post': 'made', coupon: 'unchanged' });
    expect(changed.summary).toMatchObject({ made: 1, unchanged: 1, removed: 1 });
    expect(existsSync(join(cwd, FOLDER, 'cover'))).toBe(false);
    expect(statusOf(await runJson(cwd, '--all'))).toEqual({ 'seat post': 'made', coupon: 'made' });
  });

  test('makes again what another shop, or a file that is missing, makes necessary', async () => {
    const cwd = tempFolder();
    jobIn(cwd);
    await run(cwd);
    rmSync(join(cwd, FOLDER, 'cover', 'cover.dxf'));
    expect(statusOf(await runJson(cwd))).toEqual({
      'seat post': 'unchanged',
      cover: 'made',
      coupon: 'unchanged',
    });
    const shop = (await blankwright(['shop'], cwd)).out;
    writeFileSync(join(cwd, 'shop.yaml'), shop.replace(/weldGap: .*/, 'weldGap: 0.9'));
    expect(Object.values(statusOf(await runJson(cwd)))).toEqual(['made', 'made', 'made']);
  });

  test('one part that cannot be made does not lose the others, and leaves no file to cut', async () => {
    const cwd = tempFolder();
    jobIn(cwd);
    await run(cwd);
    // A hole that lies off the metal.
    jobIn(cwd, JOB.replace('radius: 2', "radius: 2, holesA: '35,300,M8'"));
    const ran = await run(cwd);
    expect(ran.code).toBe(1);
    expect(ran.out).toMatch(/refused {4}seat post: .*hole/i);
    expect(Object.keys(contents(join(cwd, FOLDER, 'seat-post')))).toEqual(['part.json']);
    expect(existsSync(join(cwd, FOLDER, 'cover', 'cover.dxf'))).toBe(true);
    expect(readFileSync(join(cwd, FOLDER, 'index.html'), 'utf8')).toContain('Not made');
    expect(statusOf(await runJson(cwd))).toEqual({
      'seat post': 'refused',
      cover: 'unchanged',
      coupon: 'unchanged',
    });
  });

  test('warnings are silenced by rule, a stop is not', async () => {
    const cwd = tempFolder();
    const thin =
      'title: x\ndefaults: { thickness: 2.3, papers: [] }\nparts:\n  - { family: ring, inputs: { outer: 100, inner: 40, boltCircle: 70 } }\n';
    jobIn(cwd, thin);
    const loud = await runJson(cwd);
    const rules = loud.parts[0]?.parts[0]?.findings.map((f) => f.rule) ?? [];
    expect(rules).toContain('thickness-not-stocked');
    jobIn(cwd, `silence: [thickness-not-stocked]\n${thin}`);
    const quiet = await runJson(cwd);
    expect(quiet.parts[0]?.parts[0]?.findings.map((f) => f.rule)).not.toContain(
      'thickness-not-stocked',
    );
    expect(quiet.summary.silenced).toBeGreaterThan(0);
    jobIn(cwd, `silence: [hole-off-metal]\n${thin.replace('boltCircle: 70', 'boltCircle: 99')}`);
    expect((await run(cwd)).code).toBe(1);
  });

  test('warnings are told once, by rule, whichever hands and pieces they hold for', async () => {
    const cwd = tempFolder();
    // Holes under what plasma cuts in 3 mm, in both hands and in two parts.
    const angle = (name: string, holes: string): string =>
      `  - { family: bracket-angle, name: ${name}, hand: both, inputs: { legA: 60, legB: 40, width: 80, thickness: 3, radius: 3, holesA: '${holes}' } }\n`;
    jobIn(
      cwd,
      `title: x\ndefaults: { papers: [] }\nparts:\n${angle('seat post', '35,20,3; 35,60,M8')}${angle('lamp post', '35,20,3')}${angle('fine', '35,20,M8')}`,
    );
    const ran = await run(cwd);
    expect([ran.code, ran.err]).toEqual([0, '']);
    const lines = ran.out.split('\n');
    const cautions = lines.filter((line) => line.startsWith('  CAUTION '));
    expect(cautions.length).toBeGreaterThan(3);
    expect(new Set(cautions).size).toBe(cautions.length);
    expect(lines.indexOf('Cautions')).toBeLessThan(
      lines.findIndex((line) => line.startsWith('Warnings')),
    );
    const said = lines.filter((line) => line.startsWith('  ') && !cautions.includes(line));
    expect(said).toEqual([
      '  hole-below-least',
      expect.stringMatching(
        /^ {4}seat post, lamp post: Hole h1 \(holesA 1\) in leg A: diameter 3 .*cutter 'plasma'/,
      ),
    ]);
    expect(ran.out).toContain('3 made, 0 unchanged, 0 refused; 1 warning.\n');
    // As JSON they are told of every hand, and of a part that was left alone too.
    const again = await runJson(cwd);
    expect([again.summary.unchanged, again.summary.warnings]).toEqual([3, 4]);
    expect((await run(cwd)).out).toContain('    seat post, lamp post: Hole');
  });

  test('a mistake in the file is told with its place, and nothing is written', async () => {
    const cwd = tempFolder();
    jobIn(cwd, JOB.replace('legA: 60', 'legA: ten'));
    const ran = await run(cwd, '--json');
    expect(ran.code).toBe(2);
    expect(json<Problems>(ran).problems).toMatchObject([
      {
        input: 'parts[0].inputs.legA',
        given: expect.stringContaining('line 8, column 21') as string,
      },
    ]);
    expect(existsSync(join(cwd, 'out'))).toBe(false);
    expect((await blankwright(['job'], cwd)).code).toBe(2);
    expect((await blankwright(['job', 'nosuch.yaml'], cwd)).code).toBe(2);
  });
});

describe('what others have put into the folder', () => {
  test('is neither replaced nor taken away, unless forced', async () => {
    const cwd = tempFolder();
    jobIn(cwd);
    mkdirSync(join(cwd, FOLDER, 'cover'), { recursive: true });
    mkdirSync(join(cwd, FOLDER, 'photos'));
    writeFileSync(join(cwd, FOLDER, 'cover', 'cover.dxf'), 'mine');
    writeFileSync(join(cwd, FOLDER, 'photos', 'cart.jpg'), 'mine');
    const ran = await run(cwd);
    expect(ran.code).toBe(1);
    expect(ran.out).toContain(
      `refused    cover: ${join(FOLDER, 'cover')}/cover.dxf was not made by this command`,
    );
    expect(readFileSync(join(cwd, FOLDER, 'cover', 'cover.dxf'), 'utf8')).toBe('mine');
    expect((await run(cwd, '--force')).code).toBe(0);
    expect(readFileSync(join(cwd, FOLDER, 'photos', 'cart.jpg'), 'utf8')).toBe('mine');
    expect(readFileSync(join(cwd, FOLDER, 'cover', 'cover.dxf'), 'latin1')).toContain('ENTITIES');
  });

  test('a file that was changed since is not lost', async () => {
    const cwd = tempFolder();
    jobIn(cwd);
    await run(cwd);
    const file = join(cwd, FOLDER, 'cover', 'cover.dxf');
    writeFileSync(file, `${readFileSync(file, 'latin1')} `);
    jobIn(cwd, JOB.replace('outer: 100', 'outer: 110'));
    const ran = await run(cwd);
    expect(ran.out).toContain('was changed since');
    expect(readFileSync(file, 'latin1').endsWith(' ')).toBe(true);
    // It stays too when its part leaves the job.
    jobIn(cwd, JOB.replace(/ {2}- \{ family: ring.*\n/, ''));
    const left = await runJson(cwd);
    expect(left.left).toEqual(['cover/cover.dxf']);
    expect(Object.keys(contents(join(cwd, FOLDER, 'cover')))).toEqual(['cover.dxf']);
  });

  test('a link in place of a folder is not followed', async () => {
    const [cwd, elsewhere] = [tempFolder(), tempFolder()];
    jobIn(cwd);
    mkdirSync(join(cwd, FOLDER), { recursive: true });
    symlinkSync(elsewhere, join(cwd, FOLDER, 'cover'));
    const ran = await run(cwd);
    expect(ran.code).toBe(1);
    expect(contents(elsewhere)).toEqual({});
  });

  test('a record that somebody wrote does not lead out of its folder', async () => {
    const cwd = tempFolder();
    jobIn(cwd, JOB.replace(/ {2}- \{ family: ring.*\n/, ''));
    mkdirSync(join(cwd, FOLDER, 'cover'), { recursive: true });
    writeFileSync(join(cwd, 'mine.txt'), 'mine');
    const sha256 = createHash('sha256').update('mine').digest('hex');
    writeFileSync(
      join(cwd, FOLDER, 'cover', 'part.json'),
      JSON.stringify({
        tool: 'blankwright',
        hash: 'x',
        files: [{ name: '../../../mine.txt', sha256, bytes: 4 }],
      }),
    );
    expect((await run(cwd)).code).toBe(0);
    expect(readFileSync(join(cwd, 'mine.txt'), 'utf8')).toBe('mine');
  });
});

describe('two runs, and one that is broken off', () => {
  test('a folder is written by one run at a time; a dead one is no hindrance', async () => {
    const cwd = tempFolder();
    jobIn(cwd);
    mkdirSync(join(cwd, FOLDER), { recursive: true });
    writeFileSync(join(cwd, FOLDER, '.running'), String(process.pid));
    const ran = await runProcess(['job', 'cart.yaml'], cwd);
    expect([ran.code, ran.err]).toEqual([2, expect.stringContaining(`process ${process.pid}`)]);
    writeFileSync(join(cwd, FOLDER, '.running'), '999999999');
    expect((await run(cwd)).code).toBe(0);
    expect(existsSync(join(cwd, FOLDER, '.running'))).toBe(false);
  });
});

/** `job --watch` in a folder; gives how to wait for what it says next. */
const watching = (cwd: string, ...args: string[]): ((text: string) => Promise<void>) => {
  const child = spawn(process.execPath, [COMMAND, 'job', '--watch', ...args], { cwd });
  onTestFinished(() => void child.kill('SIGKILL'));
  let said = '';
  child.stdout.on('data', (part: Buffer) => (said += part.toString()));
  child.stderr.on('data', (part: Buffer) => (said += part.toString()));
  return async (text) => {
    while (!said.includes(text)) await new Promise((done) => setTimeout(done, 30));
    said = said.slice(said.indexOf(text) + text.length);
  };
};

describe('--watch makes the job again', () => {
  test('when its file is saved, and waits for a mistake to be mended', async () => {
    const cwd = tempFolder();
    jobIn(cwd);
    const until = watching(cwd, 'cart.yaml');
    await until('3 made');
    await until('Watching cart.yaml');
    jobIn(cwd, JOB.replace('postWidth: 80', 'postWidth: 85'));
    await until('1 made, 2 unchanged');
    await until('Watching');
    jobIn(cwd, 'title: [');
    await until('job: given');
    await until('Watching');
    jobIn(cwd);
    await until('1 made, 2 unchanged');
  });

  test('when the shop file that it names is saved, taken away, put back, or another is named', async () => {
    const cwd = tempFolder();
    const shop = (gap: number): string =>
      `cutters: [{ name: table, process: plasma, thickness: { from: 1, to: 12 }, bed: { length: 1250, width: 1250 }, kerf: [{ thickness: 2, kerf: 1.5 }] }]\nweldGap: ${gap}\n`;
    mkdirSync(join(cwd, 'shops'));
    writeFileSync(join(cwd, 'shops', 'mine.yaml'), shop(0.5));
    writeFileSync(join(cwd, 'shops', 'other.yaml'), shop(0.7));
    jobIn(cwd, `shop: shops/mine.yaml\n${JOB}`);
    const until = watching(cwd, 'cart.yaml');
    await until('3 made');
    await until(`Watching cart.yaml, ${join('shops', 'mine.yaml')};`);
    writeFileSync(join(cwd, 'shops', 'mine.yaml'), shop(0.6));
    await until('3 made');
    await until('Watching');
    rmSync(join(cwd, 'shops', 'mine.yaml'));
    await until('shop: given shops/mine.yaml');
    await until('it does not exist');
    await until('Watching');
    writeFileSync(join(cwd, 'shops', 'mine.yaml'), shop(0.6));
    await until('3 unchanged');
    await until('Watching');
    jobIn(cwd, `shop: shops/other.yaml\n${JOB}`);
    await until('3 made');
    await until(`Watching cart.yaml, ${join('shops', 'other.yaml')};`);
    writeFileSync(join(cwd, 'shops', 'other.yaml'), shop(0.8));
    await until('3 made');
  });

  test('of a folder that was deleted, which it tells, once that is there again', async () => {
    const [cwd, aside] = [tempFolder(), join(tempFolder(), 'aside')];
    mkdirSync(join(cwd, 'work'));
    jobIn(join(cwd, 'work'));
    const until = watching(cwd, join('work', 'cart.yaml'), '--out', 'made');
    await until('3 made');
    await until('Watching');
    renameSync(join(cwd, 'work'), aside);
    await until('it does not exist');
    await until('Watching');
    mkdirSync(join(cwd, 'work'));
    jobIn(join(cwd, 'work'), JOB.replace('postWidth: 80', 'postWidth: 85'));
    await until('1 made, 2 unchanged');
  });
});
