import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { OUTPUT_IDS } from '../../src/use/outputs/index.ts';
import { fileNames } from '../helpers/file-names.ts';
import { blankwright, json, type Problems, tempFolder } from '../helpers/command.ts';

const ANGLE = [
  'make',
  'bracket-angle',
  '--name',
  'post',
  '--leg-a',
  '60',
  '--leg-b',
  '40',
  '--width',
  '80',
  '--material',
  's275',
  '--thickness',
  '3',
  '--radius',
  '4',
];

describe('make --papers', () => {
  test('writes each kind beside the files to cut, tells it, and replaces its own', async () => {
    const cwd = tempFolder();
    for (const outputs of [OUTPUT_IDS, OUTPUT_IDS.filter((id) => id !== 'step')]) {
      const ran = await blankwright(
        [...ANGLE, '--papers', outputs.join(','), '--paper', 'roll 300', '--json'],
        cwd,
      );
      expect([ran.code, ran.err]).toEqual([0, '']);
      const [part] = json<{ parts: { files: string[] }[] }>(ran).parts;
      expect(part?.files.toSorted()).toEqual(
        fileNames('post', outputs).map((name) => join('out', name)),
      );
      expect(readdirSync(join(cwd, 'out')).toSorted()).toEqual(fileNames('post', OUTPUT_IDS));
    }
    const first = (name: string, bytes: number): string =>
      readFileSync(join(cwd, 'out', name)).toString('latin1', 0, bytes);
    expect([
      first('post-card.pdf', 5),
      first('post.glb', 4),
      first('post.step', 12),
      first('post-sheet.html', 15),
    ]).toEqual(['%PDF-', 'glTF', 'ISO-10303-21', '<!DOCTYPE html>']);
    expect(readFileSync(join(cwd, 'out', 'post-sheet.html'), 'utf8')).toContain(
      'mostly from where the fold lands',
    );
  });

  test('none without being asked, none of a stopped part, none over a file of somebody else', async () => {
    const cwd = tempFolder();
    expect(
      (await blankwright([...ANGLE, '--holes-a', '35,20,300', '--papers', 'card,sheet'], cwd)).code,
    ).toBe(1);
    expect(readdirSync(cwd)).toEqual([]);
    expect((await blankwright(ANGLE, cwd)).code).toBe(0);
    expect(readdirSync(join(cwd, 'out')).toSorted()).toEqual(fileNames('post'));
    mkdirSync(join(cwd, 'other'));
    writeFileSync(join(cwd, 'other', 'post-card.pdf'), '%PDF-1.4 of another\n');
    expect((await blankwright([...ANGLE, '--papers', 'card', '--out', 'other'], cwd)).code).toBe(2);
    expect(readdirSync(join(cwd, 'other'))).toEqual(['post-card.pdf']);
  });

  test.each([
    [['--papers', 'poster'], 'papers', OUTPUT_IDS.join(', ')],
    [['--papers', ','], 'papers', OUTPUT_IDS.join(', ')],
    [['--papers', 'card', '--paper', 'a9'], 'paper', 'roll and its width'],
    [['--paper', 'a3'], 'paper', 'card template'],
  ])('%j is wrong input', async (flags, input, allowed) => {
    const cwd = tempFolder();
    const ran = await blankwright([...ANGLE, ...flags, '--json'], cwd);
    expect(ran.code).toBe(2);
    expect(json<Problems>(ran).problems).toMatchObject([
      { input, allowed: expect.stringContaining(allowed) as string },
    ]);
    expect(readdirSync(cwd)).toEqual([]);
  });
});
