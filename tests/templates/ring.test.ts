import { describe, expect, test } from 'vitest';
import { checkTemplate, make, makeOne, rulesOf } from '../helpers/check-template.ts';

checkTemplate('ring');

/**
 * By hand: rim (120 - 90 - 6) / 2 = 12, inside (90 - 6 - 60) / 2 = 12, chord 90 sin 30 = 45 (Euclid
 * IV.15).
 */
const ROUND = {
  outer: 120,
  inner: 60,
  bolts: 6,
  boltCircle: 90,
  boltHole: 6,
  material: 's235',
  thickness: 3,
};
const SQUARE = {
  shape: 'square',
  outer: 90,
  bolts: 4,
  boltCircle: 100,
  boltStart: 45,
  boltHole: 6,
  cornerRadius: 10,
  material: 's235',
  thickness: 3,
};

describe('a ring 120 / 60', () => {
  test('area, cut length and size are those of plane circles', async () => {
    const { blank, folded, result } = await makeOne('ring', ROUND);
    expect(blank.areaMm2).toBeCloseTo((Math.PI / 4) * (120 ** 2 - 60 ** 2 - 6 * 6 ** 2), 6);
    expect(blank.cutLengthMm).toBeCloseTo(Math.PI * (120 + 60 + 36), 6);
    expect(blank.pierces).toBe(8);
    expect(folded.sizeMm).toEqual([expect.closeTo(120, 9), expect.closeTo(120, 9), 3]);
    expect(result.bends).toEqual([]);
    expect(result.findings.find((f) => f.rule === 'metal-beside-bolts')?.message).toContain(
      '12 outside, 12 inside it; neighbouring bolts are 45 apart',
    );
  });

  test('the first bolt stands at the top, the others 60 degrees on, and the other hand runs the other way', async () => {
    const [left, right] = await make('ring', { ...ROUND, boltStart: 100, hand: 'both' });
    const turns = [left, right].map((part) => {
      const hole = (from: string) => part?.flat?.cutouts.find((c) => c.from === from);
      const [middle, bolt] = [hole('inner'), hole('bolt 1')];
      if (middle?.kind !== 'round' || bolt?.kind !== 'round') throw new Error('two round holes');
      expect(
        Math.hypot(bolt.centre[0] - middle.centre[0], bolt.centre[1] - middle.centre[1]),
      ).toBeCloseTo(45, 9);
      return (
        (Math.atan2(bolt.centre[1] - middle.centre[1], bolt.centre[0] - middle.centre[0]) * 180) /
        Math.PI
      );
    });
    expect(turns).toEqual([expect.closeTo(100, 6), expect.closeTo(80, 6)]);
  });
});

describe('a square plate 90 with corners of 10', () => {
  test('area and cut length', async () => {
    const { blank } = await makeOne('ring', SQUARE);
    expect(blank.areaMm2).toBeCloseTo(90 ** 2 - (4 - Math.PI) * 100 - 4 * Math.PI * 9, 6);
    expect(blank.cutLengthMm).toBeCloseTo(4 * 70 + 20 * Math.PI + 24 * Math.PI, 6);
  });

  test('bolts stand in the corners, and further holes are measured from the centre', async () => {
    const { flat } = await makeOne('ring', { ...SQUARE, holes: '-20,5,12' });
    const at = Object.fromEntries(
      flat.cutouts.map((c) => [c.from, c.kind === 'round' ? c.centre : []]),
    );
    const [x = 0, y = 0] = at['bolt 1'] ?? [];
    // 50 cos 45 = 35.35534 from the centre either way.
    expect(at['bolt 3']).toEqual([
      expect.closeTo(x - 70.71068, 4),
      expect.closeTo(y - 70.71068, 4),
    ]);
    expect(at['holes 1']).toEqual([
      expect.closeTo(x - 35.35534 + 5, 4),
      expect.closeTo(y - 35.35534 - 20, 4),
    ]);
  });

  test('an oblong one is as high as asked', async () => {
    const { blank } = await makeOne('ring', { ...SQUARE, outerHeight: 200 });
    expect([blank.widthMm, blank.heightMm]).toEqual([
      expect.closeTo(90, 9),
      expect.closeTo(200, 9),
    ]);
  });
});

/** Webs are as wide as the narrowest slot of the cutter, 2 mm unless said otherwise. */
describe.each([
  // 120 - 4.
  [{ bolts: 0 }, 'inner', 116, 116.01, 'inner-too-big', 'give 116 or less'],
  // 60 + 6 + 4.
  [{}, 'boltCircle', 70, 69.99, 'bolt-circle-too-small', 'give 70 to 110'],
  // 120 - 6 - 4.
  [{}, 'boltCircle', 110, 110.01, 'bolt-circle-too-big', 'give 70 to 110'],
  // (6 + 2) / sin 6.
  [{ bolts: 30 }, 'boltCircle', 76.54, 76.53, 'bolts-too-close', 'boltCircle 76.54 to 110'],
])('%o: %s up to its figure', (more, input, inside, outside, rule, told) => {
  test(`${inside} makes a ring, ${outside} is told what would`, async () => {
    const [fits] = await make('ring', { ...ROUND, ...more, [input]: inside });
    expect(rulesOf(fits, 'stop')).toEqual([]);
    const [part] = await make('ring', { ...ROUND, ...more, [input]: outside });
    expect(rulesOf(part, 'stop')).toEqual([rule]);
    expect(part?.result.findings.find((f) => f.severity === 'stop')?.message).toContain(told);
    expect(part?.files()).toEqual([]);
  });
});

test('a bolt circle that runs over a rounded corner is told the largest that fits', async () => {
  // The arc of 10 about (35, 35) reaches 49.497 + 10 along the diagonal; less hole and web: 2
  // (59.497 - 5).
  const [part] = await make('ring', { ...SQUARE, boltCircle: 109 });
  expect(part?.result.findings.find((f) => f.rule === 'bolt-circle-too-big')?.message).toMatch(
    /give [\d.]+ to 108\.99/,
  );
  expect(rulesOf((await make('ring', { ...SQUARE, boltCircle: 108.99 }))[0], 'stop')).toEqual([]);
});

test('a height of its own is refused to a round plate', async () => {
  const [part] = await make('ring', { ...ROUND, outerHeight: 90 });
  expect(rulesOf(part, 'stop')).toEqual(['round-height']);
  // What the family says of an input itself is not said twice.
  expect(rulesOf(part, 'note')).not.toContain('input-unused');
});
