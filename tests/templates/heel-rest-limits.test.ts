import { describe, expect, test } from 'vitest';
import { make, rulesOf } from '../helpers/check-template.ts';
import { inTurns } from '../helpers/extent.ts';

/** A platform, 2 mm, inside radius 2. */
const BY_HAND = {
  floorAngle: 0,
  treadAngle: 0,
  width: 80,
  treadDepth: 100,
  lift: 40,
  lipHeight: 25,
  cheeks: 'none',
  hemRadius: 1,
  material: 's235',
  thickness: 2,
  radius: 2,
};

/**
 * Square bends take 4, notches 2, hems of radius 1; on the wedge of 20 degrees the riser is turned
 * 110 from the tread.
 */
const WEDGE = { ...BY_HAND, lift: 0, treadAngle: 20 };
const GRIP = { ...BY_HAND, lipHeight: 0, grip: 'holes' };

describe.each([
  [
    { ...BY_HAND, floorAngle: -30 },
    'treadAngle',
    30,
    30.01,
    'wedge-too-steep',
    'treadAngle -60 to 30',
  ],
  [
    { ...WEDGE, lipHeight: 0, treadDepth: 1000 },
    'floorAngle',
    19,
    20,
    'no-wedge',
    'give lift 10 or more',
  ],
  // 150 - 20.
  [{ ...WEDGE, lipHeight: 0 }, 'riserAngle', 130, 130.01, 'riser-angle', 'give 130 or less'],
  [
    { ...BY_HAND, treadAngle: 40, lipHeight: 0 },
    'riserAngle',
    50,
    49.99,
    'riser-angle',
    'give 50 or more',
  ],
  // 4 of bend and 2 of sheet; 4 tan 10 of bend at the low end.
  [{ ...WEDGE, lipHeight: 0 }, 'flangeFront', 6, 5.99, 'flange-too-narrow', 'give 6 or more'],
  [{ ...WEDGE, lipHeight: 0 }, 'flangeRear', 2.71, 2.7, 'flange-too-narrow', 'give 2.71 or more'],
  [
    { ...WEDGE, lipHeight: 0, cheeks: 'left' },
    'cheekFlange',
    6,
    5.99,
    'flange-too-narrow',
    'give 6 or more',
  ],
  [{ ...BY_HAND, lipHeight: 0 }, 'treadDepth', 12, 11.99, 'tread-too-short', 'give 12 or more'],
  // Two notches, and at each cheek a bend, the relief as deep again and a notch.
  [
    { ...BY_HAND, cheeks: 'both', lipHeight: 0 },
    'width',
    24,
    23.99,
    'tread-too-narrow',
    'give 24 or more',
  ],
  // Inside radius 2, 1 + 2 at the top, 2 of flat; single, 2 and 2.
  [BY_HAND, 'lipHeight', 7, 6.99, 'stop-too-low', 'give 7 or more'],
  [{ ...WEDGE, flangeRear: 0 }, 'lipHeight', 4, 3.99, 'stop-too-low', 'give 4 or more'],
  [{ ...WEDGE, flangeRear: 0 }, 'hem', 5, 4.99, 'hem-does-not-fit', 'give 5 to 23'],
  [{ ...WEDGE, flangeRear: 0 }, 'hem', 23, 23.01, 'hem-does-not-fit', 'give 5 to 23'],
  [{ ...WEDGE, flangeRear: 0, hem: 5 }, 'lipHeight', 7, 6.99, 'stop-too-low', 'give 7 or more'],
  // Two bends of 4 and 2 of flat.
  [{ ...BY_HAND, lipHeight: 0 }, 'lift', 10, 9.99, 'riser-too-low', 'lift 10 or more'],
  // (D - 4 tan 10 - 4) sin 20 - 6 cos 20 = 2: D = 27.0378.
  [
    { ...WEDGE, lipHeight: 0 },
    'treadDepth',
    27.04,
    27.03,
    'riser-too-low',
    'treadDepth 27.04 or more',
  ],
  // Bend and two sheets.
  [
    { ...BY_HAND, lipHeight: 0, cheeks: 'both', cheekFlange: 15 },
    'lift',
    12,
    11.99,
    'cheeks-too-low',
    'give 12 or more',
  ],
  // The tip is left off up to where two bends and two sheets are 12 high, (12 - 2) cos 20 / sin 20
  // = 27.4748 from the low end; then 4 of bend and 3 notches.
  [
    { ...WEDGE, lipHeight: 0, cheeks: 'both', cheekFlange: 15 },
    'treadDepth',
    37.48,
    37.47,
    'no-room-for-cheeks',
    'treadDepth 37.48 or more',
  ],
  // The cheek begins 16.4849 from the low end with a relief of 2 before it: (8 - 2) cos 20 / sin
  // 20.
  [
    { ...WEDGE, lipHeight: 0, cheeks: 'both', flangeRear: 0 },
    'cornerRadius',
    14.48,
    14.49,
    'corner-radius-too-big',
    'give 14.48 or less',
  ],
  [GRIP, 'gripPitch', 10, 9.99, 'grip-too-close', 'give 10 or more'],
  [{ ...GRIP, grip: 'slots' }, 'gripLength', 8.01, 8, 'grip-slot-too-short', 'more'],
  [GRIP, 'gripMargin', 36, 36.01, 'grip-does-not-fit', 'gripMargin'],
  [{ ...GRIP, width: 1000, treadDepth: 500 }, 'gripPitch', 40, 20, 'grip-too-fine', 'or gripPitch'],
])('%o: %s up to its figure', (more, input, inside, outside, rule, told) => {
  test(`${inside} makes a heel rest, ${outside} is told what would`, async () => {
    expect(rulesOf((await make('heel-rest', { ...more, [input]: inside }))[0], 'stop')).toEqual([]);
    const [part] = await make('heel-rest', { ...more, [input]: outside });
    expect(rulesOf(part, 'stop')).toEqual([rule]);
    expect(part?.result.findings.find((f) => f.severity === 'stop')?.message).toContain(told);
    expect(part?.files()).toEqual([]);
  });
});

