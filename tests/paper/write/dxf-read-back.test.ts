import type { ICircleEntity, ILineEntity, ILwpolylineEntity, ITextEntity } from 'dxf-parser';
import fc from 'fast-check';
import { describe, expect, test, type TestContext } from 'vitest';
import type { Loop } from '../../../src/geometry/loop.ts';
import { perimeter, signedArea } from '../../../src/geometry/measure.ts';
import { PROOF_MM } from '../../../src/geometry/tolerance.ts';
import { SHORTEST_MM } from '../../../src/dxf/write/file-loop.ts';
import { lineExtents } from '../../../src/model/drawing-extents.ts';
import type { Drawing, DrawingItem } from '../../../src/model/drawing.ts';
import { writeDxf } from '../../../src/dxf/write/dxf.ts';
import { distanceToCurve, pointsAlong } from '../../helpers/curve-distance.ts';
import {
  anyDrawing,
  anyLoop,
  CART_BRACKET,
  loopDrawing,
  textDrawing,
} from '../../helpers/drawings.ts';
import { DxfParser } from '../../helpers/dxf-parser.ts';
import {
  ezdxfAvailable,
  readWithEzdxf,
  type ReadDxf,
  type ReadEntity,
} from '../../helpers/ezdxf.ts';
import { needsOutside } from '../../helpers/needs-outside.ts';

/** Two rounded coordinates, and the rise of an arc on a rounded chord. */
const ROUNDING_MM = 3e-4;
const VERSIONS = ['r2000', 'r12'] as const;
type Version = (typeof VERSIONS)[number];

const write = (drawing: Drawing, version: Version): string =>
  writeDxf(drawing, { version, cutOnly: false });

interface ReadBack {
  readonly version: Version;
  readonly drawing: Drawing;
  readonly read: ReadDxf;
}

/**
 * Writes each drawing in both versions, reads all files in one go, and expects the auditor to be
 * content.
 */
const readBack = (ctx: TestContext, drawings: readonly Drawing[]): ReadBack[] => {
  needsOutside(ctx, 'python3-ezdxf', ezdxfAvailable);
  const written = VERSIONS.flatMap((version) => drawings.map((drawing) => ({ version, drawing })));
  const reads = readWithEzdxf(written.map(({ version, drawing }) => write(drawing, version)));
  expect(reads).toHaveLength(written.length);
  return reads.map((read, i) => {
    expect(read.errors).toEqual([]);
    expect(read.fixes).toEqual([]);
    for (const { layer } of read.entities) expect(Object.keys(read.layers)).toContain(layer);
    return { ...(written[i] as (typeof written)[number]), read };
  });
};

const loopOf = (drawing: Drawing, role: DrawingItem['role']): Loop => {
  const found = drawing.items.find((item) => item.kind === 'loop' && item.role === role);
  return found?.kind === 'loop' ? found.loop : [];
};

type Polyline = ReadEntity & { readonly type: 'LWPOLYLINE' | 'POLYLINE' };

const polylineOn = (read: ReadDxf, layer: string): Polyline => {
  const polylines = read.entities.filter(
    (e): e is Polyline => e.type === 'LWPOLYLINE' || e.type === 'POLYLINE',
  );
  const found = polylines.find((e) => e.layer === layer);
  if (found === undefined) throw new Error(`no polyline on ${layer}`);
  return found;
};

/**
 * Every point of the loop lies on the polyline read, and both are equally long and enclose the
 * same.
 */
const expectSameCurve = (polyline: Polyline, loop: Loop, tolerance: number): void => {
  expect(polyline.closed).toBe(true);
  const distances = pointsAlong(loop).map((p) => distanceToCurve(p, polyline.vertices));
  expect(Math.max(...distances)).toBeLessThan(tolerance);
  expect(Math.abs(perimeter(polyline.vertices) - perimeter(loop))).toBeLessThan(
    loop.length * 8 * tolerance,
  );
  expect(Math.abs(signedArea(polyline.vertices) - signedArea(loop))).toBeLessThan(
    perimeter(loop) * tolerance,
  );
  for (const vertex of polyline.vertices) expect(Math.abs(vertex.bulge)).toBeLessThanOrEqual(1);
};

