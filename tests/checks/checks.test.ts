import { describe, expect, test } from 'vitest';
import { CHECKS } from '../../src/checks/index.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import { obround } from '../../src/geometry/shapes.ts';
import type { FlatCutout, FlatPattern } from '../../src/model/flat.ts';
import { BEND, findingsOf, plate, round } from '../helpers/plate.ts';

/** What stops the part or warns about it. */
const rules = (flat: FlatPattern) =>
  findingsOf(flat)
    .filter((f) => f.severity !== 'note')
    .map((f) => f.rule);
const only = (rule: string, flat: FlatPattern) => findingsOf(flat).filter((f) => f.rule === rule);

describe('just inside finds nothing, just outside exactly one', () => {
  test.each([
    ['clear of the edge', [round('holesA 1', 5.01, 20, 10)], []],
    ['on the edge', [round('holesA 1', 5, 20, 10)], ['hole-off-metal']],
    ['over the edge', [round('holesA 1', 1, 20, 10)], ['hole-off-metal']],
    ['off the metal', [round('holesA 1', -20, 20, 10)], ['hole-off-metal']],
    ['two apart', [round('holesA 1', 20, 20, 10), round('holesA 2', 30.01, 20, 10)], []],
    [
      'two touching',
      [round('holesA 1', 20, 20, 10), round('holesA 2', 30, 20, 10)],
      ['holes-meet'],
    ],
    [
      'one in the other',
      [round('holesA 1', 20, 20, 10), round('holesA 2', 21, 20, 3)],
      ['holes-meet'],
    ],
    [
      'twice the same',
      [round('holesA 1', 20, 20, 10), round('holesA 2', 20, 20, 10)],
      ['holes-meet'],
    ],
    // 2 x 3 mm from where the bend begins at y = 50, or ends at y = 57.
    ['far enough below the bend', [round('holesA 1', 20, 39, 10)], []],
    ['too near below the bend', [round('holesA 1', 20, 39.01, 10)], ['hole-near-bend']],
    ['far enough above the bend', [round('holesA 1', 20, 68, 10)], []],
    ['too near above the bend', [round('holesA 1', 20, 67.99, 10)], ['hole-near-bend']],
    ['inside the bend', [round('holesA 1', 20, 53.5, 2)], ['hole-near-bend']],
    [
      'a slot too near',
      [{ kind: 'loop', panel: 'leg A', from: 'holesA 1', loop: obround([20, 38], 8, 20, 45) }],
      ['hole-near-bend'],
    ],
  ] as [string, FlatCutout[], string[]][])('%s', (_, cutouts, expected) => {
    expect(rules(plate(cutouts))).toEqual(expected);
  });

  // A panel of 100 x 50 on the bend; the hole of 10 needs as much metal beside it as it is wide:
  // its middle 15 from an edge.
  test.each([
    ['where it usually lies', [15, 30], [30, 15], []],
    [
      'nearer the edge, and well on the metal the other way',
      [14.9, 30],
      [30, 15.1],
      ['hole-other-way'],
    ],
    ['nearer the edge, and too near the bend the other way', [14.9, 36], [36, 14.9], []],
    ['nearer the edge, and off the panel the other way', [14.9, 30], [30, 60], []],
    ['said with names', [14.9, 30], undefined, []],
  ] as const)("'hole-other-way': %s", (_, [x, y], otherWay, expected) => {
    const hole: FlatCutout = {
      ...round('holesA 1', x, y, 10),
      ...(otherWay !== undefined && { otherWay }),
    };
    const panels = [
      {
        id: 'leg A',
        placement: { c: 1, s: 0, x: 0, y: 0 },
        region: rectangle(0, 0, 100, 50),
        areaMm2: 5000,
      },
    ];
    expect(rules(plate([hole], { panels }))).toEqual(expected);
  });

  // M8 has a pitch of 1.25: three turns take 3.75 mm; the sheet is 3 mm. A cone of 90 degrees is
  // half as deep as it is wider.
  test.each([
    ['three turns of thread', { screw: 'M6', thread: { kind: 'tapped', pitchMm: 1 } }, []],
    ['fewer', { screw: 'M8', thread: { kind: 'tapped', pitchMm: 1.25 } }, ['thread-too-short']],
    ['a countersink as deep as the sheet', { countersink: { diameterMm: 16, face: 'up' } }, []],
    ['a deeper one', { countersink: { diameterMm: 16.02, face: 'up' } }, ['countersink-too-deep']],
  ] as const)('%s', (_, use, expected) => {
    expect(rules(plate([{ ...round('holesA 1', 30, 25, 10), use }]))).toEqual(expected);
  });

  test('threads and countersinks that are alike are told once', () => {
    const tapped = (n: number, x: number) => ({
      ...round(`holesA ${n}`, x, 25, 6.8),
      use: { screw: 'M8', thread: { kind: 'tapped', pitchMm: 1.25 } } as const,
    });
    const found = only('thread-too-short', plate([tapped(1, 20), tapped(2, 40), tapped(3, 60)]));
    expect(found.map((f) => f.message)).toEqual([
      expect.stringMatching(/^Holes holesA 1 and 2 more in .*: M8 has 2.4 turns/),
    ]);
  });

  test('a hole too small for the cutter, and near others, is for the drill', () => {
    expect(
      rules(
        plate([
          { ...round('holesA 1', 30, 25, 0.5), use: { isDrilled: true } },
          { ...round('holesA 2', 31, 25, 0.4), use: { isDrilled: true } },
        ]),
      ),
    ).toEqual([]);
  });

  test('radius under the least of the material', () => {
    // DIN 6935, table of smallest permissible bending radii: up to 3 mm, steel up to 390 MPa: 3 mm.
    const findings = only(
      'radius-below-least',
      plate([], { bends: [{ ...BEND, insideRadiusMm: 2.9 }] }),
    );
    expect(findings.map((f) => f.severity)).toEqual(['warn']);
    expect(findings[0]?.message).toContain('Use 3 or more');
    expect(rules(plate([]))).toEqual([]);
  });

  test('a thickness that is not stocked', () => {
    const findings = only('thickness-not-stocked', plate([], { thicknessMm: 3.05, bends: [] }));
    expect(findings.map((f) => f.severity)).toEqual(['note']);
    expect(only('thickness-not-stocked', plate([]))).toEqual([]);
    expect(findings[0]?.message).toContain('3 or 4 mm');
  });
});

describe('messages', () => {
  test('give a figure that passes', () => {
    const [off] = findingsOf(plate([round('holesA 1', 3.456, 20, 10)]));
    expect(off?.message).toContain('diameter less than 6.91');
    expect(off?.at).toEqual([expect.closeTo(3.456, 9), expect.closeTo(20, 9)]);
    const [near] = findingsOf(plate([round('holesA 2', 20, 42.004, 10)]));
    // Its edge is 2.996 from the bend, 6 are asked for.
    expect(near?.message).toContain('Move it 3.01 mm further');
    expect(near?.severity).toBe('warn');
  });
});

test('every check says why, and where its limit comes from', () => {
  for (const check of CHECKS) {
    expect(check.reason).toMatch(/^[A-Z].*\.$/);
    expect(check.source.length).toBeGreaterThan(5);
  }
  expect(new Set(CHECKS.map((check) => check.rule)).size).toBe(CHECKS.length);
});
