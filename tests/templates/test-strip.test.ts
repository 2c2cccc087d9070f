import { describe, expect, test } from 'vitest';
import { checkTemplate, make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { expectFoldsBack } from '../helpers/fold-back.ts';

checkTemplate('test-strip');

/**
 * By hand with K = 0.42, 3 mm, inside radius 3: s = 6, BA = 6.69159, BD = 5.30841 at 90 degrees.
 */
const BY_HAND = {
  flatLength: 150,
  width: 50,
  material: 's235',
  thickness: 3,
  radius: 3,
  rule: 'k:0.42',
};

describe('a coupon of 150 flat', () => {
  test.each([
    // The legs are (150 + BD) / 2 each.
    {
      bendAngle: 90,
      leg: 77.6542,
      told: 'The rule expects 77.65 for each leg, and a deduction of 5.31.',
    },
    // BA = 3.34579, s = 6 tan 22.5 = 2.48528, BD = 1.62477.
    {
      bendAngle: 45,
      leg: 75.8124,
      told: 'The rule expects 75.81 for each leg, and a deduction of 1.62.',
    },
    // To the outermost tangent: s = 6, BA = 8.92212, BD = 3.07788.
    {
      bendAngle: 120,
      leg: 76.5389,
      told: 'The rule expects 76.54 for each leg, and a deduction of 3.08.',
    },
  ])(
    'to be turned $bendAngle degrees is 150 long and folded in its middle',
    async ({ bendAngle, leg, told }) => {
      const { blank, part, flat, result } = await makeOne('test-strip', { ...BY_HAND, bendAngle });
      expect([blank.widthMm, blank.heightMm]).toEqual([
        expect.closeTo(50, 9),
        expect.closeTo(150, 9),
      ]);
      expect(result.bends[0]?.centreLine.map(([, y]) => y)).toEqual([
        expect.closeTo(75, 9),
        expect.closeTo(75, 9),
      ]);
      expect(
        Math.max(...(part?.panels ?? []).flatMap((p) => p.outline.map((v) => v.y))),
      ).toBeCloseTo(leg, 4);
      expect(result.findings.find((f) => f.rule === 'coupon-figures')?.message).toContain(told);
      if (part !== undefined && bendAngle <= 90) expectFoldsBack(part, flat);
    },
  );

  test('has nicks 50 from the fold line in both edges, 1.5 deep', async () => {
    const { flat, blank } = await makeOne('test-strip', BY_HAND);
    const tips = flat.outline
      .filter((v) => Math.abs(v.x - 1.5) < 1e-9 || Math.abs(v.x - 48.5) < 1e-9)
      .map((v) => v.y)
      .sort((a, b) => a - b);
    expect(tips).toEqual([25, 25, 125, 125].map((y) => expect.closeTo(y, 9)));
    // Four square nicks of 1.5 squared.
    expect(blank.areaMm2).toBeCloseTo(150 * 50 - 9, 6);
  });

  test('both hands are alike', async () => {
    const [left, right] = await make('test-strip', { ...BY_HAND, hand: 'both' });
    expect(right?.result.blank?.areaMm2).toBeCloseTo(left?.result.blank?.areaMm2 ?? 0, 9);
    expect(right?.result.bends.map((b) => b.direction)).toEqual(['up']);
  });
});

describe.each([
  // 6.69159 + 4 x 3.
  ['flatLength', { nick: 0 }, 18.7, 18.69, 'strip-too-short', '18.7 or more'],
  // Half the bend zone and a nick; half the strip less two nicks.
  ['markDistance', {}, 4.85, 4.84, 'mark-off-leg', '4.85 to 72'],
  ['markDistance', {}, 72, 72.01, 'mark-off-leg', '4.85 to 72'],
  ['nick', { markDistance: 45 }, 12.5, 12.51, 'nick-too-deep', 'give 12.5 or less'],
])('%s', (input, more, inside, outside, rule, told) => {
  test(`${inside} makes a coupon, ${outside} is told what would`, async () => {
    expect(
      rulesOf((await make('test-strip', { ...BY_HAND, ...more, [input]: inside }))[0], 'stop'),
    ).toEqual([]);
    const [part] = await make('test-strip', { ...BY_HAND, ...more, [input]: outside });
    expect(rulesOf(part, 'stop')).toEqual([rule]);
    expect(part?.result.findings.find((f) => f.severity === 'stop')?.message).toContain(told);
  });
});

test('a nick too deep for the leg is told with the deepest', async () => {
  // (40 - 6.69159) / 6.
  const [part] = await make('test-strip', {
    ...BY_HAND,
    flatLength: 40,
    markDistance: 12,
    nick: 6,
  });
  expect(part?.result.findings.find((f) => f.rule === 'nick-too-deep')?.message).toContain(
    'give 5.55 or less',
  );
});

test('a rule without figures stops the coupon', async () => {
  const [part] = await make('test-strip', { ...BY_HAND, rule: 'measured' });
  expect(rulesOf(part, 'stop')).toEqual(['no-bend-figures']);
});
