import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { BRACKET, blankwright, json, names, tempFolder } from '../helpers/command.ts';
import { lostMm } from '../helpers/folded-strips.ts';
import { strips } from '../helpers/strips.ts';
import type { MakeResult } from '../../src/contract/part.ts';
import type { CalibrateResult } from '../../src/contract/calibration.ts';

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

  // shop.yaml beside the job is found by itself; the angle bracket of 60 and 40 by hand: 100 - 2 *
  // 5.5 + pi/2 (2.5 + 1.2).
  const made = await blankwright(
    [...BRACKET.slice(0, -1), '2.5', '--rule', 'measured', '--json'],
    cwd,
  );
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

test('K and radius of strips, and their hems, through the shop file to a part that fits', async () => {
  // A nose that gives radius 3 and K 0.42 on 1.5 mm, and closed hems that lose 0.7 mm: each legs
  // less flat, by hand.
  const cwd = tempFolder();
  const own = { k: 0.42, r: 3, t: 1.5 };
  const bends = [90, 90, 45, 45, 120, 120].map(
    (angle) =>
      `  - { flat: 150, legA: 75, legB: ${(75 + lostMm(angle, own)).toFixed(5)}, angle: ${angle} }`,
  );
  const hems = [80, 70, 60].map(
    (leg) => `  - { flat: 100, legA: ${leg}, legB: ${100.7 - leg}, hem: closed }`,
  );
  writeFileSync(
    join(cwd, 'strips.yaml'),
    [
      'material: dc01',
      'thickness: 1.5',
      'machine: folder',
      'tool: round nose',
      'noseRadius: 3',
      'strips:',
      ...bends,
      ...hems,
    ].join('\n'),
  );
  const ran = await blankwright(['calibrate', 'strips.yaml', '--save', 'shop.yaml'], cwd);
  expect([ran.code, ran.err]).toEqual([0, '']);
  expect(ran.out).toMatch(
    /K 0\.42 ±[\d.]+ .*inside radius 3 .*one goes with the other\n {2}deduction measured: .* 3\.3 mm at 90 degrees \(2 strips\)/,
  );
  expect(ran.out).toMatch(/closed hems: 3 strips\n {2}K 0\.488/);
  const shop = readFileSync(join(cwd, 'shop.yaml'), 'utf8');
  expect(shop).toMatch(
    /noseRadius: 3\n(.*\n){2} +k: 0\.42\n(.*\n){2} +correlation: [\d.]+\n +spread: 0\n(.*\n){2} +deductions:\n +- \{ angle: 45, deduction: 0\.877, strips: 2 \}/,
  );

  // 160 less two deductions of 3.29801; the catalogue's radius would have been 1.6.
  const made = await blankwright(
    'make bracket-channel --flange-a 50 --web 60 --flange-b 50 --width 80 --material dc01 --thickness 1.5 --rule measured --json'.split(
      ' ',
    ),
    cwd,
  );
  const [channel] = json<MakeResult>(made).parts;
  expect([channel?.blank?.heightMm, channel?.bends[0]?.rule]).toEqual([
    expect.closeTo(153.40398, 3),
    'measured',
  ]);
  const hemmed = await blankwright(
    'make tray --length 200 --depth 140 --height 45 --lip-back hem-out --hem-radius 0 --material dc01 --thickness 1.5 --rule measured --json'.split(
      ' ',
    ),
    cwd,
  );
  const [tray] = json<MakeResult>(hemmed).parts;
  expect(tray?.bends.find((b) => b.angleDeg === 180)).toMatchObject({
    rule: 'measured',
    deductionMm: expect.closeTo(0.7, 3) as number,
  });
  expect(tray?.findings.map((f) => f.rule)).not.toContain('hem-allowance');
});

test('a misread strip is named, strips that contradict each other are not written', async () => {
  const cwd = tempFolder();
  const lines = strips().split('\n');
  const more = [...lines, ...lines.slice(1)];
  writeFileSync(
    join(cwd, 'strips.csv'),
    more.map((l, i) => (i === 2 ? l.replace(',70,', ',72.5,') : l)).join('\n'),
  );
  const ran = await blankwright(['calibrate', 'strips.csv', '--save', 'shop.yaml'], cwd);
  expect(ran.code).toBe(0);
  expect(ran.out).toMatch(
    /warn {3}Strip 2 was left out: its legs, less its flat length, are 2\.5 mm more than the others say; measure it again\./,
  );
  writeFileSync(
    join(cwd, 'few.csv'),
    [lines[0], lines[1], lines[2]?.replace(',70,', ',73,'), lines[3]].join('\n'),
  );
  const few = await blankwright(['calibrate', 'few.csv', '--save', 'other.yaml', '--json'], cwd);
  expect([few.code, names(cwd)]).toEqual([1, ['few.csv', 'shop.yaml', 'strips.csv']]);
  expect(json<CalibrateResult>(few)).toMatchObject({
    saved: null,
    bends: [{ findings: [{ rule: 'strips-contradict', severity: 'stop' }] }],
  });
});

test('without a file it says how to make and measure the strips; the commands in it work', async () => {
  const cwd = tempFolder();
  const told = await blankwright(['calibrate'], cwd);
  expect(told.code).toBe(0);
  const commands = told.out
    .split('\n')
    .filter((line) => line.trim().startsWith('blankwright make'));
  expect(commands).toHaveLength(3);
  for (const command of commands)
    expect((await blankwright(command.trim().split(' ').slice(1), cwd)).code).toBe(0);
  expect(names(join(cwd, 'out'))).toContain('strip-45.dxf');
});

test('strips of one angle say nothing, and nothing is written; a broken file is wrong input', async () => {
  const cwd = tempFolder();
  writeFileSync(
    join(cwd, 's.yaml'),
    'material: dc01\nthickness: 2\nstrips:\n  - { flat: 100, legA: 52, legB: 51.5, angle: 90 }\n',
  );
  const open = await blankwright(['calibrate', 's.yaml', '--save', 'shop.yaml'], cwd);
  expect([open.code, names(cwd)]).toEqual([1, ['s.yaml']]);
  expect(open.out).toContain('fold some to 45 or 120 degrees');
  writeFileSync(join(cwd, 's.yaml'), 'strips: 3');
  const wrong = await blankwright(['calibrate', 's.yaml', '--json'], cwd);
  expect([wrong.code, json<{ problems: unknown[] }>(wrong).problems.length]).toEqual([2, 1]);
  expect((await blankwright(['calibrate', 'nowhere.yaml'], cwd)).code).toBe(2);
});
