import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { joined, stretchesOf } from '../../src/page/model/merge.ts';
import { tempFolder } from '../helpers/command.ts';
import { fixedRuns } from '../helpers/extent.ts';
import { needsOutside } from '../helpers/needs-outside.ts';

/** Two texts that came from one, line by line. The witness is git's own merge of files. */

const hasGit = spawnSync('git', ['--version']).status === 0;

const lines = fc.array(fc.constantFrom('a', 'b', 'c', 'd', ''), { maxLength: 9 });
const text = lines.map((list) => list.join('\n'));
const mineOf = (base: string, mine: string, theirs: string): string =>
  joined(stretchesOf(base, mine, theirs), () => 'mine');
const theirsOf = (base: string, mine: string, theirs: string): string =>
  joined(stretchesOf(base, mine, theirs), () => 'theirs');

test('what only one has changed goes without asking; what both changed alike, too', () => {
  fc.assert(
    fc.property(text, text, (base, other) => {
      expect(stretchesOf(base, base, other).every(({ kind }) => kind === 'agreed')).toBe(true);
      expect(mineOf(base, base, other)).toBe(other);
      expect(mineOf(base, other, base)).toBe(other);
      expect(mineOf(base, other, other)).toBe(other);
    }),
    { numRuns: fixedRuns(300) },
  );
});

test('nothing is lost: with mine taken everywhere each line of mine that was changed is there, and with theirs theirs', () => {
  fc.assert(
    fc.property(text, fc.nat(8), fc.nat(8), (base, i, k) => {
      // Lines that are alike may be taken for each other, in any merge by lines.
      const distinct = base.split('\n').map((line, n) => `${n} ${line}`);
      const change = (at: number, word: string): string =>
        distinct.map((line, n) => (n === at ? word : line)).join('\n');
      const [mine, theirs] = [change(i, 'mine'), change(k, 'theirs')];
      const has = (all: string, word: string): boolean => all.split('\n').includes(word);
      expect(has(mineOf(distinct.join('\n'), mine, theirs), 'mine')).toBe(has(mine, 'mine'));
      expect(has(theirsOf(distinct.join('\n'), mine, theirs), 'theirs')).toBe(
        has(theirs, 'theirs'),
      );
      if (Math.abs(i - k) > 1) {
        expect(mineOf(distinct.join('\n'), mine, theirs)).toBe(
          theirsOf(distinct.join('\n'), mine, theirs),
        );
      }
    }),
    { numRuns: fixedRuns(300) },
  );
});

test('where git merges without asking, the same comes out', (ctx) => {
  needsOutside(ctx, 'git', hasGit);
  const folder = tempFolder();
  const base = Array.from({ length: 12 }, (_, i) => `line ${i}`);
  const edited = (seed: number): string =>
    base
      .flatMap((line, i) =>
        (seed >> i) % 7 === 0 ? [] : (seed >> i) % 5 === 0 ? [line, `new ${seed % 3}`] : [line],
      )
      .concat('')
      .join('\n');
  let compared = 0;
  for (let i = 1; i <= fixedRuns(60); i++) {
    const [mine, theirs] = [edited(7919 * i), edited(104_729 * i)];
    for (const [name, contents] of [
      ['mine', mine],
      ['base', [...base, ''].join('\n')],
      ['theirs', theirs],
    ] as const)
      writeFileSync(join(folder, name), contents);
    const git = spawnSync('git', ['merge-file', '-p', 'mine', 'base', 'theirs'], {
      cwd: folder,
      encoding: 'utf8',
    });
    if (git.status !== 0) continue;
    compared++;
    expect(mineOf([...base, ''].join('\n'), mine, theirs)).toBe(git.stdout);
  }
  expect(compared).toBeGreaterThan(0);
});
