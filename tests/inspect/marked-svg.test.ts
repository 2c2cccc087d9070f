import { expect, test } from 'vitest';
import { markedPicture } from '../../src/inspect/marked-svg.ts';
import { drawnDxf, inspected } from '../helpers/drawn-dxf.ts';
import { offPage, overlapping, paintedOf, struckThrough } from '../helpers/legible.ts';

test('every number and every text of a marked drawing can be read, however near the places lie', () => {
  // A plate with a row of holes that are too small, close together, and too near to its edge.
  const holes = Array.from({ length: 12 }, (_, i) => `${10 + 4 * i} 3 ${0.3 + 0.02 * i}`);
  const gap = '60 0 60 40 0 40 0 0 59 0';
  const found = inspected(drawnDxf(gap, ...holes), { thicknessMm: 4 });
  const picture = markedPicture(found);
  const placed = found.inspection.findings.filter(({ at }) => at !== undefined);
  expect(placed.length).toBeGreaterThan(1);
  const painted = paintedOf(picture);
  const texts = painted.texts.map(({ label }) => label.text);
  const numbers = texts.filter((text) => /^[\d, ]+$/.test(text)).flatMap((t) => t.split(', '));
  expect(numbers.toSorted((a, b) => Number(a) - Number(b))).toEqual(
    found.inspection.findings.flatMap(({ at }, i) => (at === undefined ? [] : [String(i + 1)])),
  );
  expect([offPage(picture, painted), overlapping(painted), struckThrough(painted)]).toEqual([
    [],
    [],
    [],
  ]);
});
