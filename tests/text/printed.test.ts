import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inchText, printedIn } from '../../src/text/printed.ts';
import { parseLength } from '../../src/text/units.ts';
import { blankwright, json, tempFolder } from '../helpers/command.ts';
import { fixedRuns } from '../helpers/extent.ts';

/** Read off a tape in inches; 1 in is 25.4 mm (ISO 80000-3). */
test.each([
  [25.4, '1'],
  [60.325, '2 3/8'],
  [19.05, '3/4'],
  [0.79375, '1/32'],
  [60, '2 3/8-.013'],
  [93.96, '3 11/16+.012'],
  [0, '0'],
  [-60.325, '-2 3/8'],
  [0.2, '0+.008'],
])('%d mm is %s on a tape', (mm, text) => {
  expect(printedIn('inch').tape(mm)).toBe(text);
});

test('the fraction is the nearest of a thirty-second, and with what is left over it is the length', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 4000, noNaN: true }), (mm) => {
      const [, tape = '', left = '0'] = /^(.*?)([+-]\.\d+)?$/.exec(inchText(mm / 25.4)) ?? [];
      const read = parseLength(`${tape}in`);
      if (!read.ok) throw new Error(read.reason);
      expect(Math.abs(read.value - mm)).toBeLessThanOrEqual(25.4 / 64 + 1e-9);
      expect(Math.abs(read.value + 25.4 * Number(left) - mm)).toBeLessThanOrEqual(0.0128);
      expect(Number(/(\d+)\/(\d+)/.exec(tape)?.[1] ?? 1) % 2).toBe(1);
    }),
    { numRuns: fixedRuns(2000), seed: 7 },
  );
});

describe('--print-units inch', () => {
  const ARGS =
    'make bracket-angle --name post --leg-a 60.325 --leg-b 40 --width 76.2 --material s275 --thickness 3 --radius 4 --papers sheet,card'.split(
      ' ',
    );

  test('prints inches to a person, and leaves JSON and the files to cut as they are', async () => {
    const [mm, inch] = [tempFolder(), tempFolder()];
    const said = await blankwright([...ARGS, '--print-units', 'inch'], inch);
    expect([said.code, said.err]).toEqual([0, '']);
    expect(said.out).toContain('folded 3 x 2 3/8 x ');
    expect(said.out).toMatch(/blank {2}3 x [\d/ +.-]+ in,/);
    expect(said.out).toContain('inside radius 0.157');
    await blankwright(ARGS, mm);
    const { readFileSync } = await import('node:fs');
    for (const file of ['out/post.dxf', 'out/post.svg'])
      expect(readFileSync(`${inch}/${file}`, 'utf8')).toBe(readFileSync(`${mm}/${file}`, 'utf8'));
    const page = readFileSync(`${inch}/out/post-sheet.html`, 'utf8');
    expect(page).toContain('Folded, outside, in');
    expect(page).toContain('Mark in');
    const [one, other] = [
      json(await blankwright([...ARGS, '--print-units', 'inch', '--json', '--force'], inch)),
      json(await blankwright([...ARGS, '--json', '--force'], mm)),
    ];
    expect(one).toEqual(other);
  });

  test('no other unit is taken', async () => {
    const ran = await blankwright([...ARGS, '--print-units', 'ell'], tempFolder());
    expect([ran.code, ran.err]).toEqual([2, expect.stringContaining('print-units') as string]);
  });
});
