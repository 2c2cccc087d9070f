import { describe, expect, test } from 'vitest';
import { drawBlank } from '../../../src/paper/draw/blank.ts';
import { type Loop, rectangle } from '../../../src/geometry/loop.ts';
import { drawingExtents } from '../../../src/model/drawing-extents.ts';
import type { FlatBend, FlatCutout, FlatPattern } from '../../../src/model/flat.ts';
import { STILL } from '../../../src/geometry/motion2.ts';

const bend = (y: number, change: Partial<FlatBend> = {}): FlatBend => ({
  id: 'A',
  parent: 'leg A',
  child: 'leg B',
  angleDeg: 45,
  direction: 'down',
  insideRadiusMm: 2.5,
  rule: 'din6935',
  allowanceMm: 4,
  setbackMm: 2,
  deductionMm: 0,
  kFactor: 0.4,
  parentTangent: [
    [0, y - 2],
    [100, y - 2],
  ],
  childTangent: [
    [0, y + 2],
    [100, y + 2],
  ],
  centreLine: [
    [100, y],
    [0, y],
  ],
  ...change,
});

const flatOf = (
  region: Loop,
  cutouts: readonly FlatCutout[],
  bends: readonly FlatBend[],
): FlatPattern => ({
  name: 'plate',
  thicknessMm: 2,
  outline: region.map((v) => ({ ...v, origin: { kind: 'trim', panel: 'leg A' } })),
  cutouts,
  bends,
  panels: [{ id: 'leg A', placement: STILL, region, areaMm2: 8000 }],
  widthMm: 100,
  heightMm: 80,
  areaMm2: 8000,
  findings: [],
});

const NOTES = {
  title: 'tow-bar lamp, left hand',
  lines: ['S235JR 2 mm, 1 off'],
  mark: 'blankwright test',
  remarks: [],
};
const hole = (x: number, y: number, diameterMm: number): FlatCutout => ({
  kind: 'round',
  panel: 'leg A',
  from: 'holesA 1',
  centre: [x, y],
  diameterMm,
});

const texts = (flat: FlatPattern) =>
  drawBlank(flat, NOTES).items.filter((item) => item.kind === 'text');

describe('drawBlank', () => {
  test('draws the outline, the holes and the folds, each in its role', () => {
    const slot: FlatCutout = {
      kind: 'loop',
      panel: 'leg A',
      from: 'holesA 2',
      loop: rectangle(60, 10, 5, 5),
    };
    const { title, items } = drawBlank(
      flatOf(rectangle(0, 0, 100, 80), [hole(20, 20, 8), slot], [bend(40)]),
      NOTES,
    );
    expect(title).toBe('tow-bar lamp, left hand');
    expect(
      items.filter((item) => item.kind !== 'text').map((item) => [item.kind, item.role]),
    ).toEqual([
      ['loop', 'outline'],
      ['circle', 'hole'],
      ['loop', 'hole'],
      ['line', 'fold-down'],
    ]);
  });

  test('the note of a fold reads along it from left to right, whichever way the fold runs', () => {
    const [note] = texts(flatOf(rectangle(0, 0, 100, 80), [], [bend(40)]));
    expect(note).toMatchObject({ text: 'A 45 DOWN R2.5', angleDeg: 0, role: 'note' });
    const upright = bend(0, {
      centreLine: [
        [50, 80],
        [50, 0],
      ],
    });
    expect(texts(flatOf(rectangle(0, 0, 100, 80), [], [upright]))[0]?.angleDeg).toBe(90);
  });

  test('texts keep clear of fold lines, slanted ones too', () => {
    const folds = [
      bend(40),
      bend(0, {
        id: 'B',
        centreLine: [
          [12, 41],
          [30, 79],
        ],
      }),
      bend(0, {
        id: 'C',
        centreLine: [
          [5, 39],
          [40, 3],
        ],
      }),
    ];
    const found = texts(flatOf(rectangle(0, 0, 100, 80), [], folds));
    expect(found).toHaveLength(5);
    for (const item of found) {
      const [c, s] = [
        Math.cos((item.angleDeg * Math.PI) / 180),
        Math.sin((item.angleDeg * Math.PI) / 180),
      ];
      const box = drawingExtents([{ ...item, at: [0, 0], angleDeg: 0 }]);
      if (box === undefined) throw new Error('every text has a box');
      for (const {
        centreLine: [[x0, y0], [x1, y1]],
      } of folds) {
        for (let i = 0; i <= 1000; i += 1) {
          // A point of the line in the text's own directions.
          const [x, y] = [
            x0 + ((x1 - x0) * i) / 1000 - item.at[0],
            y0 + ((y1 - y0) * i) / 1000 - item.at[1],
          ];
          const [along, up] = [c * x + s * y, c * y - s * x];
          const isInside = along > box.minX && along < box.maxX && up > box.minY && up < box.maxY;
          expect(isInside, `${item.text} on a fold line`).toBe(false);
        }
      }
    }
  });

  test('texts keep clear of holes and of each other, and lie on the metal', () => {
    const flat = flatOf(
      rectangle(0, 0, 100, 80),
      [hole(12, 68, 20), hole(12, 44, 10), hole(50, 20, 30)],
      [bend(40)],
    );
    const boxes = texts(flat).map((item) => drawingExtents([item]));
    const holes = flat.cutouts.map((h) =>
      h.kind === 'round'
        ? drawingExtents([
            { kind: 'circle', role: 'hole', centre: h.centre, radius: h.diameterMm / 2 },
          ])
        : undefined,
    );
    expect(boxes).toHaveLength(3);
    for (const [i, box] of boxes.entries()) {
      if (box === undefined) throw new Error('every text has a box');
      expect([box.minX >= 0, box.minY >= 0, box.maxX <= 100, box.maxY <= 80]).toEqual([
        true,
        true,
        true,
        true,
      ]);
      for (const other of [...holes, ...boxes.slice(i + 1)]) {
        if (other === undefined) continue;
        const apart =
          box.maxX <= other.minX ||
          other.maxX <= box.minX ||
          box.maxY <= other.minY ||
          other.maxY <= box.minY;
        expect(apart).toBe(true);
      }
    }
  });

  test('letters shrink on a narrow fold', () => {
    const narrow = bend(40, {
      centreLine: [
        [0, 40],
        [30, 40],
      ],
    });
    const [small] = texts(flatOf(rectangle(0, 0, 30, 80), [], [narrow]));
    const [large] = texts(flatOf(rectangle(0, 0, 100, 80), [], [bend(40)]));
    expect(small?.kind === 'text' && small.heightMm).toBeLessThan(
      large?.kind === 'text' ? large.heightMm : 0,
    );
    expect(drawingExtents(small ? [small] : [])?.maxX).toBeLessThanOrEqual(30);
  });

  test('a blank too small for any text still carries the notes', () => {
    expect(texts(flatOf(rectangle(0, 0, 6, 6), [], []))).toHaveLength(2);
  });
});
