import { describe, expect, test } from 'vitest';
import { problemsOf } from './shop-file.ts';

describe('texts that are no shop file', () => {
  test.each([
    ['nothing', '', 'nothing'],
    ['a word', 'shop', 'a single value'],
    ['a list', '- name: torch', 'a list'],
    ['a syntax error', 'cutters: [\nname: x\n', 'line 2'],
    ['a tab for an indent', 'cutters:\n\t- 1\n', 'line 2, column 1'],
    ['a name twice', 'name: a\nname: b\n', 'line 2, column 1'],
    ['brackets without end', `cutters: ${'['.repeat(50_000)}`, 'nested'],
    ['an alias to nothing', 'name: *nowhere\n', 'nowhere'],
    [
      'aliases that multiply',
      `a: &a [x,x,x,x,x,x,x,x,x]\n${'bcdefgh'.replace(
        /./g,
        (c, i: number) =>
          `${c}: &${c} [${Array(9)
            .fill(`*${'abcdefg'[i] ?? ''}`)
            .join(',')}]\n`,
      )}`,
      'alias',
    ],
  ])('%s', (_, text, says) => {
    const problems = problemsOf(text);
    expect(problems.map((problem) => problem.input)).toEqual(['shop']);
    expect(Object.values(problems[0] ?? {}).join('; ')).toContain(says);
  });
});
