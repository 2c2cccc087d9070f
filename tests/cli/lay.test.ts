import { spawn } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import * as z from 'zod';
import { blankwright, COMMAND, json, type Problems, tempFolder } from '../helpers/command.ts';
import { stripFaults, stripInstance } from '../helpers/strip-instances.ts';

const STRIP_RESULT = z.strictObject({
  usedLength: z.number().positive(),
  densityPercent: z.number().positive(),
  placements: z.array(
    z.strictObject({ item: z.number(), x: z.number(), y: z.number(), turnDeg: z.number() }),
  ),
  seed: z.number(),
  steps: z.number(),
});

const FU = stripInstance('fu');
const folderWith = (strip: unknown): string => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'strip.json'), JSON.stringify(strip));
  return folder;
};
const lay = (folder: string, ...flags: string[]) =>
  blankwright(['lay', '--strip', 'strip.json', ...flags], folder);

describe('a strip laid by the command', () => {
  test('by steps: the same layout whenever it is asked for, and a sound one', async () => {
    const folder = folderWith(FU);
    const [one, again] = [
      await lay(folder, '--steps', '800', '--seed', '5', '--json'),
      await lay(folder, '--seed', '5', '--steps', '800', '--json'),
    ];
    expect([one.code, one.err]).toEqual([0, '']);
    expect(again.out).toBe(one.out);
    const result = STRIP_RESULT.parse(json(one));
    expect([result.seed, result.steps]).toEqual([5, 800]);
    expect(stripFaults(FU, result)).toEqual([]);
  });

  test('several threads: the best of them, which one alone finds again', async () => {
    const folder = folderWith(FU);
    const many = STRIP_RESULT.parse(
      json(await lay(folder, '--steps', '500', '--threads', '3', '--json')),
    );
    const alone = STRIP_RESULT.parse(
      json(await lay(folder, '--steps', '500', '--seed', String(many.seed), '--json')),
    );
    expect(alone).toEqual(many);
  });

  test('by time, for a person: what is found on the way, and how to have it again', async () => {
    const ran = await lay(folderWith(FU), '--time', '1s', '--threads', '1');
    expect(ran.code).toBe(0);
    expect(ran.err).toMatch(/long, \d+\.\d\d %/);
    expect(ran.out).toMatch(/The same again: --seed 1 --steps \d+ --threads 1$/m);
  });

  test('Ctrl+C gives the best so far', async () => {
    const folder = folderWith(FU);
    const child = spawn(
      process.execPath,
      [COMMAND, 'lay', '--strip', 'strip.json', '--time', '2h', '--threads', '2'],
      { cwd: folder },
    );
    let [out, err] = ['', ''];
    child.stdout.on('data', (text: Buffer) => void (out += text.toString()));
    child.stderr.on('data', (text: Buffer) => void (err += text.toString()));
    child.stderr.once('data', () => child.kill('SIGINT'));
    const code = await new Promise((done) => child.once('close', done));
    expect(code).toBe(0);
    expect(out).toMatch(/% of it used/);
    expect(err).toMatch(/^Stopped: this is the best layout so far\.$/m);
  });

  test.each([
    ['no file', [], {}, 'job'],
    ['no JSON', ['--strip', 'strip.json'], '{', 'strip'],
    ['a time that is none', ['--strip', 'strip.json', '--time', 'soon'], FU, '--time'],
    ['no step at all', ['--strip', 'strip.json', '--steps', '0'], FU, '--steps'],
    ['a seed that is none', ['--strip', 'strip.json', '--seed', '1.5'], FU, '--seed'],
    [
      'a thousand million of an item',
      ['--strip', 'strip.json'],
      { ...FU, items: [{ ...FU.items[0], demand: 1e9 }] },
      'items[0].demand',
    ],
    [
      'ten thousand items',
      ['--strip', 'strip.json'],
      { ...FU, items: Array.from({ length: 10 }, () => ({ ...FU.items[0], demand: 1000 })) },
      'items',
    ],
    [
      'an item wider than the strip',
      ['--strip', 'strip.json'],
      { ...FU, stripWidth: 5 },
      'items[0]',
    ],
    [
      'an outline that crosses itself',
      ['--strip', 'strip.json'],
      {
        ...FU,
        items: [
          {
            ...FU.items[0],
            polygon: [
              [0, 0],
              [9, 9],
              [9, 0],
              [0, 8],
            ],
          },
        ],
      },
      'items[0].polygon',
    ],
  ])('%s is told with its place', async (_, flags, strip, input) => {
    const folder = tempFolder();
    writeFileSync(
      join(folder, 'strip.json'),
      typeof strip === 'string' ? strip : JSON.stringify(strip),
    );
    const ran = await blankwright(['lay', ...flags, '--json'], folder);
    expect(ran.code).toBe(2);
    expect(json<Problems>(ran).problems.map((p) => p.input)).toContain(input);
  });
});
