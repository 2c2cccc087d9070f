import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { OUTPUT_IDS } from '../../src/use/outputs/index.ts';
import { fileNames } from '../helpers/file-names.ts';
import { blankwright, json, type Problems, tempFolder } from '../helpers/command.ts';
import { needsOutside } from '../helpers/needs-outside.ts';
import { hasPoppler } from '../helpers/poppler.ts';

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

describe('cards', () => {
  const TROUGH =
    'make bracket-channel --name trough --weld-at A --papers card --flange-a 300 --web 200 --flange-b 60 --width 500 --material s235 --thickness 2'.split(
      ' ',
    );

  test('are made of the pieces that are asked for, and a name that no piece has is told', async () => {
    const cwd = tempFolder();
    const cardsOf = async (...flags: string[]): Promise<readonly [string[], string]> => {
      const folder = flags[1] ?? 'all';
      const ran = await blankwright([...TROUGH, '--out', folder, ...flags], cwd);
      expect([ran.err, ran.code]).toEqual(['', 0]);
      const names = readdirSync(join(cwd, folder));
      return [names.filter((name) => name.endsWith('-card.pdf')), ran.out];
    };
    expect((await cardsOf())[0]).toEqual(['trough-flange-a-card.pdf', 'trough-web-card.pdf']);
    expect((await cardsOf('--card-of', 'flange-A'))[0]).toEqual(['trough-flange-a-card.pdf']);
    const [none, told] = await cardsOf('--card-of', 'lid');
    expect(none).toEqual([]);
    expect(told.replace(/\s+/g, ' ')).toContain(
      'No card was made of lid: there is no piece of that name. There are: web, trough-web, flange-a, trough-flange-a.',
    );
  });

  test('of a job: how many pages they take is told before the first is made, and where it would be fewer', async (ctx) => {
    needsOutside(ctx, 'poppler', hasPoppler);
    const pagesOf = (cwd: string): number =>
      readdirSync(join(cwd, 'out', 'yard'), { recursive: true, encoding: 'utf8' })
        .filter((name) => name.endsWith('-card.pdf'))
        .map((name) => {
          const told = spawnSync('pdfinfo', [join(cwd, 'out', 'yard', name)], { encoding: 'utf8' });
          return Number(/Pages: +(\d+)/.exec(told.stdout)?.[1]);
        })
        .reduce((sum, pages) => sum + pages, 0);
    const made = async (paper: string, cardOf: string): Promise<readonly [string, number]> => {
      const cwd = tempFolder();
      writeFileSync(
        join(cwd, 'job.yaml'),
        `title: yard
defaults: { papers: [card], material: s235, thickness: 2, paper: ${paper} }
parts:
  - { family: bracket-channel, name: trough, ${cardOf} hand: both, inputs: { flangeA: 300, web: 200, flangeB: 60, width: 500, weldAt: A } }
  - { family: plate, name: floor, inputs: { outline: '0,0; 700,0; 700,400; 0,400' } }
`,
      );
      const ran = await blankwright(['job', 'job.yaml'], cwd);
      expect([ran.err, ran.code]).toEqual(['', 0]);
      return [ran.out.replace(/\s+/g, ' '), pagesOf(cwd)];
    };
    const [a4, pages] = await made('a4', '');
    expect(a4.slice(0, a4.indexOf(' made '))).toMatch(
      new RegExp(`^Cards take ${pages} pages of A4 in all; most of them: `),
    );
    const fewer = Number(/Fewer with paper: A3 \((\d+)\)/.exec(a4)?.[1]);
    const [, onA3] = await made('a3', '');
    expect([onA3, onA3 < pages]).toEqual([fewer, true]);
    const [some, left] = await made('a4', 'cardOf: web,');
    expect(some).toContain(`Cards take ${left} pages`);
    expect(left).toBeLessThan(pages);
  });
});
