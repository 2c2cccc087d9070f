import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { mendedCopy } from '../../src/inspect/mend.ts';
import { cpuSeconds } from '../helpers/cpu-seconds.ts';
import { drawnDxf, dxfOf, foundRules, inspected, INSPECTING } from '../helpers/drawn-dxf.ts';
import { fuzzRuns, largeSize } from '../helpers/extent.ts';

const SQUARE = ['0 0 100 0', '100 0 100 100', '0 100 100 100', '0 100 0 0'] as const;

const mended = (text: string) => mendedCopy(inspected(text), INSPECTING, 'part', 'mark');

describe('a contour that does not close', () => {
  test.each([
    [
      'an outline on its layer, holes on theirs',
      ['OUTLINE: 0 0 100 0 100 80 0 80', 'HOLES: 20 20 4', 'HOLES: 80 20 4'],
    ],
    [
      'of loose lines',
      ['OUTLINE: 0 0 100 0', 'OUTLINE: 100 0 100 80', 'OUTLINE: 100 80 0 80', 'HOLES: 20 20 4'],
    ],
    [
      'of lines that do not meet',
      ['A: 5 0 95 0', 'A: 100 5 100 75', 'A: 95 80 5 80', 'A: 0 75 0 5', 'B: 20 20 4'],
    ],
    ['on a layer that says nothing', ['A: 0 0 100 0 100 80 0 80', 'B: 20 20 4', 'B: 80 20 4']],
    ['with nothing else in the file', ['A: 0 0 100 0 100 80 0 80']],
    ['a hole on a layer of its own', [...SQUARE, 'B: 20 20 40 20 40 40 20 40']],
    [
      'a hole of lines that do not meet',
      [...SQUARE, 'B: 22 20 38 20', 'B: 40 22 40 38', 'B: 38 40 22 40', 'B: 20 38 20 22'],
    ],
    ['a slit on a layer for cuts', [...SQUARE, 'CUT: 20 20 40 20']],
    ['beside a part', [...SQUARE, 'B: 120 0 220 0']],
  ])('stops: %s, and is not mended into a marking', (_, shapes) => {
    const text = drawnDxf(...shapes);
    expect(foundRules(inspected(text), 'stop')).toContain('open-contour');
    const copy = mended(text);
    expect(copy.ok ? [] : copy.stops.map((f) => f.rule)).toContain('open-contour');
  });

  test.each([
    ['a fold line from edge to edge', 'B: 0 40 100 40'],
    ['an axis that goes beyond the edges', 'B: 50 -5 50 105'],
    ['the axes of a hole', 'B: 40 50 60 50'],
    ['a bend on a layer called so, bent itself', 'Bend lines: 10 10 50 50 90 10'],
  ])('is none: %s', (_, line) => {
    const text = drawnDxf(...SQUARE.map((s) => `A: ${s}`), 'A: 50 50 5', line);
    expect(foundRules(inspected(text))).toEqual(['stray-layer']);
    const copy = mended(text);
    expect(
      copy.ok &&
        inspected(copy.text)
          .inspection.layers.map((l) => l.name)
          .toSorted(),
    ).toEqual(['HOLES', 'MARK', 'OUTLINE']);
  });

  test('a Y of lines is told alike in whatever order they are drawn', () => {
    const [a, b, c] = ['0 0 50 0', '50 0 80 40', '50 0 80 -40'] as const;
    const told = [
      [a, b, c],
      [a, c, b],
      [b, a, c],
      [b, c, a],
      [c, a, b],
      [c, b, a],
    ].map((order) => inspected(drawnDxf(...order)).inspection);
    for (const one of told) {
      expect(one.findings.map((f) => [f.rule, f.severity])).toEqual(
        told[0]?.findings.map((f) => [f.rule, f.severity]),
      );
      expect([one.contours, one.pierces]).toEqual([
        { closed: 0, open: 3, gaps: 0, parts: 0, holes: 0, deepest: 0 },
        3,
      ]);
    }
    expect(told[0]?.findings.some((f) => f.rule === 'open-contour')).toBe(true);
  });
});

