import { describe, expect, test } from 'vitest';
import { leastRadiusMm } from '../../src/bending/least-radius.ts';
import { MATERIALS } from '../../src/data/materials.ts';
import { bending, material } from '../helpers/sheet.ts';

describe('least radii', () => {
  const din = bending.din6935_min_radius_mm;
  const limits = din['limits_mm_upto'] ?? [];

  /** DIN 6935 goes by the least tensile strength, which EN 10025-2 sets higher under 3 mm. */
  const dinRow = (id: string, thickness: number): readonly number[] => {
    const p = bending.material_properties.rows.find((row) => material(row.name).id === id);
    const [strength] = p?.Rm ?? (thickness < 3 ? p?.Rm_t_under3 : p?.Rm_t3_100) ?? [Number.NaN];
    return (
      din[strength <= 390 ? 'upto_390' : strength <= 490 ? 'over390_490' : 'over490_640'] ?? []
    );
  };

  test.each(
    ['dc01', 's235', 's275', 's355'].flatMap((id) => limits.map((t, i) => [id, t, i] as const)),
  )('%s, %d mm, after DIN 6935', (id, thickness, i) => {
    const row = dinRow(id, thickness);
    expect(leastRadiusMm(material(id), thickness)).toBe(row[i]);
    if (i + 1 < limits.length) expect(leastRadiusMm(material(id), thickness, 121)).toBe(row[i + 1]);
  });

  // The upper end of a class belongs to it; sheet between two ends takes the radius of the upper
  // one.
  test.each([1.01, 1.2, 2, 2.66, 4.5])(
    's235 and s355 of %d mm are in the class above',
    (thickness) => {
      const i = limits.findIndex((limit) => thickness <= limit);
      for (const id of ['s235', 's355'])
        expect(leastRadiusMm(material(id), thickness)).toBe(dinRow(id, thickness)[i]);
    },
  );

  // The next class is one of the same strength, also where the strength changes with the thickness
  // as that of S355 does.
  test.each([1.2, 2.2, 2.6, 2.99, 3.01, 4.5])(
    's235 and s355 of %d mm, turned over 120 degrees, are in the next class',
    (thickness) => {
      const i = limits.findIndex((limit) => thickness <= limit);
      for (const id of ['s235', 's355']) {
        expect(leastRadiusMm(material(id), thickness, 120)).toBe(dinRow(id, thickness)[i]);
        expect(leastRadiusMm(material(id), thickness, 120.5)).toBe(dinRow(id, thickness)[i + 1]);
      }
    },
  );

  test('no steeper bend of any sheet gets by with a smaller radius', () => {
    for (const m of MATERIALS) {
      for (let t = 0.2; t <= 25; t += 0.05)
        expect(leastRadiusMm(m, t, 150), `${m.id} ${t}`).toBeGreaterThanOrEqual(
          leastRadiusMm(m, t),
        );
    }
  });

  const en485 = bending.en485_min_radius_factor_90;
  test.each([
    ['1050a-h14', '1050A-H14', 'published'],
    ['5754-h22', '5754-H22/H32', 'published'],
    ['5754-h111', '5754-O/H111', 'published'],
    ['6082-t6', '6082-T6', 'published'],
    ['5251-h22', '5052-H22/H32', 'common practice'],
  ])('%s after the EN 485-2 row of %s', (id, row, basis) => {
    expect(material(id).leastRadius.basis).toBe(basis);
    en485.over_upto_mm.forEach(([, upTo], i) => {
      const factor = (en485[row] as readonly (number | null)[])[i];
      if (typeof factor === 'number')
        expect(leastRadiusMm(material(id), upTo), `${upTo} mm`).toBe(factor * upTo);
    });
  });

  // Factors for 180 degrees; where none is given there is nothing published to hold the product
  // against.
  const en485Right = bending.en485_min_radius_factor_180;
  test.each([
    ['1050a-h14', '1050A-H14'],
    ['5754-h22', '5754-H22/H32'],
    ['5754-h111', '5754-O/H111'],
  ])('%s folded right over, after the EN 485-2 row of %s', (id, row) => {
    en485Right.over_upto_mm.forEach(([, upTo], i) => {
      const factor = (en485Right[row] as readonly (number | null)[])[i];
      if (typeof factor === 'number')
        expect(leastRadiusMm(material(id), upTo, 180), `${upTo} mm`).toBe(factor * upTo);
    });
  });

  // Common practice, for EN 485-2 as read gives nothing for these: 4.5 t of the class over 3 mm,
  // and the last class's own.
  test('where no factor for 180 degrees is known, that of the next class stands in', () => {
    expect(leastRadiusMm(material('6082-t6'), 2, 121)).toBe(9);
    expect(leastRadiusMm(material('5754-h22'), 4, 121)).toBe(10);
    expect(leastRadiusMm(material('6082-t6'), 8, 121)).toBe(48);
  });

  test('sheet thicker than the table keeps the ratio at its end', () => {
    expect(leastRadiusMm(material('s235'), 25)).toBe(50);
    expect(leastRadiusMm(material('6082-t6'), 15)).toBe(90);
  });
});
