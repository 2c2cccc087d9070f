import {
  lstatSync,
  mkdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { DiskRefused, WrongInput } from '../../src/cli/failure.ts';
import { saveAll } from '../../src/cli/save.ts';
import {
  BRACKET,
  blankwright,
  contents,
  json,
  names,
  type Problems,
  tempFolder,
} from '../helpers/command.ts';
import { fileNames } from '../helpers/file-names.ts';

const MARK = 'blankwright bracket-angle seat-post left';
const file = (name: string, text: string, mark = MARK) => ({
  name,
  mark,
  contents: `999\n${mark}\n${text}`,
});
const TWO = [
  file('seat-post-L.dxf', 'left'),
  file('seat-post-R.dxf', 'right', 'blankwright bracket-angle seat-post right'),
];

describe('saving a set of files', () => {
  test('makes the folder, also a deep one, and leaves nothing else in it', () => {
    const out = join(tempFolder(), 'jobs', 'cart');
    expect(saveAll(out, TWO, false)).toEqual([
      join(out, 'seat-post-L.dxf'),
      join(out, 'seat-post-R.dxf'),
    ]);
    expect(contents(out)).toEqual(Object.fromEntries(TWO.map((f) => [f.name, f.contents])));
  });

  test('replaces files of the same part', () => {
    const out = tempFolder();
    saveAll(out, [file('a.dxf', 'old')], false);
    saveAll(out, [file('a.dxf', 'new')], false);
    expect(contents(out)).toEqual({ 'a.dxf': `999\n${MARK}\nnew` });
  });

  test.each([
    ['a file without the mark', '0\nSECTION\n'],
    ['an empty file', ''],
    ["another part's", '999\nblankwright bracket-angle seat-post right\n'],
    ['one whose mark goes on', `999\n${MARK}-rear\n`],
    ['one with the mark far down', `${'x'.repeat(5000)}\n${MARK}\n`],
  ])('does not replace %s, nor write the other file, unless forced', (_, text) => {
    const out = tempFolder();
    writeFileSync(join(out, 'seat-post-L.dxf'), text);
    expect(() => saveAll(out, TWO.toReversed(), false)).toThrow(
      /out: given .*seat-post-L\.dxf, which was not made for this part; allowed: .*--force/,
    );
    expect(contents(out)).toEqual({ 'seat-post-L.dxf': text });
    saveAll(out, TWO, true);
    expect(contents(out)).toEqual(Object.fromEntries(TWO.map((f) => [f.name, f.contents])));
  });

  test.each([true, false])('writes through no link in the folder, forced or not (%s)', (force) => {
    const folder = tempFolder();
    const out = join(folder, 'out');
    mkdirSync(out);
    const precious = join(folder, 'precious.dxf');
    writeFileSync(precious, `999\n${MARK}\nmine`);
    for (const target of [precious, join(folder, 'nothing-there.dxf'), '/dev/null']) {
      const link = join(out, 'seat-post-L.dxf');
      symlinkSync(target, link);
      expect(() => saveAll(out, TWO, force)).toThrow(WrongInput);
      expect(readlinkSync(link)).toBe(target);
      expect(names(out)).toEqual(['seat-post-L.dxf']);
      rmSync(link);
    }
    expect(names(folder)).toEqual(['out', 'precious.dxf']);
    expect(readFileSync(precious, 'utf8')).toBe(`999\n${MARK}\nmine`);
  });

  test('the folder itself may be a link', () => {
    const folder = tempFolder();
    mkdirSync(join(folder, 'real'));
    symlinkSync('real', join(folder, 'out'));
    saveAll(join(folder, 'out'), TWO, false);
    expect(names(join(folder, 'real'))).toHaveLength(2);
    expect(lstatSync(join(folder, 'out')).isSymbolicLink()).toBe(true);
  });

  test('a folder in the way of a file is left alone, also when forced', () => {
    const out = tempFolder();
    mkdirSync(join(out, 'seat-post-R.dxf'));
    expect(() => saveAll(out, TWO, true)).toThrow(/which is not a file/);
    expect(names(out)).toEqual(['seat-post-R.dxf']);
  });

  test('a failure at the last file leaves the first as it was, and nothing half written', () => {
    const out = tempFolder();
    saveAll(out, TWO, false);
    const before = contents(out);
    // Names end at 255 bytes on every common disk: the shorter one is free, but there is no room
    // for a temporary one; the longer one cannot even be asked for.
    for (const length of [245, 300]) {
      const impossible = [
        ...TWO.map((f) => ({ ...f, contents: `${f.contents} new` })),
        file('n'.repeat(length), 'x'),
      ];
      expect(() => saveAll(out, impossible, true)).toThrow(DiskRefused);
      expect(contents(out)).toEqual(before);
    }
  });

  test('what a run that was killed left of the same files is taken away; what is of others, or of a run that goes on, stays', () => {
    const out = tempFolder();
    const dead = 999_999_999;
    const theirs = [
      `seat-post-L.dxf.${process.ppid}-1-0.part`,
      `lid.dxf.${dead}-1-0.part`,
      'seat-post-L.dxf.part',
      `seat-post-L.dxf.${dead}-1-0.part.txt`,
    ];
    for (const name of [
      ...theirs,
      `seat-post-L.dxf.${dead}-1-0.part`,
      `seat-post-R.dxf.${process.pid}-1-0.part`,
    ])
      writeFileSync(join(out, name), 'half');
    saveAll(out, TWO, false);
    expect(names(out)).toEqual([...TWO.map((f) => f.name), ...theirs].toSorted());
  });

  test('two files of one name are refused before anything is written', () => {
    const out = join(tempFolder(), 'out');
    expect(() => saveAll(out, [file('a.dxf', '1'), file('A.dxf', '2')], true)).toThrow(WrongInput);
    expect(names(out)).toEqual([]);
  });
});

describe('the command and the disk', () => {
  test('makes the same bytes twice, replaces its own, and refuses those of others', async () => {
    const cwd = tempFolder();
    const out = join(cwd, 'out');
    await blankwright([...BRACKET, '--hand', 'both'], cwd);
    const first = contents(out);
    expect((await blankwright([...BRACKET, '--hand', 'both'], cwd)).code).toBe(0);
    expect(contents(out)).toEqual(first);
    // A different part that would take the same names.
    const zed =
      'make bracket-zed --flange-a 30 --offset 40 --flange-b 30 --width 50 --thickness 3 --name bracket-angle --hand both'.split(
        ' ',
      );
    const refused = await blankwright(zed, cwd);
    expect([refused.code, refused.out]).toEqual([2, '']);
    expect(refused.err).toContain(`out: given ${join('out', 'bracket-angle-L.dxf')}`);
    expect(contents(out)).toEqual(first);
    expect((await blankwright([...zed, '--force'], cwd)).code).toBe(0);
    expect(contents(out)).not.toEqual(first);
  });

  test.each([
    ['a file stands where the folder should', 'out'],
    ['a file stands on the way', 'out/deeper/still'],
  ])('exit 3 and a plain sentence: %s', async (_, out) => {
    const cwd = tempFolder();
    writeFileSync(join(cwd, 'out'), 'mine');
    const [plain, machine] = await Promise.all([
      blankwright([...BRACKET, '--out', out], cwd),
      blankwright([...BRACKET, '--out', out, '--json'], cwd),
    ]);
    expect([plain.code, plain.out, machine.code, machine.err]).toEqual([3, '', 3, '']);
    expect(plain.err).toMatch(/^The folder \S+ cannot be made: [^\n]*--out\.\n$/);
    expect(json<Problems>(machine).problems.map((p) => p.input)).toEqual(['out']);
    expect(contents(cwd)).toEqual({ out: 'mine' });
  });

  test('exit 3 where the system makes no files', async () => {
    // No file can be made in /proc, not even by the superuser.
    const { code, err } = await blankwright([...BRACKET, '--out', '/proc/self'], tempFolder());
    expect(code).toBe(3);
    expect(err).toMatch(/^Nothing was written to \/proc\/self: [^\n]*\n$/);
  });

  test('exit 3, and soon, where the system makes no folders', async () => {
    // Node's own recursive mkdir never returns from this one (measured on Node 20.20, Linux).
    const cwd = tempFolder();
    const runs = await Promise.all(
      ['/proc/nowhere', '/proc/nowhere/deeper'].map((out) =>
        blankwright([...BRACKET, '--out', out], cwd),
      ),
    );
    for (const { code, err } of runs) {
      expect(code).toBe(3);
      expect(err).toMatch(/^The folder \/proc\/nowhere\S* cannot be made: [^\n]*\n$/);
    }
  });

  test('whatever a part is called, its files stand in the folder', async () => {
    const hells = [
      '../../up',
      '/etc/passwd',
      '..',
      'CON',
      'nul.dxf',
      'a/b\\c',
      'x\ny',
      ' . ',
      '日本',
      '-rf',
      '$(touch pwned)',
      'e\u0301'.repeat(30),
      '__proto__',
      'ä'.repeat(80),
    ];
    for (let i = 0; i < hells.length; i += 4) {
      await Promise.all(
        hells.slice(i, i + 4).map(async (hell) => {
          const cwd = tempFolder();
          const ran = await blankwright(
            [...BRACKET, `--name=${hell}`, '--hand', 'both', '--out', 'deep/out'],
            cwd,
          );
          // A name may be refused, but then in words and with no file.
          expect([0, 2]).toContain(ran.code);
          const made = names(join(cwd, 'deep', 'out'));
          expect(names(cwd)).toEqual(ran.code === 0 ? ['deep'] : []);
          expect(made).toHaveLength(ran.code === 0 ? 2 * fileNames('').length : 0);
          for (const name of made) expect(name).toMatch(/^[A-Za-z0-9_][A-Za-z0-9._-]*\.[a-z\d]+$/);
          if (ran.code === 2) expect(ran.err).toContain('name');
        }),
      );
    }
  });
});
