import { execFile } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { MakeResult } from '../../src/contract/part.ts';
import { readShop } from '../../src/shop/read.ts';
import { drawnDxf } from '../helpers/drawn-dxf.ts';
import { COMMAND, json, names, type Problems, type Ran, tempFolder } from '../helpers/command.ts';

/** Runs the built command with a config folder of the test's own. */
const run = (
  args: readonly string[],
  cwd: string,
  config: string = join(cwd, 'no-config'),
): Promise<Ran> =>
  new Promise((done) => {
    execFile(
      process.execPath,
      [COMMAND, ...args],
      { cwd, env: { ...process.env, XDG_CONFIG_HOME: config } },
      (error, out, err) => done({ code: error === null ? 0 : Number(error.code), out, err }),
    );
  });

/** A shop whose one cutter takes sheet from 1 to `thickest` mm and holes from 12 mm on. */
const shopText = (name: string, thickest = 6): string =>
  `name: ${name}\ncutters:\n  - { name: torch, process: plasma, thickness: { from: 1, to: ${thickest} }, bed: { length: 1000, width: 500 }, kerf: [{ thickness: 3, kerf: 1.5 }], leastHole: [{ mm: 12 }] }\n`;

interface Printed {
  readonly file: string | null;
  readonly shop: {
    readonly name: string;
    readonly cutters: readonly { readonly process: string }[];
  };
  readonly sources: Readonly<Record<string, unknown>>;
  readonly basis: Readonly<Record<string, string>>;
  readonly from: Readonly<Record<string, string>>;
}

const MAKE =
  'make bracket-angle --leg-a 60 --leg-b 40 --width 80 --thickness 3 --radius 3 --holes-a 35,20,M8'.split(
    ' ',
  );

