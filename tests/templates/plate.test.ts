import { describe, expect, test } from 'vitest';
import { cosDeg, sinDeg } from '../../src/geometry/degrees.ts';
import { loopExtents } from '../../src/geometry/extents.ts';
import { add, scale, unit, type Vec2 } from '../../src/geometry/vec2.ts';
import { hasStop } from '../../src/model/finding.ts';
import type { Part } from '../../src/model/part.ts';
import { checkTemplate, make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { inTurns } from '../helpers/extent.ts';
import { expectFoldsBack } from '../helpers/fold-back.ts';

checkTemplate('plate');

const K042 = { material: 's235', thickness: 3, radius: 3, rule: 'k:0.42' };

/**
 * A floor with a flap on each side, all sides as far from the middle but for `uneven`, as points of
 * a card.
 */
const starOf = (
  sides: number,
  turnDeg: number,
  uneven: number,
): { readonly outline: string; readonly folds: [string, string][] } => {
  const at = (deg: number, r: number): Vec2 => [
    200 + r * cosDeg(deg + turnDeg),
    150 + r * sinDeg(deg + turnDeg),
  ];
  const corners = Array.from({ length: sides }, (_, i) =>
    at((360 / sides) * i, 70 + (i % 2) * uneven),
  );
  const text = (p: Vec2): string => p.map((n) => n.toFixed(4)).join(',');
  const flaps = corners.map((a, i): [Vec2, Vec2] => {
    const b = corners[(i + 1) % sides] as Vec2;
    const out = scale(unit([b[1] - a[1], a[0] - b[0]]), 30);
    return [add(a, out), add(b, out)];
  });
  return {
    outline: corners
      .flatMap((c, i) => [c, ...(flaps[i] as [Vec2, Vec2])])
      .map(text)
      .join('; '),
    folds: corners.map((c, i) => [text(c), text(corners[(i + 1) % sides] as Vec2)]),
  };
};

const orders = <T>(all: readonly T[]): T[][] =>
  all.length === 0
    ? [[]]
    : all.flatMap((first, i) => orders(all.toSpliced(i, 1)).map((rest) => [first, ...rest]));

describe('an outline through points', () => {
  const TAPED = {
    points:
      'A-B: 120; B-C: 80; C-D: 120; D-A: 80; A-C: 144.222; B-D: 144.222; A-B-C: left; A-B-D: left',
    ...K042,
  };
  const loopOf = async (inputs: Record<string, unknown>) =>
    (await makeOne('plate', { ...TAPED, ...inputs })).flat.outline.map((v) =>
      [v.x, v.y].map((n) => Math.round(n * 10) / 10),
    );

  test('taped points are corners of the plate, and have no hole unless one is asked for', async () => {
    // Sides of 3 by 2 have a diagonal of root 13.
    expect(await loopOf({ outline: 'A; B; C r6; D' })).toEqual([
      [0, 0],
      [120, 0],
      [120, 74],
      [114, 80],
      [0, 80],
    ]);
    const { flat } = await makeOne('plate', {
      ...TAPED,
      outline: 'A; B; C; 60,60; D',
      pointHoles: 'A: 5',
      pointsX: 10,
    });
    expect(flat.cutouts.map((c) => c.from)).toEqual(['A']);
    expect(flat.outline).toHaveLength(5);
  });

  test('a fold line may run from point to point', async () => {
    const taped = await makeOne('plate', {
      ...TAPED,
      outline: 'A; B; 120,140; 0,140',
      folds: 'D C 90 up',
      pointHoles: 'C: none; D: none',
    });
    const typed = await makeOne('plate', {
      outline: '0,0; 120,0; 120,140; 0,140',
      folds: '0,80 120,80 90 up',
      ...K042,
    });
    expect(taped.blank.heightMm).toBeCloseTo(typed.blank.heightMm, 2);
    expect(taped.flat.cutouts).toEqual([]);
  });

  test.each([
    [
      'a name that no point has',
      { outline: 'A; B; X' },
      'unknown-point',
      /outline names X, but the points are A, B, C, D/,
    ],
    [
      'names without points',
      { outline: 'A; B; C', points: undefined },
      'unknown-point',
      /give points, or write x,y/,
    ],
    [
      'a fold to a name that no point has',
      { outline: 'A; B; C; D', folds: 'A X 90 up' },
      'unknown-point',
      /folds names X/,
    ],
    ['points in no order', { outline: 'A; C; B; D' }, 'outline-wrong', /meets itself/],
    [
      'a radius too big',
      { outline: 'A; B r200; C; D' },
      'outline-wrong',
      /r200 at point 2 is too big/,
    ],
  ])('%s', async (_, inputs, rule, says) => {
    const [part] = await make('plate', { ...TAPED, ...inputs });
    expect(
      part?.result.findings
        .filter((f) => f.rule === rule)
        .map((f) => f.message)
        .join(),
    ).toMatch(says);
    expect(part?.files()).toEqual([]);
  });

  test('a corner may be cut off', async () => {
    const { flat } = await makeOne('plate', {
      outline: '0,0; 100,0 c10; 100,60 r5; 0,60',
      ...K042,
    });
    expect(flat.outline.map((v) => [v.x, v.y])).toEqual(
      [
        [0, 0],
        [90, 0],
        [100, 10],
        [100, 55],
        [95, 60],
        [0, 60],
      ].map((p) => p.map((n) => expect.closeTo(n, 9))),
    );
    expect(flat.areaMm2).toBeCloseTo(6000 - 50 - (1 - Math.PI / 4) * 25, 6);
  });
});

describe('plate', () => {
  // Worked by hand with K = 0.42: setback 6, allowance 6.6916, deduction 5.3084.
  test('one fold across a rectangle is the angle bracket of 50 and 30', async () => {
    const made = await makeOne('plate', {
      outline: '0,0; 80,0; 80,80; 0,80',
      folds: '0,50 80,50 90 up',
      holes: '20,30,9; 60,60,9',
      ...K042,
    });
    expect([made.blank.widthMm, made.blank.heightMm]).toEqual([
      expect.closeTo(80, 9),
      expect.closeTo(80 - 5.3084, 4),
    ]);
    expect(made.folded.sizeMm).toEqual([
      expect.closeTo(80, 9),
      expect.closeTo(50, 9),
      expect.closeTo(30, 9),
    ]);
    // The hole of the lower leg stays; that of the upper leg comes nearer by the deduction.
    expect(
      made.flat.cutouts
        .map((c) => (c.kind === 'round' ? c.centre[1] : NaN))
        .toSorted((a, b) => a - b),
    ).toEqual([30, expect.closeTo(60 - 5.3084, 4)]);
    expectFoldsBack(made.part as Part, made.flat);
  });

  test('a cross with four folds is a box, its outside dimensions those of the card', async () => {
    const made = await makeOne('plate', {
      outline:
        '40,0; 140,0; 140,40; 180,40; 180,100; 140,100; 140,140; 40,140; 40,100; 0,100; 0,40; 40,40',
      folds: '40,40 140,40 90 up; 140,40 140,100 90 up; 40,100 140,100 90 up; 40,40 40,100 90 up',
      ...K042,
    });
    expect(made.folded.sizeMm).toEqual([
      expect.closeTo(100, 9),
      expect.closeTo(60, 9),
      expect.closeTo(40, 9),
    ]);
    expect([made.blank.widthMm, made.blank.heightMm]).toEqual([
      expect.closeTo(180 - 2 * 5.3084, 3),
      expect.closeTo(140 - 2 * 5.3084, 3),
    ]);
    expectFoldsBack(made.part as Part, made.flat);
  });

  // Every order in which the folds round a floor may be written, each line from either end, the
  // card turned.
  test.each([
    ['a cross', 4, 0, 0],
    ['a cross that lies askew', 4, 23.7, 0],
    ['five unequal sides', 5, -41.3, 9],
    ['three sides', 3, 7, 4],
  ] as const)(
    '%s: any order of the fold lines is the same part, byte for byte',
    async (_, sides, turn, uneven) => {
      const { outline, folds } = starOf(sides, turn, uneven);
      const texts = new Set<string>();
      for (const [i, order] of inTurns(orders(folds), 0, 5).entries()) {
        const lines = order.map(
          ([a, b], k) => `${(i + k) % 2 === 0 ? `${a} ${b}` : `${b} ${a}`} 90 up`,
        );
        const [made] = await make('plate', {
          outline,
          folds: lines.join('; '),
          ...K042,
          radius: 3,
        });
        expect(rulesOf(made, 'stop')).toEqual([]);
        texts.add(made?.files().find((f) => f.name.endsWith('.dxf'))?.contents ?? '');
      }
      expect(texts.size).toBe(1);
    },
  );

  test('a fold line that leaves one leg of a fork alone cuts only the other', async () => {
    const made = await makeOne('plate', {
      outline: '0,0; 100,0; 100,60; 70,60; 70,20; 30,20; 30,60; 0,60',
      folds: '70,40 100,40 45 down',
      ...K042,
    });
    expect(made.flat.bends).toHaveLength(1);
    expect(made.flat.panels.map((p) => p.id)).toEqual(['panel 1', 'panel 2']);
    // 45 degrees, K = 0.42: deduction 1.6248.
    expect(made.blank.areaMm2).toBeCloseTo(100 * 60 - 40 * 40 - 30 * 1.6248, 2);
    expectFoldsBack(made.part as Part, made.flat);
  });

  test.each([
    ['0,50 40,50 90 up', 'fold-line-too-short', /ends 40 mm inside.*at least 40 mm longer/],
    [
      '0,50 80,50 90 up; 40,0 40,80 90 up',
      'fold-lines-cross',
      /Fold line 1 of folds runs into fold line 2/,
    ],
    ['200,50 280,50 90 up', 'fold-line-off-plate', /Fold line 1 of folds lies off the plate/],
    ['0,0 80,0 90 up', 'fold-line-on-edge', /Fold line 1 of folds runs along the edge.*move it in/],
    ['0,78 80,78 90 up', 'leg-too-short', /reaches 2 mm.*longer than 6 mm/],
  ])('fold lines %s are refused', async (folds, rule, says) => {
    const [part] = await make('plate', { outline: '0,0; 80,0; 80,80; 0,80', folds, ...K042 });
    expect(rulesOf(part, 'stop')).toContain(rule);
    expect(part?.result.findings.find((f) => f.rule === rule)?.message).toMatch(says);
    expect(part?.files()).toEqual([]);
  });

  // A sheet set off by d stands d + t high over all, whatever the angle: that is what a joggle is
  // for.
  test.each([
    [30, 1.5, 'outside', 'up'],
    [45, 1.5, 'outside', 'up'],
    [45, 6, 'inside', 'down'],
    [60, 8, 'outside', 'down'],
    [90, 20, 'inside', 'up'],
    [90, 20, 'outside', 'down'],
  ] as const)(
    'a joggle of %d degrees sets the metal off by %d mm, %s measure, %s',
    async (angle, offset, measure, direction) => {
      const made = await makeOne('plate', {
        outline: '0,0; 60,0; 60,120; 0,120',
        folds: `0,50 60,50 ${angle} ${direction} joggle${offset}`,
        measure,
        material: 'dc01',
        thickness: 1.5,
        radius: 1,
      });
      expect(made.flat.bends.map((b) => [b.id, b.angleDeg, b.direction])).toEqual([
        ['F1', angle, direction],
        ['F1b', angle, direction === 'up' ? 'down' : 'up'],
      ]);
      expect(made.folded.sizeMm[2]).toBeCloseTo(offset + 1.5, 9);
      expectFoldsBack(made.part as Part, made.flat);
    },
  );

  test('a joggle with no room for its web is refused with the line of it that is in the way', async () => {
    const [part] = await make('plate', {
      outline: '0,0; 60,0; 60,120; 0,120',
      folds: '0,50 60,50 90 up joggle1.5',
      material: 'dc01',
      thickness: 1.5,
      radius: 1,
    });
    expect(part?.result.findings.find((f) => f.severity === 'stop')?.message).toMatch(
      /too narrow for fold line 1b? of folds and fold line 1b? of folds/,
    );
    const [off] = await make('plate', {
      outline: '0,0; 60,0; 60,52; 0,52',
      folds: '0,50 60,50 45 up joggle1.5',
      material: 'dc01',
      thickness: 1.5,
      radius: 1,
    });
    expect(off?.result.findings.find((f) => f.severity === 'stop')?.message).toContain(
      'Fold line 1b of folds lies off the plate',
    );
  });

  test('a cut-out of any shape is taken out as it was traced, on the panel that holds it', async () => {
    const made = await makeOne('plate', {
      outline: '0,0; 80,0; 80,100; 0,100',
      folds: '0,50 80,50 90 up',
      cutouts: '20,10; 50,10; 35,30 | 30,70; 60,70; 60,90; 30,90',
      ...K042,
    });
    const [triangle, window] = made.flat.cutouts.map((c) =>
      c.kind === 'loop' ? c.loop.map((v) => [v.x, v.y]) : [],
    );
    expect(triangle).toEqual([
      [20, 10],
      [50, 10],
      [35, 30],
    ]);
    // Beyond the fold everything comes nearer by the deduction, 5.3084.
    expect(window).toEqual(
      [
        [30, 70],
        [60, 70],
        [60, 90],
        [30, 90],
      ].map(([x, y = 0]) => [expect.closeTo(x ?? 0, 9), expect.closeTo(y - 5.3084, 4)]),
    );
    expect(made.blank.areaMm2).toBeCloseTo(80 * (100 - 5.3084) - 300 - 600, 2);
  });

  // A 3-4-5 triangle of 90, 120 and 150, its right angle at A, laid with A at 30, 20 and turned by
  // 90 degrees.
  test('holes at points taped on the job', async () => {
    const inputs = {
      outline: '0,0; 200,0; 200,200; 0,200',
      points: 'A-B: 120; A-C: 90; B-C: 150; A-B-C: left',
      pointHole: 7,
      ...K042,
    };
    const places = async (more: Record<string, unknown>) =>
      (await makeOne('plate', { ...inputs, ...more })).flat.cutouts.map((c) => [
        c.from,
        ...(c.kind === 'round' ? [...c.centre, c.diameterMm] : []),
      ]);
    const near = (from: string, x: number, y: number, d: number) => [
      from,
      expect.closeTo(x, 6),
      expect.closeTo(y, 6),
      d,
    ];
    expect(await places({ pointsX: 30, pointsY: 20 })).toEqual([
      near('A', 30, 20, 7),
      near('B', 150, 20, 7),
      near('C', 30, 110, 7),
    ]);
    // Turned, B lies above A and C to its left.
    expect(
      await places({ pointsX: 130, pointsY: 20, pointsTurn: 90, pointHoles: 'B: M10; A: none' }),
    ).toEqual([near('B', 130, 140, 11), near('C', 40, 20, 7)]);
    const [stranger] = await make('plate', {
      ...inputs,
      pointHoles: 'X: M8',
      pointsX: 30,
      pointsY: 20,
    });
    expect(rulesOf(stranger, 'stop')).toEqual(['unknown-point']);
    const [alone] = await make('plate', { outline: inputs.outline, pointHoles: 'A: M8', ...K042 });
    expect(rulesOf(alone, 'stop')).toEqual(['unknown-point']);
    // Distances that contradict each other are no input at all.
    await expect(
      make('plate', { ...inputs, points: 'A-B: 120; A-C: 90; B-C: 250' }),
    ).rejects.toThrow(/points/);
  });

  test('a slotted line is cut through but for its lands', async () => {
    // Worked by hand: 80 long, lands 2 x 6 = 12, slots no longer than 50: two of (80 - 3 * 12) / 2
    // = 22.
    const made = await makeOne('plate', {
      outline: '0,0; 80,0; 80,80; 0,80',
      folds: '0,50 80,50 20 up slots',
      thickness: 6,
      radius: 12,
    });
    const boxes = made.flat.cutouts.map((c) =>
      c.kind === 'loop' ? loopExtents(c.loop) : undefined,
    );
    expect(boxes.map((b) => (b?.maxX ?? 0) - (b?.minX ?? 0))).toEqual([
      expect.closeTo(22, 9),
      expect.closeTo(22, 9),
    ]);
    expect(boxes.map((b) => (b?.maxY ?? 0) - (b?.minY ?? 0))).toEqual([
      expect.closeTo(2, 9),
      expect.closeTo(2, 9),
    ]);
    expectFoldsBack(made.part as Part, made.flat);
  });

  test('a fold line may fall a little short of the edge it was read off', async () => {
    const [part] = await make('plate', {
      outline: '0,0; 80,0; 80,80; 0,80',
      folds: '0.8,50 79.5,50 90 up',
      ...K042,
    });
    expect(hasStop(part?.flat?.findings ?? [])).toBe(false);
    expect(part?.flat?.bends).toHaveLength(1);
  });

  test('without a fold line it is the outline itself, whichever way that was traced', async () => {
    const made = await makeOne('plate', { outline: '0,80; 80,80; 80,0; 0,0', ...K042 });
    expect([made.blank.widthMm, made.blank.heightMm, made.blank.areaMm2]).toEqual([80, 80, 6400]);
  });
});