test('what the messages about a low riser ask for makes a heel rest', async () => {
  let offered = 0;
  const shapes = [
    {},
    { riserAngle: 70 },
    { cheeks: 'both', cheekFlange: 20 },
    { flangeFront: 0, flangeRear: 0 },
  ];
  for (const [place, treadAngle] of [0, 0.2, 8, -8].entries()) {
    for (const more of inTurns(shapes, place, 4)) {
      const given = { ...WEDGE, treadDepth: 30, treadAngle, lipHeight: 0, ...more };
      const [part] = await make('heel-rest', given);
      const message = part?.result.findings.find((f) => f.severity === 'stop')?.message ?? '';
      const lift = Number(/lift ([\d.]+) or more/.exec(message)?.[1]);
      expect(rulesOf((await make('heel-rest', { ...given, lift }))[0], 'stop'), message).toEqual(
        [],
      );
      expect(
        rulesOf((await make('heel-rest', { ...given, lift: lift - 0.02 }))[0], 'stop'),
        message,
      ).toHaveLength(1);
      const depth = /treadDepth ([\d.]+) or more/.exec(message)?.[1];
      if (depth === undefined) continue;
      offered++;
      const deeper = rulesOf(
        (await make('heel-rest', { ...given, treadDepth: Number(depth) }))[0],
        'stop',
      );
      expect(
        deeper.filter((rule) => rule !== 'no-room-for-cheeks'),
        message,
      ).toEqual([]);
    }
  }
  // All wedges but a level one and one of 0.2 degrees, which rises but 5 over the 1500 a tread may
  // have.
  expect(offered).toBeGreaterThanOrEqual(inTurns(shapes, 0, 4).length * 2);
});
