import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ReportResult } from '../../src/contract/part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { checkTemplate, loadFamily, make, rulesOf } from '../helpers/check-template.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { anySpace, type Measured, textOf } from '../helpers/section-space.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

checkTemplate('tank-sections');

type Inputs = Readonly<Record<string, unknown>>;

const COMMON = { material: 'dc01', thickness: 2, radius: 3, breather: '300,200,10' };
/** What is measured is the inside itself. */
const INSIDE = { ...COMMON, measure: 'inside', longestBay: 5000 };

const reportOf = async (inputs: Inputs): Promise<ReportResult> => {
  const made = madeOnce(await loadFamily('tank-sections'), inputs, UNPLANNED);
  const [report] = made.ok ? made.reports : [];
  if (report === undefined) throw new Error(JSON.stringify(made));
  return report;
};
const litresOf = async (inputs: Inputs): Promise<number> =>
  (await reportOf(inputs)).figures.find(({ name }) => name === 'gross volume')?.value ?? NaN;

/** A worst of a hundredth of a percent. */
const expectLitres = (found: number, wanted: number): void =>
  expect(Math.abs(found / wanted - 1)).toBeLessThan(1e-4);

describe('closed forms', () => {
  test('a prism holds its section times its length, and dips by the litre', async () => {
    const box = {
      ...INSIDE,
      sections: '0: 0,0; 400,0; 400,200; 0,200 | 600: 0,0; 400,0; 400,200; 0,200',
    };
    const { figures, tables } = await reportOf({ ...box, filler: '100,200,60' });
    const said = new Map(figures.map(({ name, value }) => [name, value]));
    expect(said.get('gross volume')).toBeCloseTo(48, 9);
    expect(said.get('level at the fill limit')).toBeCloseTo(190, 6);
    expect(said.get('usable volume')).toBeCloseTo(45.6, 9);
    expect(tables[0]?.rows).toHaveLength(49);
    // A litre on 600 x 400.
    for (const [held = 0, dip] of tables[0]?.rows ?? [])
      expect(dip).toBeCloseTo((held * 1e6) / 240_000, 6);
    // Measured outside, it is smaller by the sheet and the air that is left all round.
    expectLitres(
      await litresOf({ ...box, measure: 'outside', clearance: 8 }),
      (580 * 380 * 180) / 1e6,
    );
  });

  test('a wedge, its floor rising from one end to the other, and its dip where the floor is lowest', async () => {
    const { figures, tables } = await reportOf({
      ...INSIDE,
      sections: '0: 0,0; 400,0; 400,300; 0,300 | 600: 0,200; 400,200; 400,300; 0,300',
      filler: '60,200,60',
      dipStep: 2,
    });
    expect(figures[0]?.value).toBeCloseTo((600 * 400 * (300 + 100)) / 2 / 1e6, 9);
    for (const [held = 0, dip = 0] of tables[0]?.rows ?? []) {
      // Up to 200 the surface runs on to where the floor is as high: 600 / 200 of it, by half of it.
      const height = dip + 20;
      const wanted =
        height < 200
          ? (400 * ((height * height * 3) / 2)) / 1e6
          : (400 * (60_000 + 600 * (height - 200))) / 1e6;
      if (dip > 0 && dip < 279.9) expectLitres(held, wanted);
    }
  });

  test('a frustum of a pyramid (volume of a frustum: h / 3 (A + B + root of A B); handbooks of mensuration)', async () => {
    const square = (at: number, side: number): string =>
      `${at}: ${-side / 2},${-side / 2}; ${side / 2},${-side / 2}; ${side / 2},${side / 2}; ${-side / 2},${side / 2}`;
    const [a, b, h] = [360, 240, 500];
    expectLitres(
      await litresOf({
        ...INSIDE,
        breather: undefined,
        sections: `${square(0, a)} | ${square(h, b)}`,
      }),
      ((h / 3) * (a * a + b * b + a * b)) / 1e6,
    );
  });

  test('flat walls between any sections: the prismatoid, h / 6 (A + 4 M + B); handbooks of mensuration', () => {
    const areaOf = (corners: Measured['corners']): number =>
      corners.reduce((sum, [x, y], i) => {
        const [u = 0, v = 0] = corners[(i + 1) % corners.length] ?? [];
        return sum + (x * v - u * y) / 2;
      }, 0);
    return fc.assert(
      fc.asyncProperty(anySpace([0]), async (sections) => {
        const wanted = sections.slice(1).reduce((sum, far, i) => {
          const near = sections[i] as Measured;
          const middle = near.corners.map(([x, y], k) => {
            const [u = 0, v = 0] = far.corners[k] ?? [];
            return [(x + u) / 2, (y + v) / 2] as const;
          });
          const areas = areaOf(near.corners) + 4 * areaOf(middle) + areaOf(far.corners);
          return sum + ((far.atMm - near.atMm) / 6) * areas;
        }, 0);
        expectLitres(
          await litresOf({ ...INSIDE, breather: undefined, sections: textOf(sections) }),
          wanted / 1e6,
        );
      }),
      { numRuns: fuzzRuns(12, 5) },
    );
  });
});