describe('two parts that share an edge', () => {
  test.each([
    ['both closed', ['0 0 100 0 100 100 0 100 ...', '100 0 150 0 150 100 100 100 ...'], 5000, 100],
    [
      'of lines, the edge twice',
      [...SQUARE, '100 0 150 0', '150 0 150 100', '150 100 100 100', '100 100 100 0'],
      5000,
      100,
    ],
    [
      'of lines, the edge once',
      [...SQUARE, '100 0 150 0', '150 0 150 100', '150 100 100 100'],
      5000,
      0,
    ],
    [
      'a shorter one, closed',
      ['0 0 100 0 100 100 0 100 ...', '100 20 150 20 150 60 100 60 ...'],
      2000,
      40,
    ],
    [
      'a shorter one, of lines',
      [...SQUARE, '100 20 150 20', '150 20 150 60', '150 60 100 60', '100 20 100 60'],
      2000,
      40,
    ],
    [
      'of lines, on layers of their own',
      [
        ...SQUARE.map((s) => `A: ${s}`),
        'B: 100 0 150 0',
        'B: 150 0 150 100',
        'B: 150 100 100 100',
        'B: 100 100 100 0',
      ],
      5000,
      100,
    ],
  ])('%s: are two, in the file and in its mended copy', (_, shapes, areaMm2, doubledMm) => {
    for (const order of [shapes, shapes.toReversed()]) {
      const found = inspected(drawnDxf(...order));
      expect(foundRules(found, 'stop')).toEqual([]);
      expect(foundRules(found)).toEqual(expect.arrayContaining(['several-parts', 'shared-edge']));
      expect(foundRules(found)).not.toEqual(expect.arrayContaining(['duplicate']));
      expect(found.inspection).toMatchObject({
        contours: { closed: 2, open: 0, parts: 2, holes: 0 },
        areaMm2: expect.closeTo(10_000 + areaMm2, 6) as number,
        doubledMm: expect.closeTo(doubledMm, 6) as number,
      });
      const copy = mendedCopy(found, INSPECTING, 'part', 'mark');
      if (!copy.ok) throw new Error(copy.stops.map((f) => f.message).join(' '));
      expect(inspected(copy.text).inspection).toMatchObject({
        contours: { parts: 2, holes: 0 },
        areaMm2: expect.closeTo(10_000 + areaMm2, 3) as number,
        cutLengthMm: expect.closeTo(found.inspection.cutLengthMm, 3) as number,
      });
    }
  });

  test('nine squares, each side drawn once or by each of them', () => {
    const squares = [0, 1, 2].flatMap((i) =>
      [0, 1, 2].map((j) => [10 * i, 10 * j, 10 * i + 10, 10 * j + 10] as const),
    );
    const closed = squares.map(([a, b, c, d]) => `${a} ${b} ${c} ${b} ${c} ${d} ${a} ${d} ...`);
    const sides = squares.flatMap(([a, b, c, d]) => [
      `${a} ${b} ${c} ${b}`,
      `${c} ${b} ${c} ${d}`,
      `${a} ${d} ${c} ${d}`,
      `${a} ${b} ${a} ${d}`,
    ]);
    for (const shapes of [closed, sides, [...new Set(sides)]]) {
      const { inspection } = inspected(drawnDxf(...shapes));
      expect(inspection).toMatchObject({
        contours: { closed: 9, open: 0, parts: 9 },
        areaMm2: expect.closeTo(900, 6) as number,
        cutLengthMm: expect.closeTo(240, 6) as number,
      });
    }
  });
});

describe('what is drawn twice', () => {
  test('a contour on two layers, closed or of lines, is one', () => {
    const found = inspected(
      drawnDxf(
        'A: 0 0 100 0 100 100 0 100 ...',
        ...SQUARE.map((s) => `B: ${s}`),
        'A: 50 50 10',
        'B: 50 50 10',
      ),
    );
    expect(foundRules(found)).toEqual(['duplicate']);
    expect(found.inspection).toMatchObject({
      contours: { closed: 2, parts: 1, holes: 1 },
      pierces: 2,
      doubledMm: expect.closeTo(400 + 20 * Math.PI, 6) as number,
    });
  });

  test.each([
    ['two circles about one middle', '50 50 10', '50 50 10.05'],
    ['two circles that cross', '50 50 10', '50.04 50 10'],
    ['two outlines', '0 0 100 0 100 100 0 100 ...', '0.1 0.1 99.9 0.1 99.9 99.9 0.1 99.9 ...'],
  ])('%s, nearly one: told as such, and no part in the scrap', (_, first, second) => {
    const found = inspected(drawnDxf(...(first.endsWith('...') ? [] : SQUARE), first, second));
    expect(foundRules(found)).toEqual(['nearly-double']);
    expect(found.inspection.contours).toMatchObject({
      parts: 1,
      holes: first.endsWith('...') ? 0 : 1,
    });
    const copy = mendedCopy(found, INSPECTING, 'part', 'mark');
    expect(copy.ok && foundRules(inspected(copy.text))).toEqual(['nearly-double']);
  });

  test('a ring that can be cut is one', () => {
    expect(foundRules(inspected(drawnDxf(...SQUARE, '50 50 10', '50 50 9')))).toEqual([
      'contour-in-hole',
    ]);
  });
});