const expectNear = (found: number, wanted: number): void =>
  expect(Math.abs(found - wanted)).toBeLessThan(ROUNDING_MM);

describe('read by ezdxf', () => {
  test('a bracket arrives whole, in millimetres, with its extents and layers', (ctx) => {
    for (const { version, read } of readBack(ctx, [CART_BRACKET])) {
      const old = version === 'r12';
      expect(read.version).toBe(old ? 'AC1009' : 'AC1015');
      expect(read.insUnits).toBe(old ? null : 4);
      expect(read.measurement).toBe(old ? null : 1);
      // By hand: the arc from (0, 60) to (0, 0) rises 0.5 x 60 / 2 = 15 beyond its chord.
      expect([...read.extMin, ...read.extMax]).toEqual([-15, 0, 110, 60]);
      expect(read.view.centre).toEqual([47.5, 30]);
      expect(read.view.height).toBeGreaterThanOrEqual(60);
      const polyline = old ? 'POLYLINE' : 'LWPOLYLINE';
      const kinds = [
        'NOTE TEXT',
        'MARK LINE',
        'FOLD-UP LINE',
        'FOLD-DOWN LINE',
        'HOLES CIRCLE',
        `HOLES ${polyline}`,
        `OUTLINE ${polyline}`,
      ];
      expect(read.entities.map((e) => `${e.layer} ${e.type}`)).toEqual(kinds);
      expectSameCurve(polylineOn(read, 'OUTLINE'), loopOf(CART_BRACKET, 'outline'), ROUNDING_MM);
      expectSameCurve(polylineOn(read, 'HOLES'), loopOf(CART_BRACKET, 'hole'), ROUNDING_MM);
      expect(read.entities[0]).toMatchObject({
        text: 'up 90° r2',
        at: [36, 20],
        height: 3,
        rotation: 90,
      });
      expect(read.entities[3]).toMatchObject({ from: [75, 0], to: [75, 60] });
      expect(read.entities[4]).toMatchObject({ centre: [12.3457, 15.6789], radius: 3.25 });
    }
  });

  test('layers are continuous, cuts twice as wide as the rest', (ctx) => {
    for (const { version, read } of readBack(ctx, [CART_BRACKET])) {
      const weight = (hundredths: number): number | null => (version === 'r12' ? null : hundredths);
      // ISO 128: wide to narrow is 2 to 1, from memory.
      expect(read.layers['OUTLINE']).toEqual({
        colour: 7,
        lineType: 'CONTINUOUS',
        lineWeight: weight(50),
      });
      expect(read.layers['FOLD-UP']).toMatchObject({
        lineType: 'CONTINUOUS',
        lineWeight: weight(25),
      });
      expect(read.layers['FOLD-UP']?.colour).not.toBe(read.layers['FOLD-DOWN']?.colour);
    }
  });

  test('every part of an R12 polyline lies on the layer of the whole', (ctx) => {
    for (const { version, read } of readBack(ctx, [CART_BRACKET])) {
      const parts = read.entities.flatMap((e) =>
        e.type === 'POLYLINE' ? [[e.layer, e.layersOfParts]] : [],
      );
      expect(parts).toEqual(
        version === 'r12'
          ? [
              ['HOLES', ['HOLES']],
              ['OUTLINE', ['OUTLINE']],
            ]
          : [],
      );
    }
  });

  test('random drawings keep every curve and state its reach', (ctx) => {
    for (const { drawing, read } of readBack(
      ctx,
      fc.sample(anyDrawing, { numRuns: 150, seed: 7 }),
    )) {
      expect(read.entities).toHaveLength(4);
      expectSameCurve(polylineOn(read, 'OUTLINE'), loopOf(drawing, 'outline'), ROUNDING_MM);
      const wanted = lineExtents(drawing.items);
      expectNear(read.extMin[0], wanted?.minX ?? NaN);
      expectNear(read.extMin[1], wanted?.minY ?? NaN);
      expectNear(read.extMax[0], wanted?.maxX ?? NaN);
      expectNear(read.extMax[1], wanted?.maxY ?? NaN);
    }
  });

  test('loops with pieces too short for a file stay within what a file may be wrong', (ctx) => {
    const jog = fc.double({ min: -0.004, max: 0.004, noNaN: true });
    const jagged = fc.tuple(anyLoop, jog, jog).map(([loop, dx, dy]) =>
      loopDrawing(
        loop.flatMap((v) => [
          { ...v, bulge: 0 },
          { x: v.x + dx, y: v.y + dy, bulge: v.bulge },
        ]),
      ),
    );
    for (const { drawing, read } of readBack(ctx, fc.sample(jagged, { numRuns: 100, seed: 8 }))) {
      const loop = loopOf(drawing, 'outline');
      const polyline = polylineOn(read, 'OUTLINE');
      expectSameCurve(polyline, loop, PROOF_MM + ROUNDING_MM);
      const chords = polyline.vertices.map((v, i, all) =>
        Math.hypot((all.at(i - 1)?.x ?? NaN) - v.x, (all.at(i - 1)?.y ?? NaN) - v.y),
      );
      expect(Math.min(...chords)).toBeGreaterThanOrEqual(SHORTEST_MM);
    }
  });

  test('texts that hold codes, breaks and foreign letters come back as plain words', (ctx) => {
    const texts = new Map<string, string | RegExp>([
      ['Träger für Öse, groß', 'Traeger fuer Oese, gross'],
      ['90° ±0.5', '90° ±0.5'],
      ['⌀6.5', /^[Ø⌀∅]6\.5$/],
      ['two\r\nlines\tand a tab', 'two lines and a tab'],
      ['0\nSECTION\n2\nENTITIES', '0 SECTION 2 ENTITIES'],
      ['  blanks  ', 'blanks'],
      ['a\u0000b\u001bc', 'a b c'],
      ['50% zinc', '50% zinc'],
      ['%%d', '% %d'],
      ['r^2 x^J', 'r^2 x^J'],
      ['\\U+0041 \\P', '/U+0041 \\P'],
      ['2½ in', '2 1/2 in'],
      ['日本', '??'],
    ]);
    for (const { drawing, read } of readBack(ctx, [...texts.keys()].map(textDrawing))) {
      const wanted = texts.get(drawing.title) ?? '';
      const text = typeof wanted === 'string' ? wanted : (expect.stringMatching(wanted) as unknown);
      expect(read.entities).toHaveLength(1);
      expect(read.entities[0]).toMatchObject({ type: 'TEXT', text });
    }
  });

  test('an empty drawing is a sound file', (ctx) => {
    for (const { read } of readBack(ctx, [{ title: '', items: [] }, textDrawing(' \n')])) {
      expect(read.entities).toEqual([]);
      expect([...read.extMin, ...read.extMax]).toEqual([0, 0, 0, 0]);
    }
  });
});

