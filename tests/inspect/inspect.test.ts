import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import makerjs from 'makerjs';
import { describe, expect, test } from 'vitest';
import { type Inspected, inspectDxf } from '../../src/inspect/inspect.ts';
import { mendedCopy } from '../../src/inspect/mend.ts';
import { bytesOf, drawnDxf, foundRules, inspected, INSPECTING } from '../helpers/drawn-dxf.ts';
import { ezdxfAvailable } from '../helpers/ezdxf.ts';
import { needsOutside } from '../helpers/needs-outside.ts';

/** The text of the mended copy. */
const mended = (found: Inspected): string => {
  const copy = mendedCopy(found, INSPECTING, 'part', 'mended: part');
  if (!copy.ok) throw new Error(copy.stops.map((f) => f.message).join(' '));
  return copy.text;
};

const SQUARE = ['0 0 100 0', '100 0 100 100', '0 100 100 100', '0 100 0 0'] as const;

describe('a plate with a hole', () => {
  test('has its area, cut length and pierces, and nothing against it', () => {
    const { inspection } = inspected(drawnDxf(...SQUARE, '50 50 10'), { thicknessMm: 3 });
    expect(inspection.findings).toEqual([]);
    expect(inspection.contours).toEqual({
      closed: 2,
      open: 0,
      gaps: 0,
      parts: 1,
      holes: 1,
      deepest: 1,
    });
    expect(inspection.areaMm2).toBeCloseTo(10_000 - 100 * Math.PI, 6);
    expect(inspection.cutLengthMm).toBeCloseTo(400 + 20 * Math.PI, 6);
    expect([inspection.pierces, inspection.extents]).toEqual([
      2,
      { minX: 0, minY: 0, maxX: 100, maxY: 100 },
    ]);
  });

  test.each([
    ['a gap', ['0 0 100 0', '100 0 100 99.6', '0 100 100 100', '0 100 0 0'], ['gap']],
    ['an open line', [...SQUARE, '10 10 20 20'], ['open-contour']],
    ['a crossing', [...SQUARE, '100 50 10'], ['crossing', 'several-parts']],
    ['a double', [...SQUARE, '50 50 10', '50 50 10'], ['duplicate']],
    ['an overlap', [...SQUARE, '50 0 100 0'], ['duplicate']],
    ['a longer overlap', [...SQUARE, '50 0 150 0'], ['open-contour', 'overlap', 'touching']],
    [
      'a short piece',
      ['0 0 100 0', '100 0 100 99.95', '100 99.95 100 100', '0 100 100 100', '0 100 0 0'],
      ['short-piece'],
    ],
    ['a hole in a hole', [...SQUARE, '50 50 20', '50 50 10'], ['contour-in-hole']],
    ['a hole too small', [...SQUARE, '50 50 0.5'], ['hole-below-least']],
    ['a web too thin', [...SQUARE, '50 50 10', '70.5 50 10'], ['web-too-thin']],
    ['two parts', [...SQUARE, '200 50 10'], ['several-parts']],
    [
      'a plate beyond the bed',
      ['0 0 4000 0', '4000 0 4000 100', '4000 100 0 100', '0 100 0 0'],
      ['larger-than-bed'],
    ],
    [
      'a plate in the wrong unit',
      ['0 0 4 0', '4 0 4 4', '4 4 0 4', '0 4 0 0'],
      ['probable-unit-mistake'],
    ],
    ['a line that is no number', [...SQUARE, 'NaN 0 5 5'], ['unreadable']],
    ['a huge number', [...SQUARE, '1e300 0 5 5'], ['unreadable']],
  ])('with %s', (_, shapes, expected) => {
    expect(foundRules(inspected(drawnDxf(...shapes), { thicknessMm: 3 }))).toEqual(expected);
  });

  test('tells where a gap is and how wide', () => {
    const [gap] = inspected(drawnDxf('0 0 100 0', '100 0 100 99.6', '0 100 100 100', '0 100 0 0'))
      .inspection.findings;
    expect(gap?.message).toContain('0.4 mm');
    expect(gap?.at).toEqual([100, expect.closeTo(99.8, 9)]);
  });
});

describe('files that cannot be looked at', () => {
  test.each([
    ['nothing', new Uint8Array()],
    ['NUL bytes', new Uint8Array(5000)],
    ['binary DXF', bytesOf('AutoCAD Binary DXF\r\n\u001a\0')],
    ['words', bytesOf('not a drawing\nat all\n')],
    ['UTF-16', new Uint8Array([0xff, 0xfe, 0x30, 0])],
    [
      'too many lines',
      bytesOf(drawnDxf(...Array.from({ length: 100_001 }, (_, i) => `${i} 0 ${i} 5`))),
    ],
  ])('%s: refused with a reason and a mend', (_, file) => {
    expect(inspectDxf(file, INSPECTING)).toEqual({
      ok: false,
      reason: expect.stringMatching(/./) as string,
      mend: expect.stringMatching(/./) as string,
    });
  });

  test('a file that is cut off is looked at as far as it goes', () => {
    expect(foundRules(inspected(drawnDxf(...SQUARE).replace('0\nENDSEC\n0\nEOF\n', '')))).toContain(
      'cut-off',
    );
  });

  test('a block that holds itself comes to an end', () => {
    const insert = '0\nINSERT\n8\n0\n2\nA\n10\n0\n20\n0';
    const text = `0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nA\n${insert}\n${insert}\n0\nENDBLK\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n${insert}\n0\nENDSEC\n0\nEOF\n`;
    expect(foundRules(inspected(text))).toContain('unreadable');
  });
});

