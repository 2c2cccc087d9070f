import { describe, expect, test } from 'vitest';
import { calibrate, toShopBend, withBends } from '../../src/calibrate/calibrate.ts';
import { readStrips } from '../../src/calibrate/read.ts';

const YAML = `material: DC01
thickness: 1.5
machine: folder
tool: nose R1.5
strips:
  - { flat: 150, legA: 76.4, legB: 76.2, angle: 90, stopAt: 91.5, radius: 1.5 }
  - { flat: 6in, legA: 76, legB: 77, angle: 45, thickness: 1.48 }
`;
const CSV = `material,thickness,machine,tool,flat,legA,legB,angle,stopAt,radius
dc01,1.5,folder,nose R1.5,150,76.4,76.2,90,91.5,1.5
dc01,1.48,folder,"nose R1.5",6in,76,77,45,,
`;

test.each([
  ['yaml', YAML],
  ['csv', CSV],
  ['csv', `\uFEFF${CSV.replaceAll('\n', '\r\n')}`],
] as const)('the same strips out of %s', (kind, text) => {
  expect(readStrips(text, kind)).toEqual({
    ok: true,
    strips: [
      {
        number: 1,
        material: 'dc01',
        thicknessMm: 1.5,
        machine: 'folder',
        tool: 'nose R1.5',
        flatMm: 150,
        legAMm: 76.4,
        legBMm: 76.2,
        angleDeg: 90,
        stopAtDeg: 91.5,
        insideRadiusMm: 1.5,
      },
      {
        number: 2,
        material: 'dc01',
        thicknessMm: 1.48,
        machine: 'folder',
        tool: 'nose R1.5',
        flatMm: 152.4,
        legAMm: 76,
        legBMm: 77,
        angleDeg: 45,
      },
    ],
  });
});

describe('what is wrong with a file is told, all of it, with its place', () => {
  test.each([
    ['yaml', YAML.replace('angle: 45', 'angel: 45'), [['strips[1].angel', 'line 7']]],
    [
      'yaml',
      YAML.replace('angle: 90', 'angle: 190').replace('6in', 'frog'),
      [
        ['strips[0].angle', 'line 6'],
        ['strips[1].flat', 'line 7'],
      ],
    ],
    ['yaml', YAML.replace('DC01', 'cheese'), [['material', 'line 1']]],
    [
      'yaml',
      YAML.replace('material: DC01\n', ''),
      [
        ['strips[0].material', 'nothing'],
        ['strips[1].material', 'nothing'],
      ],
    ],
    ['yaml', 'strips: []', [['strips', 'line 1']]],
    ['yaml', '- 1', [['strips', 'a list']]],
    ['csv', CSV.replace(',45,', ',fort,'), [['strips[1].angle', 'line 3']]],
    ['csv', CSV.replace('dc01,1.48', ',1.48'), [['strips[1].material', 'nothing']]],
    ['csv', 'flat,legA\n150,76,"', [['strips', 'a CSV file']]],
    ['csv', '', [['strips', 'line']]],
  ] as const)('%s %#', (kind, text, expected) => {
    const read = readStrips(text, kind);
    expect(read.ok ? [] : read.problems.map((p) => p.input)).toEqual(
      expected.map(([input]) => input),
    );
    for (const [i, [, given]] of expected.entries())
      expect(read.ok ? '' : read.problems[i]?.given).toContain(given);
  });
});

test('strips of different sheet or tools are fitted apart; what was known of the same is replaced', () => {
  const read = readStrips(
    `material: dc01
thickness: 2
strips:
  - { flat: 100, legA: 52, legB: 51.5, angle: 90, radius: 2 }
  - { flat: 100, legA: 52, legB: 51.5, angle: 90, radius: 2, thickness: 2.05 }
  - { flat: 100, legA: 52, legB: 51.5, angle: 90, radius: 2, thickness: 3 }
  - { flat: 100, legA: 52, legB: 51.5, angle: 90, tool: other }
`,
    'yaml',
  );
  const lots = calibrate(read.ok ? read.strips : []);
  expect(lots.map((l) => [l.thicknessMm, l.tool, l.strips, l.fit !== undefined])).toEqual([
    [2.025, 'any', 2, true],
    [3, 'any', 1, true],
    [2, 'other', 1, false],
  ]);
  const [first, second] = lots.flatMap((l) => toShopBend(l) ?? []);
  if (first === undefined || second === undefined) throw new Error('two lots are fitted');
  // Worked by hand: 3.5 = 2 (2 + 2.025) - pi/2 (2 + K 2.025) for the mean of both sheets.
  expect(first.k).toBeCloseTo(((2 * 4.025 - 3.5) / (Math.PI / 2) - 2) / 2.025, 1);
  expect(
    withBends(
      [
        { ...first, k: 0.1 },
        { ...second, tool: 'else' },
      ],
      [first],
    ),
  ).toEqual([{ ...second, tool: 'else' }, first]);
});
