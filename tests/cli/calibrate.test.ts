import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { BRACKET, blankwright, json, names, tempFolder } from '../helpers/command.ts';
import { strips } from '../helpers/strips.ts';
import type { CalibrateResult } from '../../src/cli/commands/calibrate.ts';
import type { MakeResult } from '../../src/result.ts';

test('strips become a bend table, and parts are made by it', async () => {
  const cwd = tempFolder();
  writeFileSync(join(cwd, 'strips.csv'), strips());
  const ran = await blankwright(['calibrate', 'strips.csv', '--save', 'shop.yaml', '--json'], cwd);
  expect([ran.code, ran.err]).toEqual([0, '']);
  const { bends, saved } = json<CalibrateResult>(ran);
  expect(saved).toBe('shop.yaml');
  expect(bends).toHaveLength(1);
  expect(bends[0]?.fit?.kFactor.value).toBeCloseTo(0.4, 5);
  expect(bends[0]?.fit?.insideRadiusMm.value).toBeCloseTo(2.5, 4);
  expect(bends[0]?.stopFor90Deg).toBeCloseTo(90 / 0.98, 4);

  // shop.yaml beside the job is found by itself; the angle bracket of 60 and 40 by hand: 100 - 2 * 5.5 + pi/2 (2.5 + 1.2).
  const made = await blankwright([...BRACKET.slice(0, -1), '2.5', '--rule', 'measured', '--json'], cwd);
  const [part] = json<MakeResult>(made).parts;
  expect(made.code).toBe(0);
  expect(part?.bends[0]?.kFactor).toBeCloseTo(0.4, 4);
  expect(part?.blank?.heightMm).toBeCloseTo(100 - 11 + (Math.PI / 2) * 3.7, 3);
  expect(part?.foldPlan?.steps[0]?.stopAtDeg).toBeCloseTo(90 / 0.98, 3);

  // Again with other strips: the line is replaced, comments stay.
  const before = readFileSync(join(cwd, 'shop.yaml'), 'utf8');
  writeFileSync(join(cwd, 'shop.yaml'), `# mine\n${before}`);
  expect((await blankwright(['calibrate', 'strips.csv', '--save', 'shop.yaml'], cwd)).code).toBe(0);
  const after = readFileSync(join(cwd, 'shop.yaml'), 'utf8');
  expect(after.startsWith('# mine\n')).toBe(true);
  expect(after.match(/nose 2\.5/g)).toHaveLength(1);
  expect((await blankwright(['shop', '--json'], cwd)).code).toBe(0);
});

test('without a file it says how to make and measure the strips; the commands in it work', async () => {
  const cwd = tempFolder();
  const told = await blankwright(['calibrate'], cwd);
  expect(told.code).toBe(0);
  const commands = told.out.split('\n').filter((line) => line.trim().startsWith('blankwright make'));
  expect(commands).toHaveLength(3);
  for (const command of commands) expect((await blankwright(command.trim().split(' ').slice(1), cwd)).code).toBe(0);
  expect(names(join(cwd, 'out'))).toContain('strip-45.dxf');
});

test('strips of one angle say nothing, and nothing is written; a broken file is wrong input', async () => {
  const cwd = tempFolder();
  writeFileSync(join(cwd, 's.yaml'), 'material: dc01\nthickness: 2\nstrips:\n  - { flat: 100, legA: 52, legB: 51.5, angle: 90 }\n');
  const open = await blankwright(['calibrate', 's.yaml', '--save', 'shop.yaml'], cwd);
  expect([open.code, names(cwd)]).toEqual([1, ['s.yaml']]);
  expect(open.out).toContain('fold some to 45 or 120 degrees');
  writeFileSync(join(cwd, 's.yaml'), 'strips: 3');
  const wrong = await blankwright(['calibrate', 's.yaml', '--json'], cwd);
  expect([wrong.code, json<{ problems: unknown[] }>(wrong).problems.length]).toEqual([2, 1]);
  expect((await blankwright(['calibrate', 'nowhere.yaml'], cwd)).code).toBe(2);
});