test('the exporter of Maker.js: a plate with rounded corners and four holes', () => {
  const plate = new makerjs.models.BoltRectangle(80, 40, 4);
  const model = {
    units: makerjs.unitType.Millimeter,
    models: {
      holes: plate,
      rim: makerjs.model.move(new makerjs.models.RoundRectangle(100, 60, 8), [-10, -10]),
    },
  };
  const { inspection } = inspected(makerjs.exporter.toDXF(model));
  expect(inspection.contours).toMatchObject({ closed: 5, open: 0, parts: 1, holes: 4 });
  expect(inspection.areaMm2).toBeCloseTo(6000 - (4 - Math.PI) * 64 - 4 * 16 * Math.PI, 3);
});

const EZDXF = `
import sys, ezdxf
for version in ('R12', 'R2000', 'R2007', 'R2010', 'R2018'):
    doc = ezdxf.new(version)
    if version != 'R12': doc.units = ezdxf.units.MM
    msp = doc.modelspace()
    msp.add_polyline2d([(0, 0), (100, 0), (100, 50), (0, 50)], close=True) if version == 'R12' else msp.add_lwpolyline([(0, 0), (100, 0), (100, 50), (0, 50)], close=True)
    block = doc.blocks.new('HOLE')
    block.add_circle((0, 0), 2)
    msp.add_blockref('HOLE', (20, 25))
    msp.add_blockref('HOLE', (40, 25), dxfattribs={'xscale': 2, 'yscale': 2})
    msp.add_text('part', dxfattribs={'layer': 'TEXT'})
    if version != 'R12':
        msp.add_ellipse((75, 25), (10, 0), 0.5)
    doc.saveas(sys.argv[1] + '/' + version + '.dxf')
`;

test('ezdxf in five releases: blocks, text and an ellipse, and what is left of them in the mended copy', (ctx) => {
  needsOutside(ctx, 'ezdxf', ezdxfAvailable);
  const folder = mkdtempSync(join(tmpdir(), 'inspect-'));
  try {
    const run = spawnSync('/usr/bin/python3', ['-c', EZDXF, folder], { encoding: 'utf8' });
    expect(run.stderr).toBe('');
    for (const version of ['R12', 'R2000', 'R2007', 'R2010', 'R2018']) {
      const isOld = version === 'R12';
      const found = inspected(readFileSync(join(folder, `${version}.dxf`)));
      expect(found.inspection.version).toBe(version.replace('R2', '2'));
      expect(foundRules(found)).toEqual(
        isOld ? ['block', 'no-unit', 'text'] : ['block', 'curve', 'text'],
      );
      // Area of an ellipse pi a b; the arcs keep within 0.01 mm of its 48 mm.
      const area = 5000 - Math.PI * (4 + 16) - (isOld ? 0 : Math.PI * 50);
      expect(Math.abs(found.inspection.areaMm2 - area)).toBeLessThan(0.5);
      const again = inspected(mended(found));
      expect(again.inspection.findings).toEqual([]);
      expect(again.inspection.areaMm2).toBeCloseTo(found.inspection.areaMm2, 1);
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test('ogr2ogr of GDAL: a polygon with a hole', (ctx) => {
  needsOutside(ctx, 'ogr2ogr', spawnSync('ogr2ogr', ['--version']).status === 0);
  const folder = mkdtempSync(join(tmpdir(), 'inspect-'));
  try {
    const rings = [
      [
        [0, 0],
        [100, 0],
        [100, 50],
        [0, 50],
        [0, 0],
      ],
      [
        [20, 20],
        [20, 30],
        [40, 30],
        [40, 20],
        [20, 20],
      ],
    ];
    const lines = rings.map((coordinates) => ({
      type: 'Feature',
      properties: {},
      geometry: { type: 'LineString', coordinates },
    }));
    writeFileSync(
      join(folder, 'in.json'),
      JSON.stringify({ type: 'FeatureCollection', features: lines }),
    );
    const run = spawnSync(
      'ogr2ogr',
      ['-f', 'DXF', join(folder, 'out.dxf'), join(folder, 'in.json')],
      { encoding: 'utf8' },
    );
    expect(run.status).toBe(0);
    // Its header states inches, whatever the figures were.
    expect(inspected(readFileSync(join(folder, 'out.dxf'))).inspection.unit).toEqual({
      name: 'inches',
      mm: 25.4,
      from: 'file',
    });
    const { inspection } = inspected(readFileSync(join(folder, 'out.dxf')), { units: 'mm' });
    expect(inspection.contours).toMatchObject({ closed: 2, open: 0, holes: 1 });
    expect(inspection.areaMm2).toBeCloseTo(4800, 6);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test('a mended copy has its gap joined and nothing twice', () => {
  const found = inspected(
    drawnDxf('0 0 100 0', '100 0 100 99.6', '0 100 100 100', '0 100 0 0', '50 50 10', '50 50 10'),
  );
  const again = inspected(mended(found));
  expect(again.inspection.findings).toEqual([]);
  expect(again.inspection.contours).toMatchObject({ closed: 2, open: 0, parts: 1, holes: 1 });
});

test('open lines of a layer of their own are not cut in a mended copy', () => {
  const fold = '0\nLINE\n8\nAXES\n10\n0\n20\n50\n11\n100\n21\n50\n';
  const found = inspected(
    drawnDxf(...SQUARE).replace('0\nENDSEC\n0\nEOF', `${fold}0\nENDSEC\n0\nEOF`),
  );
  expect(foundRules(found)).toContain('stray-layer');
  const again = inspected(mended(found));
  expect(again.inspection.layers.map((l) => l.name).toSorted()).toEqual(['MARK', 'OUTLINE']);
  expect(again.inspection.pierces).toBe(1);
});
