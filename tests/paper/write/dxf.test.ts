import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Drawing } from '../../../src/model/drawing.ts';
import { writeDxf } from '../../../src/dxf/write/dxf.ts';
import { anyDrawing, CART_BRACKET, loopDrawing } from '../../helpers/drawings.ts';

const VERSIONS = ['r2000', 'r12'] as const;

/** Group codes and values of a DXF text in turn. */
const groupsOf = (dxf: string): [code: number, value: string][] => {
  const lines = dxf.split('\n');
  return Array.from({ length: (lines.length - 1) / 2 }, (_, i) => [
    Number(lines[2 * i]),
    lines[2 * i + 1] ?? '',
  ]);
};

const valuesOf = (dxf: string, code: number): string[] =>
  groupsOf(dxf).flatMap(([c, value]) => (c === code ? [value] : []));

describe.for(VERSIONS)('%s', (version) => {
  const write = (drawing: Drawing): string => writeDxf(drawing, { version, cutOnly: false });

  // Rules of form: DXF Reference, "Group codes in ASCII DXF"; failures of readers that they avoid
  // are common practice.
  test('any drawing gives printable ASCII pairs without blanks at line ends, closed by EOF and a newline', () => {
    fc.assert(
      fc.property(anyDrawing, (drawing) => {
        const dxf = write(drawing);
        expect(dxf).toMatch(/^[\n -~]*$/);
        expect(dxf).not.toMatch(/ \n/);
        expect(dxf.endsWith('\n0\nEOF\n')).toBe(true);
        for (const [code] of groupsOf(dxf)) expect(code).toSatisfy(Number.isInteger);
      }),
    );
  });

  test('numbers have at most four decimals, bulges twelve; no exponent and no negative zero', () => {
    fc.assert(
      fc.property(anyDrawing, (drawing) => {
        for (const [code, value] of groupsOf(write(drawing))) {
          if (code >= 10 && code < 60)
            expect(value).toMatch(code === 42 ? /^-?\d+(\.\d{1,12})?$/ : /^-?\d+(\.\d{1,4})?$/);
          expect(value).not.toBe('-0');
        }
      }),
    );
    const flat = write(
      loopDrawing([
        { x: -0.00001, y: -0, bulge: 3e-7 },
        { x: 9000, y: 0, bulge: 0 },
        { x: 0, y: 90, bulge: 0 },
      ]),
    );
    expect(valuesOf(flat, 42)).toContain('0.000000300000');
    expect(valuesOf(flat, 10)).not.toContain('-0');
  });

  test('the same drawing gives the same text, whatever was written before', () => {
    const first = write(CART_BRACKET);
    write(
      loopDrawing([
        { x: 0, y: 0, bulge: 1 },
        { x: 1, y: 0, bulge: 0 },
      ]),
    );
    expect(write(CART_BRACKET)).toBe(first);
  });

  test('the cut file holds outline and holes alone, and lists no other layer', () => {
    const dxf = writeDxf(CART_BRACKET, { version, cutOnly: true });
    expect(new Set(valuesOf(dxf, 8))).toEqual(new Set(['HOLES', 'OUTLINE']));
    expect(dxf).not.toContain('FOLD');
    expect(dxf).not.toContain('\nTEXT\n');
    expect(dxf).not.toContain('NOTE');
  });

  test.for(['hole', 'mark'] as const)(
    'a number that is not finite on a %s is a bug and throws',
    (role) => {
      for (const bad of [NaN, Infinity, -Infinity, 1e12]) {
        const circle: Drawing = {
          title: '',
          items: [{ kind: 'circle', role, centre: [bad, 0], radius: 1 }],
        };
        expect(() => write(circle)).toThrow('cannot be written');
        expect(() =>
          write(
            loopDrawing(
              [
                { x: 0, y: 0, bulge: 0 },
                { x: 1, y: bad, bulge: 0 },
              ],
              role,
            ),
          ),
        ).toThrow('cannot be written');
      }
      expect(() =>
        write(
          loopDrawing(
            [
              { x: 0, y: 0, bulge: NaN },
              { x: 1, y: 0, bulge: 0 },
            ],
            role,
          ),
        ),
      ).toThrow('bulge');
      const inverted: Drawing = {
        title: '',
        items: [{ kind: 'circle', role, centre: [0, 0], radius: -1 }],
      };
      expect(() => write(inverted)).toThrow('radius');
    },
  );
});

