import { describe, expect, test } from 'vitest';
import type { Part } from '../../src/model/part.ts';
import { make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { expectFoldsBack } from '../helpers/fold-back.ts';

const K042 = {
  material: 's235',
  thickness: 3,
  radius: 3,
  rule: 'k:0.42',
  hand: 'left',
  boltHole: 10,
};
const PLATE = { ...K042, outline: '0,0; 200,0; 200,80; 0,80', points: 'A: 60,40; B: 140,40' };
const TUBE = {
  ...K042,
  points: '0,0; 120,0',
  tube: 30,
  tubeSpan: 1400,
  tubeRise: 300,
  tubeMiddle: 600,
  tubeBend: 90,
};

describe('what cannot be made is refused with what would work', () => {
  test.each([
    [{ ...PLATE, pickups: 'Q: M8' }, 'unknown-point', /pickups names Q.*points are A, B/],
    [{ ...PLATE, notch: 'Q' }, 'unknown-point', /notch names Q/],
    [{ ...PLATE, crease: 'A Q' }, 'unknown-point', /crease names Q/],
    [{ ...PLATE, return: 'A-Q' }, 'unknown-point', /return names Q/],
    [{ ...PLATE, return: 'Q-A' }, 'unknown-point', /return names Q/],
    [{ ...PLATE, saddle: 'Q' }, 'unknown-point', /saddle names Q/],
    [{ ...PLATE, pickups: 'A: none; B: none' }, 'no-holes', /give one at least a hole/],
    [{ ...PLATE, crease: '100,20 100.5,20' }, 'crease-points-meet', /two that are apart/],
    [{ ...PLATE, crease: '300,20 300,60' }, 'fold-line-off-plate', /two points of it on the plate/],
    [{ ...PLATE, crease: '0,0 200,0' }, 'fold-line-on-edge', /The crease runs along.*move it in/],
    [
      { ...PLATE, crease: '100,0 100,80', creaseStyle: 'slit', slotLand: 60 },
      'no-room-for-slots',
      /give slotLand 38\.99 or less/,
    ],
    [{ ...PLATE, notch: '100,-40', notchWidth: 20 }, 'notch-off-plate', /lies 30 mm off the plate/],
    [
      { ...PLATE, notch: '100,38', notchWidth: 90 },
      'notch-parts-plate',
      /leave out notch, or give notchWidth [\d.]+ or less, or move it out/,
    ],
    [{ ...K042, points: '0,0', return: 'bottom' }, 'return-without-side', /no straight side/],
    [
      { ...PLATE, outline: '0,0; 200,0; 100,300', points: '100,30', return: 'top', edge: 5 },
      'return-without-side',
      /choose another side/,
    ],
    [
      { ...PLATE, return: 'left', returnInset: 35 },
      'return-too-short',
      /give returnInset 34 or less/,
    ],
    [
      { ...K042, points: '0,0; 20,0', return: 'bottom' },
      'return-too-short',
      /stretch of 20 mm.*leave out return/,
    ],
    [
      { ...PLATE, return: 'bottom', returnHeight: 5 },
      'leg-too-short',
      /returnHeight 5 is all bend.*takes 6 mm of it: give 9 or more/,
    ],
    [{ ...PLATE, saddle: '100,40' }, 'saddle-without-tube', /or give tube, or saddleAcross/],
    [
      { ...PLATE, ...TUBE, saddle: '60,40', saddleAcross: 35, saddleHole: 8 },
      'saddle-too-narrow',
      /give 38 or more/,
    ],
    [
      { ...TUBE, tubeSpan: undefined },
      'tube-without-span',
      /measured level.*give tubeSpan|measured level.*or tubeSpan/,
    ],
    [{ ...TUBE, tubeMiddle: 1400 }, 'tube-middle-too-long', /give [\d.]+ to [\d.]+, or tubeRise 0/],
    // tan(A/2) = 1/3: a middle of 600 takes 900 at each end before the two bends meet.
    [
      { ...TUBE, tubeBend: 901 },
      'tube-too-short-for-bends',
      /give 900 or less, or tubeMiddle [\d.]+ to [\d.]+/,
    ],
    [
      { ...TUBE, tubeMiddle: 1300, tubeRise: 37.5, tubeBend: 400 },
      'tube-too-short-for-bends',
      /or less, or tubeMiddle [\d.]+ to [\d.]+/,
    ],
  ])('%j: %s', async (inputs, rule, says) => {
    const [part] = await make('strut-brace', inputs);
    expect(rulesOf(part, 'stop')).toEqual([rule]);
    expect(part?.result.findings.find((f) => f.rule === rule)?.message).toMatch(says);
    expect(part?.files()).toEqual([]);
  });

  test.each([
    { ...PLATE, crease: '100,0 100,80', creaseStyle: 'slit', slotLand: 38.9 },
    { ...PLATE, notch: '100,-9.9', notchWidth: 20 },
    { ...PLATE, return: 'left', returnInset: 34 },
    { ...PLATE, return: 'bottom', returnHeight: 6.1 },
    { ...PLATE, ...TUBE, saddle: '60,40', saddleAcross: 38, saddleHole: 8, outline: undefined },
    { ...TUBE, tubeBend: 900 },
    { ...TUBE, tubeMiddle: 1399, tubeBend: 1 },
  ])('%j just passes', async (inputs) => {
    const [part] = await make('strut-brace', inputs);
    expect(rulesOf(part, 'stop')).toEqual([]);
  });

  test('tape distances tell what they leave open, and a contradiction is refused as input', async () => {
    const [part] = await make('strut-brace', { ...K042, points: 'A-B: 120; A-C: 90; B-C: 150' });
    expect(rulesOf(part, 'note')).toContain('survey-mirror');
    await expect(
      make('strut-brace', { ...K042, points: 'A-B: 120; A-C: 20; B-C: 150' }),
    ).rejects.toThrow(/"input":"points"/);
  });
});

describe('a return edge along a side that is cut', () => {
  // 30 degrees, r 3, t 3: the crease takes 6 tan 15 = 1.6077 along the side, the returns, 25 high,
  // lean 25 tan 15 + 0.25 = 6.9487 towards each other; then 3 of relief and 3 of metal. At the
  // outer ends 6.
  test('by a crease is made in two, each stopping before it', async () => {
    const { part, flat, folded } = await makeOne('strut-brace', {
      ...PLATE,
      crease: '100,10 100,60',
      creaseAngle: 30,
      return: 'bottom',
      returnHeight: 25,
      edge: 10,
    });
    expect(flat.panels.map((p) => p.id).toSorted()).toEqual([
      'panel 1',
      'panel 2',
      'return 1',
      'return 2',
    ]);
    const lengths = part?.folds
      .filter((f) => f.id.startsWith('R'))
      .map(({ parent }) => (parent.to ?? NaN) - (parent.from ?? NaN));
    const wanted = 100 - 6 - (25 * Math.tan(Math.PI / 12) + 0.25 + 6);
    expect(lengths).toEqual([expect.closeTo(wanted, 9), expect.closeTo(wanted, 9)]);
    expectFoldsBack(part as Part, flat);
    expect(folded.sizeMm[1]).toBeCloseTo(80, 6);
  });

  test('by a notch is made in two', async () => {
    const { part } = await makeOne('strut-brace', {
      ...PLATE,
      notch: '100,10',
      notchWidth: 20,
      return: 'bottom',
      returnHeight: 25,
    });
    // 90 on either side of the notch, 6 off at both ends.
    const lengths = part?.folds.map(({ parent }) => (parent.to ?? NaN) - (parent.from ?? NaN));
    expect(lengths).toEqual([expect.closeTo(78, 9), expect.closeTo(78, 9)]);
  });

  test('by a slanting crease stays clear of its bend', async () => {
    const { part, flat } = await makeOne('strut-brace', {
      ...PLATE,
      crease: '80,0 120,80',
      creaseAngle: 10,
      return: 'bottom',
      returnHeight: 20,
      edge: 10,
    });
    expect(flat.findings).toEqual([]);
    expectFoldsBack(part as Part, flat);
    // The crease rises 2 for 1 along: within the depth of 12 of the reliefs it comes 6 nearer, with
    // its bend of 6 tan 5 / sin 63.43 = 0.5869; then 3 of relief and 3 of metal.
    const ends = part?.folds
      .filter((f) => f.id.startsWith('R'))
      .map(({ parent }) => [parent.from, parent.to]);
    expect(
      ends
        ?.flat()
        .map((n) => n ?? NaN)
        .toSorted((a, b) => a - b),
    ).toEqual([6, 12.5869, 80 - 12.5869, 114].map((n) => expect.closeTo(n, 3)));
  });
});