const BOX = '0: 0,0; 400,0; 400,220; 0,240 | 600: 20,10; 380,10; 380,190; 20,208';

test('sections taken the other way round, or in inches, make the same blanks', async () => {
  const blanks = async (sections: string) =>
    (await make('tank-sections', { ...COMMON, sections })).map(({ files }) => files());
  const given = await blanks('0: 0,0; 10in,0; 10in,8in; 0,8in | 20in: 0,0; 9in,0; 9in,7in; 0,7in');
  expect(
    await blanks('0: 0,0; 254,0; 254,203.2; 0,203.2 | 508: 0,0; 228.6,0; 228.6,177.8; 0,177.8'),
  ).toEqual(given);
  expect(await blanks('0: 0,0; 0,8in; 10in,8in; 10in,0\n20in: 0,0; 0,7in; 9in,7in; 9in,0')).toEqual(
    given,
  );
});

test('a slip of the tape makes no warped wall, and a warp does', async () => {
  const walls = async (sections: string) => {
    const parts = await make('tank-sections', { ...COMMON, sections });
    const ids = parts.map(({ result }) => result.piece);
    return [ids, parts.flatMap(({ result }) => result.findings.map(({ rule }) => rule))] as const;
  };
  const [even, notes] = await walls(BOX.replace('20,208', '20,207'));
  expect(even).toEqual(['first-end', 'wrap', 'baffle-1', 'last-end']);
  expect(notes).toContain('walls-evened');
  const [warped, told] = await walls(BOX.replace('380,190', '380,175'));
  expect(warped).toEqual(['first-end', 'wrap-1', 'wall-3', 'baffle-1', 'last-end']);
  expect(told).toContain('walls-creased');
});

test('any space makes whole blanks, alike in both hands', async () => {
  const family = await loadFamily('tank-sections');
  fc.assert(
    fc.property(
      anySpace([0, 0, -4, 2]),
      fc.constantFrom('wrap', 'halves', 'plates'),
      fc.constantFrom('inside', 'outside'),
      fc.constantFrom('in', 'out'),
      fc.constantFrom(1, 1.5, 3),
      (sections, blanks, measure, crease, thickness) => {
        const inputs = { ...COMMON, breather: undefined, sections: textOf(sections), hand: 'both' };
        const made = makeParts(
          family,
          { ...inputs, blanks, measure, crease, thickness, openPercent: 5 },
          UNPLANNED,
        );
        if (!made.ok) throw new Error(JSON.stringify(made.problems));
        for (const part of made.parts) {
          expect([part.result.name, rulesOf(part, 'stop')]).toEqual([part.result.name, []]);
          expect(rulesOf(part, 'warn')).not.toContain('proof-failed');
          const other = made.parts.find(
            ({ result }) => result.hand !== part.result.hand && result.piece === part.result.piece,
          );
          expect(other?.result.blank?.areaMm2).toBeCloseTo(part.result.blank?.areaMm2 ?? 0, 4);
        }
      },
    ),
    { numRuns: fuzzRuns(40, 12) },
  );
});
