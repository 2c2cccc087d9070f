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
  const numbers = texts
    .filter((text) => /^[\d, -]+$/.test(text))
    .flatMap((t) => t.split(', '))
    .flatMap((run) => {
      const [from = NaN, to = from] = run.split('-').map(Number);
      return Array.from({ length: to - from + 1 }, (_, i) => String(from + i));
    });
  expect(numbers.toSorted((a, b) => Number(a) - Number(b))).toEqual(
    found.inspection.findings.flatMap(({ at }, i) => (at === undefined ? [] : [String(i + 1)])),
  );
  expect([offPage(picture, painted), overlapping(painted), struckThrough(painted)]).toEqual([
    [],
    [],
    [],
  ]);
});

test('a thin web is marked in its middle, not at the end of the line that it lies along', () => {
  // A hole of 76 mm whose rim stands 2 mm off the lower edge of a plate of 240 mm.
  const found = inspected(drawnDxf('0 0 240 0 240 120 0 120 0 0', '120 40 38'), {
    thicknessMm: 4,
  });
  const web = found.inspection.findings.find(({ rule }) => rule === 'web-too-thin');
  expect(web?.at?.[0]).toBeCloseTo(120, 6);
  expect(web?.at?.[1]).toBeCloseTo(1, 6);
  expect(web?.message).toContain('near (120, 1)');
});

test('what stops, what warns and what is only noted have signs of their own, none of them round, and the legend says which', () => {
  const plate = '0 0 240 0 240 120 0 120 0 0';
  const found = inspected(drawnDxf(plate, '120 40 38', '200 100 0.3', '260 0 300 0 300 30'), {
    thicknessMm: 4,
  });
  const { items } = markedPicture(found);
  // All circles of the file are curves; a round item could only be a sign.
  expect(items.filter(({ kind }) => kind === 'round')).toEqual([]);
  const words = { stop: 'STOP', warn: 'WARNING', note: 'NOTE' };
  for (const [i, { severity }] of found.inspection.findings.entries())
    expect(
      items.some(
        (item) => item.kind === 'label' && item.text.startsWith(`${words[severity]} ${i + 1}:`),
      ),
    ).toBe(true);
  const severities = new Set(found.inspection.findings.map((f) => f.severity));
  expect(severities.has('stop') && severities.has('warn')).toBe(true);
});

test('texts of the file are drawn where they stand, as high and as turned', () => {
  const dxf = drawnDxf('0 0 240 0 240 120 0 120 0 0').replace(
    /0\r?\nENDSEC\r?\n0\r?\nEOF/,
    '0\nTEXT\n8\nNOTES\n10\n20\n20\n30\n40\n5\n1\nupper face\n50\n90\n0\nENDSEC\n0\nEOF',
  );
  const found = inspected(dxf);
  expect(found.drawing.texts).toEqual([
    { text: 'upper face', at: [20, 30], heightMm: 5, angleDeg: 90 },
  ]);
  const label = markedPicture(found).items.find(
    (item) => item.kind === 'label' && item.text === 'upper face',
  );
  expect(label).toMatchObject({ angleDeg: 90 });
});