describe.for(VERSIONS)('%s read by dxf-parser', (version) => {
  test('random drawings keep their numbers', () => {
    fc.assert(
      fc.property(anyDrawing, (drawing) => {
        const read = new DxfParser().parseSync(write(drawing, version));
        const onLayer = (layer: string): unknown => read?.entities.find((e) => e.layer === layer);
        const outline = onLayer('OUTLINE') as ILwpolylineEntity;
        expect(outline.shape).toBe(true);
        const vertices = outline.vertices.map((v) => ({ x: v.x, y: v.y, bulge: v.bulge ?? 0 }));
        const loop = loopOf(drawing, 'outline');
        expect(Math.abs(signedArea(vertices) - signedArea(loop))).toBeLessThan(
          perimeter(loop) * ROUNDING_MM,
        );
        const [, circle, line] = drawing.items as [
          DrawingItem,
          DrawingItem & { kind: 'circle' },
          DrawingItem & { kind: 'line' },
        ];
        const hole = onLayer('HOLES') as ICircleEntity;
        expect(Math.abs(hole.radius - circle.radius)).toBeLessThan(ROUNDING_MM);
        expect(Math.abs(hole.center.x - circle.centre[0])).toBeLessThan(ROUNDING_MM);
        const fold = onLayer('FOLD-UP') as ILineEntity;
        expect(Math.abs((fold.vertices[1]?.y ?? NaN) - line.to[1])).toBeLessThan(ROUNDING_MM);
        expect((onLayer('NOTE') as ITextEntity).text.startsWith('x')).toBe(true);
        expect(read?.header['$INSUNITS']).toBe(version === 'r12' ? undefined : 4);
      }),
      { numRuns: 200 },
    );
  });
});
