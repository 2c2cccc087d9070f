import { describe, expect, test } from 'vitest';
import { type WarnedPart, warningsText } from '../../src/use/job/warnings-text.ts';
import { MAKERS } from '../../src/model/finding.ts';

/** Rules of nobody. */
const { note, warn } = MAKERS;

const part = (
  name: string,
  ...findings: WarnedPart['parts'][number]['findings'][]
): WarnedPart => ({ name, parts: findings.map((found) => ({ findings: found })) });

describe('the warnings of a job', () => {
  test('of both hands and of several pieces are one, notes none; what all of a rule say stands in its heading', () => {
    const tear = (where: string) =>
      warn('tears', `The sheet tears at ${where}. Cut a relief. blankwright describe tells how.`);
    const tank = part('tank', [tear('wrap'), note('other', 'x.')], [tear('end')], [tear('end')]);
    const brace = part('brace', [tear('end'), warn('odd', 'This is odd.')], [tear('end')]);
    expect(warningsText([tank, brace])).toEqual({
      count: 3,
      lines: [
        '  tears: Cut a relief. blankwright describe tells how.',
        '    tank: The sheet tears at wrap.',
        '    tank, brace: The sheet tears at end.',
        '  odd',
        '    brace: This is odd.',
      ],
    });
    expect(warningsText([part('ring', [note('other', 'x.')])])).toEqual({ count: 0, lines: [] });
  });

  test('of more than ten kinds are counted', () => {
    const { count, lines } = warningsText(
      Array.from({ length: 25 }, (_, i) => part(`p${i}`, [warn('tears', `It tears at ${i}.`)])),
    );
    expect([count, lines.length, lines.at(-1)]).toEqual([
      25,
      12,
      '    ... and 15 more of this rule; --json lists all of them',
    ]);
  });
});
