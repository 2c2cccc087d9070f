import { describe, expect, test } from 'vitest';
import { weldsOf } from '../../src/assembly/weld-seams.ts';
import { loadFamily, make, rulesOf } from '../helpers/check-template.ts';
import { setsFrom } from '../helpers/made-sets.ts';

/** On the middle 200 x 120 with rounds of 20, to a round of 100. */
const DUCT = {
  near: '201 x 121 r20.5',
  far: 'round 101',
  length: 150,
  offsetRight: 30,
  faceUp: 10,
  blanks: 'two',
  thickness: 1,
  material: 'dc01',
};
type Inputs = Readonly<Record<string, unknown>>;
const blankOf = async (inputs: Inputs, piece: string) => {
  const part = (await make('duct-between', { ...DUCT, ...inputs })).find(
    ({ result }) => result.piece === piece,
  );
  if (part?.flat === undefined) throw new Error(`no ${piece}`);
  return part.flat;
};
const rounded = (w: number, h: number, r: number): number => w * h - (4 - Math.PI) * r * r;

describe('lips', () => {
  test('a ring goes as far out as asked, and leaves the clear opening', async () => {
    const { areaMm2 } = await blankOf({ nearLip: 20 }, 'near-lip');
    const want = rounded(241, 161, 40.5) - rounded(199, 119, 19.5);
    expect(areaMm2).toBeCloseTo(want, 6);
  });

  test('one turned in closes the opening by as much', async () => {
    const { areaMm2 } = await blankOf({ nearLip: 10, lipTo: 'in' }, 'near-lip');
    expect(areaMm2).toBeCloseTo(rounded(201, 121, 20.5) - rounded(179, 99, 9.5), 6);
  });

  test('holes stand along the middle of the ring, no farther apart than asked', async () => {
    const { cutouts, outline } = await blankOf(
      { nearLip: 20, lipHole: 5, lipPitch: 60 },
      'near-lip',
    );
    const [xs, ys] = [outline.map(({ x }) => x), outline.map(({ y }) => y)];
    const middle = [xs, ys].map((all) => (Math.min(...all) + Math.max(...all)) / 2);
    const holes = cutouts.flatMap((c) =>
      c.kind === 'round' ? [c.centre.map((at, k) => at - (middle[k] ?? 0))] : [],
    );
    // The middle line is 221 x 141, its straight sides 160 and 80 between rounds of 30.5, of which 10
    // are left at either end: 140 in three, 60 in one.
    expect(holes).toHaveLength(2 * (4 + 2));
    for (const [x = 0, y = 0] of holes)
      expect(Math.min(Math.abs(Math.abs(x) - 110.5), Math.abs(Math.abs(y) - 70.5))).toBeLessThan(
        1e-9,
      );
    const round = await blankOf({ farLip: 15, lipHole: 5, lipPitch: 60 }, 'far-lip');
    // A circle of 116: 364 round, four on either half.
    expect(round.cutouts.filter((c) => c.kind === 'round')).toHaveLength(8);
  });

  test('strips lie along the straight sides that were chosen', async () => {
    const strips = (
      await make('duct-between', { ...DUCT, nearLip: 20, lipSides: 'left-right' })
    ).filter(({ result }) => result.piece?.startsWith('near-lip') === true);
    expect(strips).toHaveLength(2);
    for (const { flat } of strips) expect(flat?.areaMm2).toBeCloseTo(80 * 21, 6);
  });

  test.each<readonly [string, Inputs]>([
    ['lip-without-room', { nearLip: 60, lipTo: 'in' }],
    ['duct-lip-too-narrow', { nearLip: 6, lipHole: 5 }],
    ['lip-holes-too-close', { nearLip: 20, lipHole: 8, lipPitch: 5 }],
    ['lip-without-side', { farLip: 20, lipSides: 'top' }],
    ['stub-not-round', { nearStub: 30 }],
    ['stub-behind-lip', { farStub: 30, farLip: 20 }],
  ])('%s is refused', async (rule, inputs) => {
    const [part] = await make('duct-between', { ...DUCT, ...inputs });
    expect(rulesOf(part, 'stop')).toEqual([rule]);
  });
});

test('a stub is as long as the middle of its round, and is welded all the way round', async () => {
  const { areaMm2 } = await blankOf({ farStub: 40, cornerGap: 0.5 }, 'far-stub');
  expect(areaMm2).toBeCloseTo(40 * (Math.PI * 100 - 0.5), 6);
  const family = await loadFamily('duct-between');
  for (const hand of ['left', 'right']) {
    const [set] = setsFrom(family, { ...DUCT, farStub: 40, nearLip: 20, hand });
    const welds = set === undefined ? [] : weldsOf(set.assembly);
    const along = (name: string): number =>
      welds
        .filter(({ pieces }) => pieces.includes(name) && pieces[0] !== pieces[1])
        .reduce((sum, { lengthMm }) => sum + lengthMm, 0);
    expect(Math.abs(along('far-stub') - Math.PI * 100)).toBeLessThan(2);
    // Along the near opening, two sides of 160 and two of 80 and the chords of rounds of 20 on the
    // middle, but for two seams.
    expect(along('near-lip')).toBeGreaterThan(480 + 40 * Math.PI - 6);
    expect(along('near-lip')).toBeLessThan(480 + 40 * Math.PI);
  }
});

test.each([
  ['out', 'left', 12],
  ['in', 'right', 12],
  ['out', 'right', 40],
  ['in', 'left', 40],
] as const)(
  'rings %s, %s hand, are welded along rounds too, of %d chords',
  async (lipTo, hand, divisions) => {
    const [set] = setsFrom(await loadFamily('duct-between'), {
      ...DUCT,
      nearLip: 20,
      farLip: '0.5in',
      lipTo,
      hand,
      divisions,
    });
    const welds = set === undefined ? [] : weldsOf(set.assembly);
    const along = (name: string): number =>
      welds
        .filter(({ pieces }) => pieces.includes(name))
        .reduce((sum, { lengthMm }) => sum + lengthMm, 0);
    // What chords of a round of 20 lack, two to a corner at least, and two seams.
    expect(along('near-lip')).toBeGreaterThan(480 + 40 * Math.PI - 6);
    expect(along('near-lip')).toBeLessThan(480 + 40 * Math.PI);
    // The chords of the pipe are as long as its middle is round.
    expect(Math.abs(along('far-lip') - 100 * Math.PI)).toBeLessThan(2);
    expect(welds.filter(({ pieces }) => pieces.join(' ') === 'part-1 part-2')).toHaveLength(1);
  },
);
