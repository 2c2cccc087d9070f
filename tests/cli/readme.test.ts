import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { BEND_RULES } from '../../src/bending/rule.ts';
import { blankwright, runProcess, tempFolder } from '../helpers/command.ts';
import { serving } from '../page/served.ts';

const README = readFileSync('README.md', 'utf8');

/** Fenced blocks, without their fences. */
const blocks = [...README.matchAll(/^```\n([^]*?)^```$/gm)].map(([, text]) => text ?? '');

/** As a shell takes them. */
const wordsOf = (command: string): string[] =>
  [...command.matchAll(/'([^']*)'|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? '');

test('the README shows what its command prints', async () => {
  const command = blocks.join('\n').match(/blankwright\.cjs (make [^]*?--hand both)/)?.[1] ?? '';
  const shown =
    blocks
      .find((b) => b.startsWith('bracket-angle-L'))
      ?.trimEnd()
      .split('\n') ?? [];
  const wide = process.env['COLUMNS'];
  process.env['COLUMNS'] = '80';
  const ran = await blankwright(wordsOf(command.replaceAll('\\\n', ' ')), tempFolder());
  process.env['COLUMNS'] = wide;
  expect(ran.code).toBe(0);
  expect(ran.out.split('\n').slice(0, shown.length)).toEqual(shown);
  expect(shown.length).toBeGreaterThan(3);
});

test('every command of the README does what it says, from first to last in one folder', async () => {
  const cwd = tempFolder();
  cpSync('templates/demo', join(cwd, 'templates', 'demo'), { recursive: true });
  const commands = blocks
    .join('\n')
    .replaceAll('\\\n', ' ')
    .split('\n')
    .flatMap((line) => line.match(/^node dist\/blankwright\.cjs (.*)$/)?.[1] ?? []);
  expect(commands.length).toBeGreaterThan(6);
  for (const command of commands) {
    const words = wordsOf(command);
    // The page is served until its process is told to end.
    if (words[0] === 'page' && !words.includes('--save')) {
      expect(await (await serving(words, cwd)).kill('SIGTERM')).toBe(0);
      continue;
    }
    // The page that is saved lies beside the built command.
    const ran = await (words[0] === 'page' ? runProcess : blankwright)(words, cwd);
    expect([command, ran.code, ran.err]).toEqual([command, 0, '']);
  }
  // The pictures in the README are what the tool draws.
  await blankwright(
    wordsOf('make bracket-angle --from templates/demo/seat-post.yaml --out again'),
    cwd,
  );
  await blankwright(
    wordsOf('plan bracket-angle --from templates/demo/seat-post.yaml --out again'),
    cwd,
  );
  // Those of the examples of panels are held by a test of their own.
  const pictures = [...README.matchAll(/<img src="templates\/demo\/([^"/]+)"/g)].map(
    ([, name]) => name ?? '',
  );
  expect(pictures).toHaveLength(2);
  for (const name of pictures)
    expect(readFileSync(join(cwd, 'again', name), 'utf8')).toBe(
      readFileSync(join('templates', 'demo', name), 'utf8'),
    );
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
  for (const word of [
    ...BEND_RULES.map(({ text }) => text),
    'OUTLINE',
    'HOLES',
    'FOLD-UP',
    'FOLD-DOWN',
    'MARK',
    'NOTE',
  ]) {
    expect(README).toContain(`\`${word}\``);
  }
});
