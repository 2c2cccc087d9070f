import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { trilaterate } from '../../src/cli/commands/trilaterate.ts';
import { WrongInput } from '../../src/cli/failure.ts';
import { tempFolder } from '../helpers/command.ts';

/** Writes a file, runs the command on it, and gives its exit code and what it printed. */
async function ran(
  content: string | Uint8Array,
  { name = 'tower.txt', json = false } = {},
): Promise<{ code: number; out: string }> {
  const path = join(tempFolder(), name);
  writeFileSync(path, content);
  const printed: string[] = [];
  const print = (text: string): void => void printed.push(text);
  const code = await trilaterate(path, json, {
    out: print,
    err: print,
    importModule: () => Promise.reject(new Error('nothing to import')),
  });
  return { code, out: printed.join('\n') };
}

const problemOf = async (run: Promise<unknown>): Promise<string> => {
  try {
    await run;
  } catch (error) {
    if (error instanceof WrongInput) return error.message;
    throw error;
  }
  throw new Error('it went through');
};

// The rectangle of two 3-4-5 triangles.
const RECTANGLE = [
  'A-B: 400 # along the rail',
  'B-C: 300',
  '# across',
  'C-D: 400',
  'D-A: 300, A-C: 500; B-D: 500',
].join('\n');

describe('what it prints', () => {
  test('places, residuals, and what to make of them', async () => {
    const { code, out } = await ran(RECTANGLE);
    expect(code).toBe(0);
    expect(out.split('\n').map((l) => l.trim().split(/\s+/))).toEqual(
      expect.arrayContaining([
        ['A', '0.00', '0.00'],
        ['C', '400.00', '300.00'],
        ['D', '0.00', '300.00'],
        ['B-D', '500.00', '500.00', '0.00'],
      ]),
    );
    expect(out).toMatch(/1 distance more than needed; residuals 0 mm/);
    expect(out).toMatch(/for that write A-B-C: right/);
  });

  test('as JSON, one document of the agreed names', async () => {
    const { code, out } = await ran(RECTANGLE, { json: true });
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      points: [
        { name: 'A', x: 0, y: 0 },
        { name: 'B', x: 400, y: 0 },
        { name: 'C', x: 400, y: 300 },
        { name: 'D', x: 0, y: 300 },
      ],
      residuals: expect.arrayContaining([
        { from: 'B', to: 'D', measuredMm: 500, foundMm: 500, residualMm: 0 },
      ]),
      rmsMm: 0,
      suspect: null,
      loose: [],
      mirror: [{ from: 'A', to: 'B', side: 'left', whole: true, otherwise: 'A-B-C: right' }],
    });
  });

  test('the distance that disagrees, and by how much the rest improves', async () => {
    // E is the middle, 250 from each corner, and F the middle of the side A-B: 250 from E would
    // make 150.
    const text = `${RECTANGLE}\nA-E: 250, B-E: 250, C-E: 250, D-E: 250\nA-F: 200, B-F: 200, E-F: 150, C-F: ${Math.hypot(200, 300)}, D-F: ${Math.hypot(200, 300) + 40}`;
    const { code, out } = await ran(text);
    expect(code).toBe(0);
    expect(out).toMatch(
      /^warn {2}D-F disagrees most: given 400\.56 mm, where the other distances make it 360\.56 mm\. Without it the residuals fall from \d+(\.\d+)? to 0 mm/m,
    );
    const json = JSON.parse((await ran(text, { json: true })).out) as { suspect: object };
    expect(json.suspect).toMatchObject({
      from: 'D',
      to: 'F',
      wouldBeMm: expect.closeTo(360.555, 2),
      rivals: [],
    });
  });

  test('a set that pins nothing down, or contradicts itself, ends as a part that cannot be made', async () => {
    expect(await ran('A-B: 400, B-C: 300')).toMatchObject({
      code: 1,
      out: expect.stringMatching(/^stop {2}The distances do not pin/m),
    });
    expect(await ran('A-B: 400, B-C: 300, A-C: 50')).toMatchObject({
      code: 1,
      out: expect.stringMatching(/^stop {2}A-B is given as 400 mm/m),
    });
  });
});

describe('what it reads', () => {
  test.each([
    ['tower.yaml', 'A-B: 400\nB-C: 300\nA-C: 50 cm\nA-B-C: right\n'],
    ['tower.yml', 'distances: "A-B: 400, B-C: 300, A-C: 500"\nsides: "A-B-C: right"\n'],
    ['tower.yaml', 'distances:\n  A-B: 400\n  B-C: 300\n  A-C: 500\nsides:\n  A-B-C: right\n'],
    ['tower.yaml', 'distances:\n  - "A-B: 400"\n  - "B-C: 300"\n  - "A-C: 500; A-B-C: right"\n'],
    [
      'tower.json',
      '{"distances": {"A-B": 400, "B-C": 300, "A-C": "500 mm"}, "sides": {"A-B-C": "right"}}',
    ],
    ['tower', 'A-B: 400\r\nB-C: 300\r\nA-C: 500\r\nA-B-C: right\r\n'],
  ])('%s: %j', async (name, content) => {
    const { out } = await ran(content, { name, json: true });
    expect((JSON.parse(out) as { points: unknown }).points).toEqual([
      { name: 'A', x: 0, y: 0 },
      { name: 'B', x: 400, y: 0 },
      { name: 'C', x: 400, y: -300 },
    ]);
  });

  test.each([
    [
      'tower.txt',
      'A-B: far',
      /file: given 'A-B: far' in .*tower\.txt; allowed: distances as A-B: 312/,
    ],
    ['tower.txt', '', /no distance in/],
    ['tower.yaml', 'A-B: [1, 2]', /given \[1,2\] as 'A-B'.*Write a length or a side/],
    ['tower.yaml', 'A-B: 1\nA-B: 2', /line 2/],
    ['tower.txt', new Uint8Array([0x41, 0xff, 0xfe]), /not UTF-8/],
    ['tower.txt', 'A-B: 1\n'.repeat(20_000), /at most 100000 bytes/],
  ])('refuses %s: %.20j', async (name, content, reason) => {
    expect(await problemOf(ran(content, { name }))).toMatch(reason);
  });

  test('a file that is not there', async () => {
    const console = {
      out: () => undefined,
      err: () => undefined,
      importModule: () => Promise.resolve(),
    };
    expect(await problemOf(trilaterate(join(tempFolder(), 'none.txt'), false, console))).toMatch(
      /cannot be read: it does not exist/,
    );
  });
});
