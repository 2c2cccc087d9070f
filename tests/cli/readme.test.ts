import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { blankwright, tempFolder } from '../helpers/command.ts';

const README = readFileSync('README.md', 'utf8');

/** Fenced blocks, without their fences. */
const blocks = [...README.matchAll(/^```\n([^]*?)^```$/gm)].map(([, text]) => text ?? '');

test('the README shows what its command prints', async () => {
  const command = blocks.join('\n').match(/blankwright\.cjs (make [^]*?--hand both)/)?.[1] ?? '';
  const words = [...command.replaceAll('\\\n', ' ').matchAll(/'([^']*)'|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? '');
  const shown = blocks.find((b) => b.startsWith('bracket-angle-L'))?.trimEnd().split('\n') ?? [];
  const ran = await blankwright(words, tempFolder());
  expect(ran.code).toBe(0);
  expect(ran.out.split('\n').slice(0, shown.length)).toEqual(shown);
  expect(shown.length).toBeGreaterThan(3);
});

test('the job that the README shows is made', async () => {
  const cwd = tempFolder();
  writeFileSync(join(cwd, 'job.yaml'), blocks.find((b) => b.startsWith('title:')) ?? '');
  const ran = await blankwright(['job', 'job.yaml'], cwd);
  expect([ran.code, ran.err]).toEqual([0, '']);
  expect(ran.out).toContain('2 made, 0 unchanged, 0 refused');
});

test('the README names the two commands of a fresh machine, and every rule and layer', () => {
  expect(README).toContain('npm ci && npm start\nnpm ci && npm test');
  for (const word of ['din6935', 'faa', 'mh1', 'mh2', 'mh3', 'k:0.42', 'measured', 'OUTLINE', 'HOLES', 'FOLD-UP', 'FOLD-DOWN', 'MARK', 'NOTE']) {
    expect(README).toContain(`\`${word}\``);
  }
});
