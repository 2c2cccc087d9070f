import { expect, test } from 'vitest';
import type { Picture, PictureItem } from '../../../src/model/picture.ts';
import { CELL_MM, datumPicture } from '../../../src/paper/draw/datum-picture.ts';
import { pictureText } from '../../../src/paper/write/picture-text.ts';
import { offPage, overlapping, paintedOf, struckThrough } from '../../helpers/legible.ts';

const page = (...items: readonly PictureItem[]): Picture => ({ widthMm: 40, heightMm: 24, items });
const line = (x0: number, y0: number, x1: number, y1: number): PictureItem => ({
  kind: 'curve',
  pieces: [{ from: [x0, y0], to: [x1, y1], bulge: 0 }],
  stroke: { widthMm: 0.2 },
});

test('lines, where they meet, circles and texts have their letters, each in its cell', () => {
  const text = (align: 'left' | 'middle' | 'right'): PictureItem => ({
    kind: 'label',
    at: [20, 2],
    sizeMm: 5,
    text: 'abcd',
    align,
  });
  const both = [line(2, 20, 20, 20), line(10, 24, 10, 8)];
  expect(pictureText(page(...both), CELL_MM)).toEqual(['--+--', '  |']);
  expect(pictureText(page(...both.toReversed()), CELL_MM)).toEqual(['--+--', '  |']);
  expect(pictureText(page(line(20, 20, 2, 20)), CELL_MM)).toEqual(['-----']);
  expect(pictureText(page(line(2, 20, 20, 4)), CELL_MM)).toEqual([]);
  expect(pictureText(page(text('left')), CELL_MM)).toEqual(['', '', '     abcd']);
  expect(pictureText(page(text('middle')), CELL_MM)).toEqual(['', '', '   abcd']);
  expect(pictureText(page(text('right')), CELL_MM)).toEqual(['', '', ' abcd']);
  const hole: PictureItem = { kind: 'round', centre: [38, 12], radiusMm: 1 };
  expect(pictureText(page(hole), CELL_MM)).toEqual(['', '         o']);
});

test('a hole between its two lines reads the same in letters and on paper', () => {
  const picture = datumPicture({ name: 'left', distance: '20' }, { name: 'fold', distance: '35' });
  expect(pictureText(picture, CELL_MM)).toEqual([
    'left',
    '|<- 20 ->o',
    '|        ^',
    '|        35',
    '|        v',
    '+----------- fold',
  ]);
  const painted = paintedOf(picture);
  expect([offPage(picture, painted), overlapping(painted), struckThrough(painted)]).toEqual([
    [],
    [],
    [],
  ]);
});
