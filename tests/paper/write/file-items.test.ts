import { expect, test } from 'vitest';
import { rectangle } from '../../../src/geometry/loop.ts';
import type { DrawingItem } from '../../../src/model/drawing.ts';
import { fileItems } from '../../../src/dxf/write/file-items.ts';
import { CART_BRACKET } from '../../helpers/drawings.ts';

const written = (...items: DrawingItem[]): DrawingItem[] =>
  fileItems({ title: '', items }, { cutOnly: false });

const line = (from: [number, number], to: [number, number]): DrawingItem => ({
  kind: 'line',
  role: 'fold-up',
  from,
  to,
});
const hole = (x: number, radius: number): DrawingItem => ({
  kind: 'circle',
  role: 'hole',
  centre: [x, 0],
  radius,
});
const loop = (vertices: ReturnType<typeof rectangle>): DrawingItem => ({
  kind: 'loop',
  role: 'hole',
  loop: vertices,
});

test('what is cut last stands last, and a cut file holds nothing else', () => {
  const roles = (cutOnly: boolean): string[] => [
    ...new Set(fileItems(CART_BRACKET, { cutOnly }).map((item) => item.role)),
  ];
  expect(roles(false)).toEqual(['note', 'mark', 'fold-up', 'fold-down', 'hole', 'outline']);
  expect(roles(true)).toEqual(['hole', 'outline']);
});

test('the same line twice is written once, from whichever end and corner it was drawn', () => {
  expect(written(line([0, 0], [5, 5]), line([5, 5], [0, 0.00001]))).toHaveLength(1);
  expect(written(hole(3, 2), hole(3, 2))).toHaveLength(1);
  const square = rectangle(0, 0, 10, 10);
  const [first, ...others] = square;
  expect(
    written(loop(square), loop([...others, ...(first ? [first] : [])]), loop(square.toReversed())),
  ).toHaveLength(1);
  const slot = [
    { x: 0, y: 0, bulge: 0 },
    { x: 9, y: 0, bulge: 1 },
    { x: 9, y: 4, bulge: 0 },
    { x: 0, y: 4, bulge: 1 },
  ];
  const back = [
    { x: 0, y: 4, bulge: 0 },
    { x: 9, y: 4, bulge: -1 },
    { x: 9, y: 0, bulge: 0 },
    { x: 0, y: 0, bulge: -1 },
  ];
  expect(written(loop(slot), loop(back))).toHaveLength(1);
});

test('lines that differ are all written', () => {
  expect(written(line([0, 0], [5, 5]), line([0, 0], [5, 5.001]))).toHaveLength(2);
  expect(written(hole(3, 2), hole(3, 2.5), hole(3.1, 2))).toHaveLength(3);
  const bay = [
    { x: 0, y: 0, bulge: 0.5 },
    { x: 9, y: 0, bulge: 0 },
    { x: 9, y: 4, bulge: 0 },
  ];
  expect(written(loop(bay), loop(bay.map((v) => ({ ...v, bulge: -v.bulge }))))).toHaveLength(2);
});

test('a hole drawn as two half circles is a circle', () => {
  expect(
    written(
      loop([
        { x: 5, y: 1, bulge: 1 },
        { x: -5, y: 1, bulge: 1 },
      ]),
    ),
  ).toEqual([{ kind: 'circle', role: 'hole', centre: [0, 1], radius: 5 }]);
});

test('a text among the cuts is a bug and throws', () => {
  const text: DrawingItem = {
    kind: 'text',
    role: 'outline',
    at: [0, 0],
    heightMm: 3,
    angleDeg: 0,
    text: 'up',
  };
  expect(() => written(text)).toThrow('cut');
});

test('a text of blanks alone is left out, and so is its layer', () => {
  expect(
    written({
      kind: 'text',
      role: 'note',
      at: [0, 0],
      heightMm: 3,
      angleDeg: 0,
      text: ' \n\u200b',
    }),
  ).toEqual([]);
});

test('what has no size is left out', () => {
  const note: DrawingItem = {
    kind: 'text',
    role: 'note',
    at: [0, 0],
    heightMm: 0.001,
    angleDeg: 0,
    text: 'speck',
  };
  expect(written(line([0, 0], [0.003, 0]), hole(1, 0.004), note)).toEqual([]);
});

test('angles of texts come out between 0 and 360', () => {
  const turned = (angleDeg: number): DrawingItem => ({
    kind: 'text',
    role: 'note',
    at: [angleDeg, 0],
    heightMm: 3,
    angleDeg,
    text: 'up',
  });
  const angles = written(...[-90, 450, -0.00001, 720.5].map(turned)).map(
    (item) => item.kind === 'text' && item.angleDeg,
  );
  expect(angles).toEqual([270, 90, 0, 0.5]);
});