describe('ends that do not quite meet', () => {
  test.each([
    [0.00105, []],
    [0.004, []],
    [0.02, ['gap']],
    [0.2, ['gap']],
  ])('%d mm', (gap, told) => {
    const found = inspected(
      drawnDxf('0 0 100 0', `100 0 100 ${100 - gap}`, '100 100 0 100', '0 100 0 0'),
    );
    expect(foundRules(found)).toEqual(told);
    expect(foundRules(found, 'stop')).toEqual(gap > 0.05 ? told : []);
    expect(found.inspection.contours).toMatchObject({ closed: 1, open: 0, gaps: told.length });
  });

  test('two lines side by side are not closed into a sliver', () => {
    const found = inspected(drawnDxf(...SQUARE, '20 50 80 50', '20 50.5 80 50.5'));
    expect(foundRules(found, 'stop')).toEqual(['open-contour']);
  });
});

describe('the order of entities', () => {
  const cell = fc.tuple(fc.nat(3), fc.nat(3));
  const rectangle = fc
    .tuple(cell, cell)
    .filter(([[a, b], [c, d]]) => a !== c && b !== d)
    .map(([[a, b], [c, d]]) => {
      const p = [
        [a, b],
        [c, b],
        [c, d],
        [a, d],
      ].map(([x = 0, y = 0]) => `${20 * x} ${20 * y}`);
      return p.map((at, i) => `${at} ${p[(i + 1) % 4]}`);
    });
  const line = fc
    .tuple(cell, cell)
    .filter(([[a, b], [c, d]]) => a !== c || b !== d)
    .map(([[a, b], [c, d]]) => [`${20 * a} ${20 * b} ${20 * c} ${20 * d}`]);
  const circle = fc
    .tuple(cell, fc.constantFrom(3, 8))
    .map(([[x, y], r]) => [`${20 * x + 10} ${20 * y + 10} ${r}`]);
  const drawing = fc
    .array(fc.oneof(rectangle, line, circle), { minLength: 1, maxLength: 5 })
    .map((all) => all.flat());
  const turned = (shape: string): string =>
    shape.split(' ').length === 4
      ? shape.split(' ').slice(2).concat(shape.split(' ').slice(0, 2)).join(' ')
      : shape;

  test('and the way each is drawn do not matter', () => {
    fc.assert(
      fc.property(
        drawing,
        fc.infiniteStream(fc.nat(1000)),
        fc.boolean(),
        (shapes, keys, isTurned) => {
          const order = shapes
            .map((shape) => ({ shape, key: keys.next().value as number }))
            .sort((a, b) => a.key - b.key)
            .map((s) => (isTurned ? turned(s.shape) : s.shape));
          const [one, other] = [shapes, order].map((all) => inspected(drawnDxf(...all)).inspection);
          const told = (i: typeof one): unknown => [
            i?.contours,
            i?.pierces,
            i?.areaMm2.toFixed(6),
            i?.cutLengthMm.toFixed(6),
            i?.doubledMm.toFixed(6),
            i?.findings.filter((f) => f.severity === 'stop').map((f) => f.rule),
          ];
          expect(told(other)).toEqual(told(one));
        },
      ),
      { numRuns: fuzzRuns(300) },
    );
  });
});

describe('so much of it', () => {
  test.each([
    [
      'a star of lines',
      Array.from({ length: largeSize(20_000) }, (_, i) => `0 0 ${100 + i} ${(i * 37) % 1000}`),
    ],
    [
      'triangles about one point',
      Array.from({ length: largeSize(20_000) }, (_, i) => {
        const at = (k: number): string =>
          `${(1000 * Math.cos(k / 6400)).toFixed(4)} ${(1000 * Math.sin(k / 6400)).toFixed(4)}`;
        return [`0 0 ${at(2 * i)}`, `${at(2 * i)} ${at(2 * i + 1)}`, `${at(2 * i + 1)} 0 0`];
      }).flat(),
    ],
    ['one line again and again', Array.from({ length: largeSize(3000) }, () => '0 0 100 0')],
    ['one circle again and again', Array.from({ length: largeSize(3000) }, () => '0 0 100')],
    [
      'circles about one middle',
      Array.from({ length: largeSize(5000) }, (_, i) => `0 0 ${1 + i / 100}`),
    ],
    [
      'a long polyline twice, the other way round',
      [0, 1].map(
        (way) =>
          `${Array.from({ length: largeSize(20_000) }, (_, k) => {
            const i = way === 0 ? k : largeSize(20_000) - 1 - k;
            return `${(1000 * Math.cos(i / 3183.2)).toFixed(4)} ${(1000 * Math.sin(i / 3183.2)).toFixed(4)}`;
          }).join(' ')} ...`,
      ),
    ],
  ])('%s: an answer within seconds, and no more than some lines of it', (_, shapes) => {
    const text = drawnDxf(...shapes);
    const seconds = cpuSeconds(() => {
      const found = inspected(text);
      expect(found.inspection.findings.length).toBeLessThan(130);
      const copy = mendedCopy(found, INSPECTING, 'part', 'mark');
      expect((copy.ok ? copy.changes : copy.stops).length).toBeLessThan(100);
    });
    expect(seconds).toBeLessThan(30);
  });
});

