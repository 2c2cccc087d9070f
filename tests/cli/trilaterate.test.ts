import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { blankwright, json, type Problems, tempFolder } from '../helpers/command.ts';

const solve = async (text: string, ...flags: string[]) => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'holes.txt'), text);
  return blankwright(['trilaterate', 'holes.txt', ...flags], folder);
};

// A right-angled triangle of 3, 4 and 5: worked by hand.
test('points of a triangle out of its sides', async () => {
  const ran = await solve('A-B: 300 # along the rail\nB-C: 400\nA-C: 500\n', '--json');
  expect(ran.code).toBe(0);
  const { points } = json<{
    readonly points: readonly { readonly name: string; readonly x: number; readonly y: number }[];
  }>(ran);
  expect(points.map(({ name, x, y }) => [name, x, y])).toEqual([
    ['A', 0, 0],
    ['B', 300, 0],
    ['C', expect.closeTo(300, 6), expect.closeTo(400, 6)],
  ]);
});

test('a set that cannot be, or that leaves a point loose, ends like a part that cannot be made', async () => {
  expect((await solve('A-B: 100\nB-C: 100\nA-C: 300\n')).code).toBe(1);
  const loose = await solve('A-B: 100\nB-C: 100\nA-C: 100\nC-D: 50\n');
  expect(loose.code).toBe(1);
  expect(loose.out).toMatch(/D/);
});

test('what cannot be read is wrong input that names the place', async () => {
  const ran = await solve('A-B: 1,5\n', '--json');
  expect(ran.code).toBe(2);
  expect(json<Problems>(ran).problems[0]?.given).toMatch(/'5' in holes.txt/);
  expect((await blankwright(['trilaterate'], tempFolder())).code).toBe(2);
});
