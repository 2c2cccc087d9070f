import { calledOf } from '../../../src/model/hole-names.ts';
import { printedIn } from '../../../src/text/printed.ts';
import { describe, expect, test } from 'vitest';
import { listedMeasures } from '../../../src/use/pack/listed-measures.ts';
import { shorterLegMm } from '../../../src/fold/shorter-leg.ts';
import { DEFAULT_SHOP } from '../../../src/data/shop-default.ts';
import { FAMILIES } from '../../../templates/index.ts';
import { madeOf } from '../../helpers/packed.ts';
import PUBLISHED from '../../published/tolerances.json' with { type: 'json' };

/** ISO 2768-1, tables 1 and 3, as the published copies have them. */
const { iso2768_linear: LINEAR, iso2768_angle: ANGLE } = PUBLISHED.tables;
const GRADES = ['f', 'm', 'c', 'v'] as const;
type Row = readonly (number | null)[];

const published = (
  { rows }: { readonly rows: readonly Row[] },
  size: number,
  grade: (typeof GRADES)[number],
): number | null => {
  const row = rows.find(([, upTo]) => upTo === null || size <= (upTo as number));
  return row?.[2 + GRADES.indexOf(grade)] ?? null;
};

/** Common practice: what a press brake is sure to fold to. */
const FOLD = { mm: 0.3, deg: 1 };

describe('what the drawing of an archive allows', () => {
  test.each([...FAMILIES.keys()])('of %s', async (family) => {
    for (const made of await madeOf(family, {}, { foldAt: 'service', shop: DEFAULT_SHOP })) {
      if (made.stopped) continue;
      for (const grade of GRADES) {
        const told = listedMeasures(made, grade, printedIn());
        for (const { name, text, plusMinus } of told) {
          if (plusMinus === '') continue;
          const off = Number(/[\d.]+/.exec(plusMinus)?.[0]);
          // No more decimals than mean something.
          if (off >= 0.1) expect([name, text]).toEqual([name, text.replace(/(\.\d)\d+/, '$1')]);
          if (plusMinus.endsWith('°')) {
            expect(off).toBeGreaterThanOrEqual(FOLD.deg);
            continue;
          }
          const measure = made.result.proof.measures.find((m) => calledOf(m) === name);
          const general = published(LINEAR, measure?.askedMm ?? 0, grade);
          const isCut = measure?.between.every(({ kind }) => !['mould', 'face'].includes(kind));
          if (general !== null)
            expect([name, off]).toEqual([
              name,
              isCut === true ? general : Math.max(general, FOLD.mm),
            ]);
        }
      }
    }
  });

  test('an angle goes by its shorter leg, also where no length of it is measured', async () => {
    const [made] = await madeOf(
      'bracket-angle',
      { legA: 60, legB: 9, radius: 1, thickness: 1, holesA: '', holesB: '' },
      { foldAt: 'service' },
    );
    if (made === undefined || made.stopped) throw new Error('not made');
    const [fold] = made.part.folds;
    if (fold === undefined) throw new Error('no fold');
    expect(shorterLegMm(made.part, fold)).toBeCloseTo(9, 9);
    // Class c at up to 10 mm: 1 degree 30 minutes; class v: 3 degrees.
    for (const [grade, deg] of [
      ['c', 1.5],
      ['v', 3],
    ] as const) {
      expect((published(ANGLE, 9, grade) ?? 0) / 60).toBe(deg);
      const angles = listedMeasures(made, grade, printedIn()).filter(({ text }) =>
        text.endsWith('°'),
      );
      expect(angles.map((a) => a.plusMinus)).toEqual([`± ${deg}°`]);
    }
  });
});
