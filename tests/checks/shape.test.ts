import { describe, expect, test } from 'vitest';
import { polygon } from '../../src/geometry/loop.ts';
import { obround } from '../../src/geometry/shapes.ts';
import type { FlatBend, FlatCutout, FlatPattern, FlatVertex } from '../../src/model/flat.ts';
import { BEND, findingsOf, plate, round } from '../helpers/plate.ts';
import { shopWith } from '../helpers/shops.ts';

const of = (rule: string, flat: FlatPattern, more: Parameters<typeof findingsOf>[1] = {}) =>
  findingsOf(flat, more).filter((f) => f.rule === rule);

describe("'sharp-corners'", () => {
  const outline = (points: readonly FlatVertex[]): FlatPattern =>
    plate([], { outline: points, bends: [] });
  const edges = (...points: [number, number][]): FlatVertex[] =>
    polygon(...points).map((v) => ({ ...v, origin: { kind: 'edge', panel: 'leg A', edge: 0 } }));

  // Each corner of a regular polygon turns by 360 degrees over their number: 8 of them by 45, 7 by
  // 51.4.
  const regular = (n: number): FlatVertex[] =>
    edges(
      ...Array.from({ length: n }, (_, i): [number, number] => [
        40 * Math.cos((2 * Math.PI * i) / n),
        40 * Math.sin((2 * Math.PI * i) / n),
      ]),
    );
  test.each([
    [8, 0],
    [7, 1],
    [4, 1],
  ])('a regular polygon of %d corners', (n, count) => {
    expect(of('sharp-corners', outline(regular(n)))).toHaveLength(count);
  });

  test('counts the corners, and leaves out those that go inwards or lie beside a fold', () => {
    const [found] = of(
      'sharp-corners',
      outline(edges([0, 0], [60, 0], [60, 40], [30, 40], [30, 20], [0, 20])),
    );
    expect([found?.severity, found?.message.slice(0, 7)]).toEqual(['note', '5 free ']);
    const strip = edges([0, 0], [60, 0], [60, 40], [0, 40]).map((v, i): FlatVertex =>
      i === 1 ? { ...v, origin: { kind: 'strip', fold: 'A' } } : v,
    );
    expect(of('sharp-corners', outline(strip))[0]?.message).toContain(
      '2 free corners are sharp (leg A)',
    );
  });

  test('a rounded corner is not sharp', () => {
    const rounded = [
      [5, 0, 0],
      [95, 0, Math.tan(Math.PI / 8)],
      [100, 5, 0],
      [100, 60, 0],
      [0, 60, 0],
      [0, 5, Math.tan(Math.PI / 8)],
    ].map(([x = 0, y = 0, bulge = 0]): FlatVertex => ({
      x,
      y,
      bulge,
      origin: { kind: 'edge', panel: 'leg A', edge: 0 },
    }));
    expect(of('sharp-corners', outline(rounded))[0]?.message).toContain('2 free corners');
  });
});

describe("'grain-direction'", () => {
  // DIN 6935, up to 390 MPa: 3 mm sheet takes 3 mm across the rolling direction, along it the
  // radius of the next class, 5 mm.
  const bent = (...radii: number[]): FlatPattern =>
    plate([], {
      bends: radii.map((insideRadiusMm, i) => ({ ...BEND, id: `F${i}`, insideRadiusMm })),
    });
  test.each([
    [2.99, 0],
    [3, 1],
    [4.99, 1],
    [5, 0],
  ])('inside radius %d', (radius, count) => {
    expect(of('grain-direction', bent(radius)).map((f) => f.severity)).toEqual(
      Array(count).fill('note'),
    );
  });

  test('folds that run across each other cannot all be laid across', () => {
    const upright: FlatBend = {
      ...BEND,
      id: 'B',
      centreLine: [
        [20, 0],
        [20, 100],
      ],
    };
    expect(of('grain-direction', bent(3, 3))[0]?.message).toContain(
      'square to these fold lines, or use a radius of 5',
    );
    expect(of('grain-direction', plate([], { bends: [BEND, upright] }))[0]?.message).toContain(
      'several directions: use a radius of 5',
    );
  });
});

describe("'hands-share-blank'", () => {
  const mirrored = { isMirrored: true };
  const hole = (x: number, y: number) => round('a', x, y, 8);
  const skew: FlatCutout = {
    kind: 'loop',
    panel: 'leg A',
    from: 'b',
    loop: obround([50, 20], 8, 30, 30),
  };

  test.each([
    // A square turned over lies on itself in eight ways; the bend at 50 to 57 leaves one, about x =
    // 50.
    ['no holes', [], 'are the same'],
    ['a hole on the axis', [hole(50, 20)], 'are the same'],
    ['two holes either side of it', [hole(30, 20), hole(70, 20)], 'are the same'],
    ['a hole on the other axis', [hole(20, 50)], 'mark the hand'],
    ['a slot on the skew', [skew], ''],
    ['a hole anywhere', [hole(20, 31)], ''],
  ] as [string, FlatCutout[], string][])('%s', (_, holes, says) => {
    const found = of('hands-share-blank', plate(holes), mirrored);
    expect(found).toHaveLength(says === '' ? 0 : 1);
    expect(found[0]?.message ?? '').toContain(says);
    expect(of('hands-share-blank', plate(holes))).toEqual([]);
  });
});

describe("'slot-land-weak'", () => {
  /** Three slots along the bend, with lands of this length: 3 slots and 4 lands make 100 mm. */
  const slotted = (land: number): FlatPattern => {
    const long = (100 - 4 * land) / 3;
    const slots = [0, 1, 2].map((i): FlatCutout => ({
      kind: 'loop',
      panel: 'leg A',
      from: `slot ${i}`,
      fold: 'A',
      loop: obround([land + long / 2 + i * (long + land), 53.5], 2, long, 0),
    }));
    return plate(slots);
  };

  // Two thicknesses of 3 mm.
  test.each([
    [6, 0],
    [5.99, 1],
  ])('lands of %d mm', (land, count) => {
    expect(of('slot-land-weak', slotted(land)).map((f) => f.severity)).toEqual(
      Array(count).fill('warn'),
    );
    expect(
      of('web-too-thin', slotted(land), { shop: shopWith({ leastWeb: [{ mm: 50 }] }) }),
    ).toEqual([]);
  });

  test('a cutter may ask for more', () => {
    expect(
      of('slot-land-weak', slotted(6), { shop: shopWith({ leastWeb: [{ mm: 7 }] }) })[0]?.message,
    ).toContain('slotLand to 7 or more');
  });

  test('a short land at one end is enough', () => {
    const slot: FlatCutout = {
      kind: 'loop',
      panel: 'leg A',
      from: 'slot 1',
      fold: 'A',
      loop: obround([48, 53.5], 2, 86, 0),
    };
    expect(of('slot-land-weak', plate([slot]))[0]?.message).toContain('5 mm at the shortest');
  });
});

test('a hole in a bend: the faces are pulled as arcs of one angle', () => {
  // r = t = 3, K = 0.42: outside 6 / 4.26, inside 3 / 4.26 of the neutral length; 3 mm of the hole
  // lie in the bend.
  const [found] = of('hole-near-bend', plate([round('holesA 1', 30, 48, 10)]));
  expect(found?.message).toContain(
    `${(3 * (6 / 4.26 - 1)).toFixed(2)} mm longer on the outside face, ${(3 * (1 - 3 / 4.26)).toFixed(2)} mm shorter`,
  );
});