describe('blankwright shop', () => {
  test('prints the built-in shop as a file that can be used, each figure with its source', async () => {
    const cwd = tempFolder();
    const ran = await run(['shop'], cwd);
    expect([ran.code, ran.err]).toEqual([0, '']);
    expect(ran.out).toContain('shop.yaml');
    expect(ran.out).toMatch(/# common practice: 1 thickness[^:]*(?:\n +#.*)*\n +leastHole:/);
    expect(readShop(ran.out)).toMatchObject({ ok: true, shop: { name: 'a small shop, assumed' } });
    const printed = json<Printed>(await run(['shop', '--json'], cwd));
    const { file, shop, sources } = printed;
    expect([file, shop.cutters.map((c) => c.process)]).toEqual([null, ['plasma', 'laser']]);
    expect(Object.keys(printed)).toEqual(['file', 'shop', 'sources', 'basis', 'from', 'saved']);
    expect(new Set(Object.values(printed.basis))).toEqual(new Set(['assumed']));
    expect(new Set(Object.values(printed.from))).toEqual(new Set(['built-in']));
    expect(sources['cutters[0].kerf']).toEqual({
      basis: 'published',
      source: expect.stringContaining('plasma kerf at 40 to 50 A') as string,
    });
  });

  test('looks for --shop, then beside the job, then in the config folder', async () => {
    const cwd = tempFolder();
    const config = join(cwd, 'config');
    mkdirSync(join(config, 'blankwright'), { recursive: true });
    mkdirSync(join(cwd, 'bench'));
    const nameFound = async (...args: string[]): Promise<string> =>
      json<Printed>(await run(['shop', '--json', ...args], join(cwd, 'bench'), config)).shop.name;
    writeFileSync(join(config, 'blankwright', 'shop.yaml'), shopText('config'));
    expect(await nameFound()).toBe('config');
    writeFileSync(join(cwd, 'bench', 'shop.yaml'), shopText('beside'));
    expect(await nameFound()).toBe('beside');
    writeFileSync(join(cwd, 'other.yaml'), shopText('asked'));
    expect(await nameFound('--shop', '../other.yaml')).toBe('asked');
    // As `blankwright shop > shop.yaml` finds it.
    writeFileSync(join(cwd, 'bench', 'shop.yaml'), '');
    expect(await nameFound()).toBe('config');
  });

  test('tells which part is from the file, and which is built in', async () => {
    const cwd = tempFolder();
    writeFileSync(join(cwd, 'shop.yaml'), 'sheets: []\nfolders: [boxpan-1250x2.0]\n');
    const { out } = await run(['shop'], cwd);
    expect(out).toMatch(/^# From the file: folders, sheets\.$/m);
    expect(out).toMatch(
      /^# As in the built-in shop: pressBrakes, cutters, remnants, marking,\n# handover, weldGap, bends\.$/m,
    );
    const { from } = json<Printed>(await run(['shop', '--json'], cwd));
    expect(
      Object.entries(from).flatMap(([part, where]) => (where === 'file' ? [part] : [])),
    ).toEqual(['folders', 'sheets']);
  });

  test('a file with mistakes: all of them, exit 2', async () => {
    const cwd = tempFolder();
    writeFileSync(
      join(cwd, 'shop.yaml'),
      shopText('wrong').replace('kerf: 1.5', 'kerf: wide').replace('mm: 12', 'mm: 12, kerff: 2'),
    );
    const ran = await run(['shop', '--json'], cwd);
    expect(ran.code).toBe(2);
    const { problems } = json<Problems>(ran);
    expect(problems.map((p) => p.input)).toEqual([
      'cutters[0].kerf[0].kerf',
      'cutters[0].leastHole[0].kerff',
    ]);
    expect(problems[0]?.given).toMatch(/^'wide' at line 3, column \d+ in shop\.yaml$/);
    const said = await run(['shop'], cwd);
    expect([said.code, said.out]).toEqual([2, '']);
    expect(said.err).toContain('Did you mean kerfs?');
  });

  test('a remnant whose drawing is not there, or is none: exit 2, with its name', async () => {
    const cwd = tempFolder();
    writeFileSync(
      join(cwd, 'shop.yaml'),
      'remnants: [{ name: door, material: steel, thickness: 3, dxf: door.dxf }]\n',
    );
    const missing = await run(['shop', '--json'], cwd);
    expect([missing.code, json<Problems>(missing).problems]).toEqual([
      2,
      [
        expect.objectContaining({
          input: 'remnants[0].dxf',
          given: 'door.dxf of door: there is no such file, in shop.yaml',
        }),
      ],
    ]);
    writeFileSync(join(cwd, 'door.dxf'), 'no drawing');
    expect((await run(['shop'], cwd)).code).toBe(2);
    writeFileSync(join(cwd, 'door.dxf'), drawnDxf('0 0 300 0 300 200 0 200 ...'));
    const ran = await run(['shop'], cwd);
    expect([ran.code, ran.err]).toEqual([0, '']);
    expect(ran.out).toContain('dxf: door.dxf');
  });

  test.each([
    ['a file that is not there', ['--shop', 'nosuch.yaml']],
    ['a folder', ['--shop', '.']],
    ['a flag that is not known', ['--shap', 'x']],
    ['a word too many', ['please']],
  ])('%s', async (_, args) => {
    const ran = await run(['shop', ...args, '--json'], tempFolder());
    expect([ran.code, json<Problems>(ran).problems]).toEqual([
      2,
      [expect.objectContaining({ allowed: expect.any(String) as string })],
    ]);
  });
});

describe('make checks against the shop', () => {
  const rulesOf = (ran: Ran): string[] =>
    json<MakeResult>(ran).parts.flatMap((p) =>
      p.findings.filter((f) => f.severity !== 'note').map((f) => f.rule),
    );

  test('of --shop', async () => {
    const cwd = tempFolder();
    writeFileSync(join(cwd, 'mine.yaml'), shopText('mine'));
    const [own, builtIn] = await Promise.all([
      run([...MAKE, '--shop', 'mine.yaml', '--json', '--out', 'a'], cwd),
      run([...MAKE, '--json', '--out', 'b'], cwd),
    ]);
    expect([rulesOf(own), rulesOf(builtIn)]).toEqual([['hole-below-least'], []]);
    const text = await run([...MAKE, '--shop', 'mine.yaml', '--out', 'c'], cwd);
    expect(text.out).toContain('Checked against the shop of mine.yaml');
  });

  test('beside the file of inputs', async () => {
    const cwd = tempFolder();
    mkdirSync(join(cwd, 'job'));
    writeFileSync(join(cwd, 'job', 'shop.yaml'), shopText('beside'));
    writeFileSync(
      join(cwd, 'job', 'part.yaml'),
      'legA: 60\nlegB: 40\nwidth: 80\nthickness: 3\nholesA: 35,20,M8\n',
    );
    expect(
      rulesOf(await run(['make', 'bracket-angle', '--from', 'job/part.yaml', '--json'], cwd)),
    ).toEqual(['hole-below-least']);
  });

  test('a machine of the shop that cannot do it stops the part', async () => {
    const cwd = tempFolder();
    writeFileSync(join(cwd, 'shop.yaml'), shopText('thin', 2));
    const ran = await run([...MAKE, '--json'], cwd);
    expect([ran.code, rulesOf(ran)]).toEqual([1, ['no-cutter-takes-sheet']]);
    expect(names(cwd)).toEqual(['shop.yaml']);
  });

  test('a shop file with a mistake is told before anything is made', async () => {
    const cwd = tempFolder();
    writeFileSync(join(cwd, 'shop.yaml'), 'cutters: none\n');
    const ran = await run(MAKE, cwd);
    expect([ran.code, ran.out, names(cwd)]).toEqual([2, '', ['shop.yaml']]);
    expect(ran.err).toContain('cutters');
  });
});