test('layers that are off are so in whatever letters their name is written', () => {
  const layer =
    '0\nTABLE\n2\nLAYER\n0\nLAYER\n2\nHidden\n70\n0\n62\n-7\n0\nLAYER\n2\nICE\n70\n1\n62\n7\n0\nENDTAB';
  const circle = (name: string, x: number): string =>
    `0\nCIRCLE\n8\n${name}\n10\n${x}\n20\n50\n40\n5`;
  const found = inspected(
    dxfOf(
      `0\nLWPOLYLINE\n8\nOUTLINE\n90\n4\n70\n1\n10\n0\n20\n0\n10\n100\n20\n0\n10\n100\n20\n100\n10\n0\n20\n100\n${circle('HIDDEN', 20)}\n${circle('ice', 50)}`,
      layer,
    ),
  );
  expect([foundRules(found), found.inspection.contours.holes]).toEqual([['hidden'], 0]);
});

describe('a drawing far away from 0', () => {
  const at = (x: number, y: number): string =>
    drawnDxf(
      `${x} ${y} ${x + 100} ${y} ${x + 100} ${y + 80} ${x} ${y + 80} ...`,
      `${x + 50} ${y + 40} 10`,
    );

  test.each([
    [5_000_000, 0],
    [20_000_000, 0],
    [3_500_000_000, 5_400_000_000],
  ])('at %d, %d mm is the same part', (x, y) => {
    const found = inspected(at(x, y));
    const isFar = Math.max(x, y) > 1e7;
    expect(foundRules(found)).toEqual(isFar ? ['far-from-0'] : []);
    expect(found.inspection).toMatchObject({
      contours: { parts: 1, holes: 1 },
      extents: { minX: expect.closeTo(x, 3) as number, maxY: expect.closeTo(y + 80, 3) as number },
    });
    expect(found.inspection.areaMm2).toBeCloseTo(8000 - 100 * Math.PI, 2);
    const copy = mendedCopy(found, INSPECTING, 'part', 'mark');
    if (!copy.ok) throw new Error('not mended');
    expect(foundRules(inspected(copy.text))).toEqual([]);
    expect(copy.changes.some((c) => c.startsWith('Moved the drawing by'))).toBe(isFar);
  });

  test('a line far away from the rest is told in whole words, and the rest is looked at', () => {
    const found = inspected(drawnDxf(...SQUARE, '50000000 0 50000100 0', 'NaN 0 5 5'));
    expect(found.inspection.contours.parts).toBe(1);
    const told = found.inspection.findings
      .filter((f) => f.rule === 'unreadable')
      .map((f) => f.message);
    expect(told).toHaveLength(2);
    expect(told).toEqual(
      expect.arrayContaining([
        "1 LINE on layer '0' holds a coordinate that is no number, or one beyond any sheet. Draw it anew, or delete it.",
        "1 LINE on layer '0' lies more than 10 km away from the rest of the drawing. Draw it anew, or delete it.",
      ]),
    );
  });
});

test('counts are of what is drawn: sides of a polyline, a circle as one', () => {
  const { inspection } = inspected(
    drawnDxf('A: 0 0 100 0 100 100 0 100 ...', 'B: 50 50 10', 'B: 20 20 5', 'FOLD-UP: 0 30 100 30'),
  );
  expect(inspection.layers.map(({ name, pieces }) => [name, pieces])).toEqual([
    ['A', 4],
    ['B', 2],
    ['FOLD-UP', 1],
  ]);
  expect(inspection.contours).toEqual({
    closed: 3,
    open: 0,
    gaps: 0,
    parts: 1,
    holes: 2,
    deepest: 1,
  });
});
