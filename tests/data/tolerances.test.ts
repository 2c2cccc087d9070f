import { describe, expect, test } from 'vitest';
import { findMaterial } from '../../src/data/materials.ts';
import { cutTolerance } from '../../src/data/tolerances/cut.ts';
import { GENERAL_CLASSES, generalTolerance } from '../../src/data/tolerances/general.ts';
import { sheetTolerance } from '../../src/data/tolerances/sheet.ts';
import { publishedFile } from '../helpers/published.ts';

type Cell = number | null;
interface Table {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (Cell | string)[])[];
}

/** Copies of the tables with the sources of each. */
const { tables } = publishedFile<{ readonly tables: Readonly<Record<string, Table>> }>(
  'tolerances',
);

const rowsOf = (name: string): readonly (readonly Cell[])[] =>
  (tables[name]?.rows ?? []) as readonly (readonly Cell[])[];

const material = (id: string) => {
  const found = findMaterial(id);
  if (!found.ok) throw new Error(id);
  return found.value;
};

describe('ISO 2768-1, every figure', () => {
  test.each([
    ['iso2768_linear', 'length', 1],
    ['iso2768_radii', 'radius', 1],
    ['iso2768_angle', 'angle', 1 / 60],
  ] as const)('%s', (name, of, unit) => {
    expect(rowsOf(name).length).toBeGreaterThan(2);
    for (const [over, to, ...limits] of rowsOf(name)) {
      for (const [i, grade] of GENERAL_CLASSES.entries()) {
        const wanted = limits[i] === null ? null : expect.closeTo((limits[i] as number) * unit, 12);
        for (const size of [(over as number) + 0.01, to ?? 5000])
          expect([size, grade, generalTolerance(of, size, grade)]).toEqual([size, grade, wanted]);
      }
    }
  });

  test('none under half a millimetre, and none beyond 4 m', () => {
    expect(generalTolerance('length', 0.49, 'm')).toBeNull();
    expect(generalTolerance('length', 4000.1, 'm')).toBeNull();
  });
});

describe('ISO 9013, every figure', () => {
  test.each([
    ['iso9013_class1', 'laser'],
    ['iso9013_class2', 'plasma'],
  ] as const)('%s', (name, process) => {
    const sizes = tables[name]?.columns.slice(2).map((c) => Number(c.split('-')[0])) ?? [];
    expect(sizes).toHaveLength(10);
    for (const [, to, ...limits] of rowsOf(name)) {
      for (const [i, size] of sizes.entries()) {
        if (limits[i] !== null)
          expect([to, size, cutTolerance(process, to as number, size).value]).toEqual([
            to,
            size,
            limits[i],
          ]);
      }
    }
  });

  test('a blank cell takes its neighbour, a water jet the finer class', () => {
    expect(cutTolerance('laser', 8, 2).value).toBe(0.25);
    expect(cutTolerance('plasma', 1, 7000).value).toBe(0.9);
    expect(cutTolerance('plasma', 25, 50).value).toBe(1.8);
    expect(cutTolerance('waterjet', 3, 80)).toMatchObject({
      value: 0.25,
      basis: 'common practice',
    });
  });
});

describe('thickness of sheet, every row', () => {
  const upper = (id: string, thickness: number): number =>
    sheetTolerance(material(id), thickness).value[1];
  const both = (id: string, thickness: number): readonly number[] =>
    sheetTolerance(material(id), thickness).value;

  test('EN 10131, 1200 to 1500 mm wide, normal', () => {
    for (const [, to, , limit] of rowsOf('en10131'))
      expect(both('dc01', to as number)).toEqual([-(limit as number), limit]);
  });

  test('EN 10051, category A; B with 15 percent more', () => {
    const rows = (tables['en10051']?.rows ?? []).filter(
      ([steel]) => steel === 'category A',
    ) as (readonly number[])[];
    expect(rows).toHaveLength(6);
    for (const [, , to, , limit] of rows) {
      expect(upper('s235', to as number)).toBe(limit);
      expect(upper('s355', to as number)).toBeCloseTo(1.15 * (limit as number), 12);
    }
  });

  test('EN 10029, class A, of plate over 6 mm', () => {
    for (const [, to, lower, most] of rowsOf('en10029').slice(1))
      expect(both('s275', to as number)).toEqual([lower, most]);
  });

  test('EN 485-4, 1000 to 1250 mm wide, groups I and II', () => {
    for (const [, to, , , one, two] of rowsOf('en485_4')) {
      expect(upper('1050a-h14', to as number)).toBe(one);
      expect(upper('5754-h22', to as number)).toBe(two);
    }
  });

  test('thicker than its table: in proportion', () => {
    expect(upper('5754-h22', 7)).toBeCloseTo(0.34, 12);
    expect(sheetTolerance(material('1.4301'), 2).basis).toBe('common practice');
  });
});