test('the same drawing gives the same text in another process', () => {
  const script = `
    import { CART_BRACKET } from './tests/helpers/drawings.ts';
    import { writeDxf } from './src/dxf/write/dxf.ts';
    const texts = ${JSON.stringify(VERSIONS)}.map((version) => writeDxf(CART_BRACKET, { version, cutOnly: false }));
    process.stdout.write(texts.join(''));`;
  const { outputFiles } = buildSync({
    stdin: { contents: script, resolveDir: fileURLToPath(new URL('../../..', import.meta.url)) },
    bundle: true,
    platform: 'node',
    write: false,
  });
  const other = execFileSync(process.execPath, ['-'], {
    input: outputFiles[0]?.text ?? '',
    encoding: 'utf8',
  });
  expect(other).toBe(
    VERSIONS.map((version) => writeDxf(CART_BRACKET, { version, cutOnly: false })).join(''),
  );
});

test('release 12 holds nothing of later releases', () => {
  // Release 13 brought subclass markers (100), owners (330) and light polylines; DXF Reference.
  const groups = groupsOf(writeDxf(CART_BRACKET, { version: 'r12', cutOnly: false }));
  expect(groups.filter(([code]) => code >= 100)).toEqual([]);
  expect(groups.filter(([, value]) => value === 'LWPOLYLINE' || value === '$INSUNITS')).toEqual([]);
});

test('every table of release 12 counts its entries, with the used layers and CONTINUOUS among them', () => {
  const groups = groupsOf(writeDxf(CART_BRACKET, { version: 'r12', cutOnly: false }));
  const tables = groups.flatMap(([code, value], i) => {
    if (code !== 0 || value !== 'TABLE') return [];
    const name = groups[i + 1]?.[1] ?? '';
    const entries = groups.slice(i).slice(
      0,
      groups.slice(i).findIndex(([, v]) => v === 'ENDTAB'),
    );
    const names = entries.flatMap(([c, v], k) =>
      c === 0 && v === name ? [entries[k + 1]?.[1]] : [],
    );
    return [{ name, counted: Number(groups[i + 2]?.[1]), names }];
  });
  for (const table of tables) expect(table.counted).toBe(table.names.length);
  expect(tables.find((t) => t.name === 'LTYPE')?.names).toEqual(['CONTINUOUS']);
  expect(tables.find((t) => t.name === 'LAYER')?.names).toEqual([
    '0',
    'NOTE',
    'MARK',
    'FOLD-UP',
    'FOLD-DOWN',
    'HOLES',
    'OUTLINE',
  ]);
});

test('a light polyline states its vertex count before its vertices and nothing between them', () => {
  const groups = groupsOf(writeDxf(CART_BRACKET, { version: 'r2000', cutOnly: true }));
  const start = groups.findLastIndex(([, value]) => value === 'LWPOLYLINE');
  const body = groups.slice(
    start + 1,
    groups.findIndex(([code], i) => i > start && code === 0),
  );
  const codes = body.map(([code]) => code);
  expect(codes.indexOf(90)).toBeLessThan(codes.indexOf(10));
  expect(new Set(codes.slice(codes.indexOf(10)))).toEqual(new Set([10, 20, 42]));
  expect(codes).not.toContain(91);
  expect(body.find(([code]) => code === 90)?.[1]).toBe(
    String(codes.filter((code) => code === 10).length),
  );
});
