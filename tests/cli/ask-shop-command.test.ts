import { spawn } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { FoldPlan } from '../../src/contract/fold-plan.ts';
import { FINGERS, NO_MORE } from '../helpers/asked-shop.ts';
import { blankwright, COMMAND, json, type Ran, tempFolder } from '../helpers/command.ts';

/** Runs the command with answers on its standard input, by a pipe. */
const typed = (args: readonly string[], cwd: string, answers: string): Promise<Ran> =>
  new Promise((done) => {
    const child = spawn(process.execPath, [COMMAND, ...args], {
      cwd,
      env: { ...process.env, XDG_CONFIG_HOME: join(cwd, 'none') },
    });
    let [out, err] = ['', ''];
    child.stdout.on('data', (data: Buffer) => (out += data.toString()));
    child.stderr.on('data', (data: Buffer) => (err += data.toString()));
    child.on('close', (code) => done({ code: code ?? -1, out, err }));
    child.stdin.end(answers);
  });

describe('blankwright shop --ask', () => {
  const PLAN =
    'plan bracket-angle --leg-a 60 --leg-b 40 --width 80 --material dc01 --thickness 1.5 --radius 1.5'.split(
      ' ',
    );

  test('by a pipe: the file, the shop as it is then, and what its figures make of a plan', async () => {
    const cwd = tempFolder();
    const before = json<{ parts: { foldPlan: FoldPlan }[] }>(
      await typed([...PLAN, '--json'], cwd, ''),
    );
    const ran = await typed(
      ['shop', '--ask', '--json'],
      cwd,
      `${[...FINGERS, ...NO_MORE, 'yes'].join('\n')}\n`,
    );
    expect(ran.code).toBe(0);
    expect(json<object>(ran)).toMatchObject({
      file: 'shop.yaml',
      saved: 'shop.yaml',
      from: { folders: 'file', cutters: 'built-in' },
      basis: { 'folders[0].stopOffset': 'measured', 'folders[0].bedDepth': 'assumed' },
    });
    const after = json<{ parts: { foldPlan: FoldPlan }[] }>(
      await typed([...PLAN, '--json'], cwd, ''),
    );
    const [old, fresh] = [before, after].map((p) => p.parts[0]?.foldPlan as FoldPlan);
    expect([old?.machine, fresh?.machine]).toEqual(['boxpan-1250x2.0', 'bench']);
    expect((fresh?.steps[0]?.stopAtDeg ?? 0) - (old?.steps[0]?.stopAtDeg ?? 0)).toBeCloseTo(1.1, 9);
    // The nose of 0.5 is the roundest that is not rounder than the bend: its mark lies 0.5 further.
    expect((fresh?.steps[0]?.nose?.radiusMm ?? 0) - (old?.steps[0]?.nose?.radiusMm ?? 0)).toBe(0.5);
    expect(fresh?.steps[0]?.fingersMm).toEqual([100]);
    expect(fresh?.restsOn.assumed).toEqual([]);
    const text = await typed(PLAN, cwd, '');
    expect(text.out).toContain('the stop reads 1.1 deg more than it turns, as measured');
    expect(text.out).toMatch(
      / {2}rests on measured: nose radius, nose gap, clamp opening, finger w/,
    );
  });

  test('the sheet says it too', async () => {
    const cwd = tempFolder();
    await typed(['shop', '--ask'], cwd, `${[...FINGERS, ...NO_MORE, ''].join('\n')}\n`);
    const make = ['make', ...PLAN.slice(1), '--papers', 'sheet', '--out', 'out'];
    expect((await typed(make, cwd, '')).code).toBe(0);
    const html = readFileSync(join(cwd, 'out', 'bracket-angle-sheet.html'), 'utf8');
    expect(html).toMatch(/Rests on measured: nose radius, nose gap, .*, stop offset/);
  });

  test('Ctrl-C half way writes nothing', async () => {
    const cwd = tempFolder();
    const child = spawn(process.execPath, [COMMAND, 'shop', '--ask'], {
      cwd,
      env: { ...process.env, XDG_CONFIG_HOME: join(cwd, 'none') },
    });
    const isAsked = new Promise<void>((done) => {
      let err = '';
      child.stderr.on('data', (data: Buffer) => {
        err += data.toString();
        if (err.includes('Longest fold')) done();
      });
    });
    child.stdin.write('fingers\nbench\n');
    await isAsked;
    const isClosed = new Promise((done) => child.on('close', done));
    child.kill('SIGINT');
    await isClosed;
    expect(readdirSync(cwd)).toEqual([]);
  });

  test('answers that end leave everything as it was', async () => {
    const cwd = tempFolder();
    const ran = await typed(['shop', '--ask'], cwd, 'fingers\nbench\n1000\n');
    expect([ran.code, ran.out, existsSync(join(cwd, 'shop.yaml'))]).toEqual([1, '', false]);
    expect(ran.err).toContain('Nothing was written.');
    writeFileSync(join(cwd, 'shop.yaml'), 'name: barn\n');
    const other = await typed(['shop', '--ask', '--json'], cwd, 'fingers\n');
    expect([other.code, json<{ saved: unknown }>(other).saved]).toEqual([1, null]);
    expect(readFileSync(join(cwd, 'shop.yaml'), 'utf8')).toBe('name: barn\n');
  });

  test('a file with a mistake is told before anything is asked', async () => {
    const cwd = tempFolder();
    writeFileSync(join(cwd, 'shop.yaml'), 'cutters: none\n');
    const ran = await blankwright(['shop', '--ask', '--shop', join(cwd, 'shop.yaml')], cwd);
    expect([ran.code, ran.err.includes('What do you fold on')]).toEqual([2, false]);
  });
});
