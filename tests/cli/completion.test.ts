import { spawnSync } from 'node:child_process';
import { delimiter, join } from 'node:path';
import { symlinkSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { ALL_FAMILIES, FAMILIES } from '../../templates/index.ts';
import { blankwright, COMMAND, tempFolder } from '../helpers/command.ts';
import { needsOutside } from '../helpers/needs-outside.ts';

const next = async (...words: string[]): Promise<string[]> => {
  const ran = await blankwright(['completion', 'next', ...words], tempFolder());
  expect([ran.code, ran.err]).toEqual([0, '']);
  return ran.out.split('\n').filter((line) => line !== '');
};

describe('what may come next', () => {
  test('commands, families, flags, and the values of an input that takes a few', async () => {
    expect(await next('ma')).toEqual(['make', 'materials']);
    expect(await next('make', '')).toEqual([...ALL_FAMILIES.keys()]);
    expect(await next('plan', '')).toEqual([...FAMILIES.keys()]);
    expect(await next('make', 'bracket-angle', '--leg')).toEqual(['--leg-a', '--leg-b']);
    expect(await next('make', 'bracket-angle', '--hand', '')).toEqual(['left', 'right', 'both']);
    expect(await next('make', 'bracket-angle', '--material', 's2')).toContain('s235');
    expect(await next('reason', 'web')).toEqual(['web-too-thin']);
    expect(await next('plan', '--p')).toEqual(['--panels']);
  });

  test('nothing, where files or values of any size do', async () => {
    expect(await next('proof', '')).toEqual([]);
    expect(await next('make', 'bracket-angle', '--leg-a', '')).toEqual([]);
    expect(await next('no-such-command', '--')).toEqual([]);
  });
});

/** Runs the script in a shell that finds the command on its path. */
const inShell = (shell: string, code: string): string => {
  const folder = tempFolder();
  symlinkSync(COMMAND, join(folder, 'blankwright'));
  const { stdout, stderr } = spawnSync(shell, ['-c', code], {
    encoding: 'utf8',
    env: { ...process.env, PATH: `${folder}${delimiter}${process.env['PATH'] ?? ''}` },
  });
  expect(stderr).toBe('');
  return stdout.trim();
};
const has = (shell: string): boolean => spawnSync(shell, ['--version']).status === 0;

test('in bash', (ctx) => {
  needsOutside(ctx, 'bash', has('bash'));
  const code =
    'eval "$(blankwright completion bash)"; COMP_WORDS=(blankwright make bracket-angle --leg); COMP_CWORD=3; _blankwright; echo "${COMPREPLY[@]}"; complete -p blankwright';
  expect(inShell('bash', code)).toBe(
    '--leg-a --leg-b\ncomplete -o default -F _blankwright blankwright',
  );
});

test('in zsh', (ctx) => {
  needsOutside(ctx, 'zsh', has('zsh'));
  // Outside its line editor zsh has no completion: its own commands stand aside for ones that tell
  // what they are given.
  const code =
    'compdef() { print bound $2 }; compadd() { shift; print -- $@ }; _files() { print files }; eval "$(blankwright completion zsh)"; words=(blankwright make bracket-angle --leg); CURRENT=4; _blankwright; words=(blankwright proof ""); CURRENT=3; _blankwright';
  expect(inShell('zsh', code)).toBe('bound blankwright\n--leg-a --leg-b\nfiles');
});

test('an unknown shell is refused', async () => {
  const ran = await blankwright(['completion', 'tcsh'], tempFolder());
  expect([ran.code, ran.out]).toEqual([2, '']);
  expect(ran.err).toContain('bash or zsh');
});
