import fc from 'fast-check';
import makerjs from 'makerjs';
import { expect, test } from 'vitest';
import { loopExtents } from '../../../src/geometry/extents.ts';
import { rectangle, type Loop } from '../../../src/geometry/loop.ts';
import { perimeter } from '../../../src/geometry/measure.ts';
import type { Drawing } from '../../../src/model/drawing.ts';
import { fileLoop } from '../../../src/dxf/write/file-loop.ts';
import { writeSvg } from '../../../src/paper/write/svg.ts';
import {
  anyDrawing,
  anyLoop,
  CART_BRACKET,
  loopDrawing,
  textDrawing,
} from '../../helpers/drawings.ts';
import { published } from '../../helpers/published.ts';

const write = (drawing: Drawing, cutOnly = false): string => writeSvg(drawing, { cutOnly });

const attribute = (svg: string, pattern: RegExp): string => pattern.exec(svg)?.[1] ?? '';

interface Page {
  readonly width: number;
  readonly height: number;
  readonly viewBox: readonly number[];
}

const pageOf = (svg: string): Page => ({
  width: Number(attribute(svg, /<svg[^>]* width="([\d.]+)mm"/)),
  height: Number(attribute(svg, /<svg[^>]* height="([\d.]+)mm"/)),
  viewBox: attribute(svg, /viewBox="([^"]*)"/)
    .split(' ')
    .map(Number),
});

test('the page is the drawing and 1 mm on each side, and a user unit is a millimetre', () => {
  // By hand: the bracket reaches from x = -15 to 110 and from y = 0 to 60.
  const { width, height, viewBox } = pageOf(write(CART_BRACKET));
  expect({ width, height }).toEqual({ width: 127, height: 62 });
  expect(viewBox).toEqual([-16, -1, 127, 62]);
});

test('100 mm come out as the published number of pixels (s1)', () => {
  const { given, expect: wanted, tolerance } = published('exchange', 's1');
  const { width, viewBox } = pageOf(write(loopDrawing(rectangle(0, 0, 98, 40))));
  expect(width).toBe(given['mm']);
  // A reader shows `width` at 96 dpi, and so many user units of the view box in it.
  const pixelsPerUnit = ((width / 25.4) * (given['dpi'] as number)) / (viewBox[2] ?? NaN);
  expect(
    Math.abs(98 * pixelsPerUnit + 2 * pixelsPerUnit - (wanted['px'] as number)),
  ).toBeLessThanOrEqual(tolerance);
});

test('the blank stands upright: its lower left is at the lower left, nothing mirrored', () => {
  const corner: Loop = [
    { x: 0, y: 0, bulge: 0 },
    { x: 40, y: 0, bulge: 0 },
    { x: 0, y: 20, bulge: 0 },
  ];
  // In a picture y runs down, so y = 0 of the blank is 20 below its top.
  expect(attribute(write(loopDrawing(corner)), / d="([^"]*)"/)).toBe('M0 20L40 20L0 0Z');
  expect(write(CART_BRACKET)).not.toContain('scale(');
  expect(write(CART_BRACKET)).not.toMatch(/<(svg|g)[^>]*transform/);
});

test('random loops read by makerjs have the same reach and length', () => {
  fc.assert(
    fc.property(anyLoop, (loop) => {
      const svg = write(loopDrawing(loop));
      const model = makerjs.importer.fromSVGPathData(attribute(svg, / d="([^"]*)"/));
      const { low, high } = makerjs.measure.modelExtents(model) as makerjs.IMeasure;
      // What was dropped or rounded before is judged in the test of loops for files.
      const wanted = loopExtents(fileLoop(loop) ?? []) ?? {
        minX: NaN,
        minY: NaN,
        maxX: NaN,
        maxY: NaN,
      };
      // makerjs turns y over while reading, and the page puts the top at 0.
      const tolerance = 2e-4 + 1e-8 * perimeter(loop);
      expect(
        Math.abs((low[0] ?? NaN) - wanted.minX) + Math.abs((high[0] ?? NaN) - wanted.maxX),
      ).toBeLessThan(tolerance);
      expect(
        Math.abs((low[1] ?? NaN) - (wanted.minY - wanted.maxY)) + Math.abs(high[1] ?? NaN),
      ).toBeLessThan(tolerance);
      const length = makerjs.measure.modelPathLength(model);
      expect(Math.abs(length - perimeter(loop))).toBeLessThan(
        loop.length * 1e-3 + 1e-6 * perimeter(loop),
      );
    }),
  );
});

test('one group per used layer, cuts unfilled and 0.1 mm thin, text upright on its base line', () => {
  const svg = write(CART_BRACKET);
  const ids = [...svg.matchAll(/<g id="([^"]*)"/g)].map((found) => found[1]);
  expect(ids).toEqual(['NOTE', 'MARK', 'FOLD-UP', 'FOLD-DOWN', 'HOLES', 'OUTLINE']);
  expect(svg).toContain('<g id="OUTLINE" fill="none" stroke="#000000" stroke-width="0.1">');
  expect(svg).toContain('<circle cx="12.3457" cy="44.3211" r="3.25"/>');
  // A quarter turn counter-clockwise is -90 where y runs down.
  expect(svg).toContain('<text x="36" y="40" transform="rotate(-90 36 40)"');
  expect(svg).toContain('<title>Lamp bracket, left</title>');
});

test('the cut file holds outline and holes alone', () => {
  const svg = write(CART_BRACKET, true);
  expect([...svg.matchAll(/<g id="([^"]*)"/g)].map((found) => found[1])).toEqual([
    'HOLES',
    'OUTLINE',
  ]);
  expect(svg).not.toContain('<text');
});

test('a note beside the blank enlarges the page instead of being cut off', () => {
  const below: Drawing = {
    title: 'note',
    items: [
      ...loopDrawing(rectangle(0, 0, 50, 20)).items,
      { kind: 'text', role: 'note', at: [40, -10], heightMm: 4, angleDeg: 0, text: 'lamp side' },
    ],
  };
  const { width, height, viewBox } = pageOf(write(below));
  // Nine letters of at least half their height beyond x = 40; 10 mm and what hangs below.
  expect((viewBox[0] ?? NaN) + width).toBeGreaterThan(40 + 9 * 2);
  expect(height).toBeGreaterThan(20 + 10);
  expect(viewBox.slice(2)).toEqual([width, height]);
});

test('texts are escaped after XML 1.0', () => {
  const svg = write(textDrawing('a<b & "c">\u0000\n\uD800 Öse \uFFFF'));
  expect(svg).toContain('>a&lt;b &amp; &quot;c&quot;&gt; \uFFFD Öse \uFFFD</text>');
  expect(svg).toContain('<title>a&lt;b &amp;');
});

test('any drawing gives well-formed numbers, and the same text again', () => {
  fc.assert(
    fc.property(anyDrawing, (drawing) => {
      const svg = write(drawing);
      const numbers = [
        ...svg.matchAll(/ (?:x|y|x1|y1|x2|y2|cx|cy|r|d|width|height|viewBox)="([^"]*)"/g),
      ].map((found) => found[1]);
      for (const text of numbers) expect(text).toMatch(/^[\d.\-MLAZ m]+$/);
      expect(svg.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
      expect(write(drawing)).toBe(svg);
    }),
  );
});
