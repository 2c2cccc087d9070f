import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readStrips } from '../../src/calibrate/read.ts';
import { askStrips } from '../../src/cli/ask-strips.ts';
import { tempFolder } from '../helpers/command.ts';

const answers = (lines: readonly string[]) => {
  const left = [...lines];
  const said: string[] = [];
  return {
    said,
    dialogue: {
      say: (text: string) => void said.push(text),
      next: () => Promise.resolve(left.shift()),
    },
  };
};

const HEAD = ['dc01', '1.48', 'folder', 'nose 1.5', '1.5'];
const STRIP = ['150', '76.4', '76.2', '90', '91.5', '1.5'];

describe('strips asked for one by one', () => {
  test('become a file that calibrate reads; more are added to it', async () => {
    const path = join(tempFolder(), 'strips.yaml');
    expect(
      await askStrips(
        path,
        answers([...HEAD, ...STRIP, '6in', '76', '77', '45', '', '', '']).dialogue,
      ),
    ).toBe(2);
    // Comments of the user's own stay.
    writeFileSync(path, `# mine\n${readFileSync(path, 'utf8')}`);
    expect(await askStrips(path, answers([...STRIP, '']).dialogue)).toBe(1);
    const text = readFileSync(path, 'utf8');
    expect(text.startsWith('# mine\n')).toBe(true);
    const read = readStrips(text, 'yaml');
    expect(
      read.ok
        ? read.strips.map((s) => [
            s.material,
            s.tool,
            s.thicknessMm,
            s.flatMm,
            s.angleDeg,
            s.stopAtDeg,
            s.insideRadiusMm,
          ])
        : read.problems,
    ).toEqual([
      ['dc01', 'nose 1.5', 1.48, 150, 90, 91.5, 1.5],
      ['dc01', 'nose 1.5', 1.48, 152.4, 45, undefined, undefined],
      ['dc01', 'nose 1.5', 1.48, 150, 90, 91.5, 1.5],
    ]);
  });

  test('strips of hems are asked for their gap, not for an angle', async () => {
    const path = join(tempFolder(), 'strips.yaml');
    expect(
      await askStrips(
        path,
        answers([...HEAD, '100', '80', '20', 'Closed', '100', '79', '20', 'open', '', '1', ''])
          .dialogue,
      ),
    ).toBe(2);
    const read = readStrips(readFileSync(path, 'utf8'), 'yaml');
    expect(
      read.ok ? read.strips.map((s) => [s.hem, s.insideRadiusMm, s.noseRadiusMm]) : read.problems,
    ).toEqual([
      ['closed', 0, 1.5],
      ['open', 1, 1.5],
    ]);
  });

  test('an answer that is none is asked for again, with the reason', async () => {
    const path = join(tempFolder(), 'strips.yaml');
    const { said, dialogue } = answers([
      'cheese',
      'dc01',
      'thick',
      '1.5',
      '',
      '',
      '',
      '150',
      '',
      '76',
      '76',
      'ninety',
      '90',
      '',
      '',
      '',
    ]);
    expect(await askStrips(path, dialogue)).toBe(1);
    expect(said.filter((s) => s.endsWith('\n'))).toHaveLength(4);
    expect(said).toContain('this one must be given\n');
  });

  test('what was answered in full is kept when the answers end; nothing is written for nothing', async () => {
    const path = join(tempFolder(), 'strips.yaml');
    expect(await askStrips(path, answers([...HEAD, ...STRIP, '150', '76']).dialogue)).toBe(1);
    expect(readFileSync(path, 'utf8').match(/flat/g)).toHaveLength(1);
    const other = join(tempFolder(), 'none.yaml');
    expect([await askStrips(other, answers(['dc01']).dialogue), existsSync(other)]).toEqual([
      0,
      false,
    ]);
  });
});
