import * as z from 'zod';
import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import type { TubeCalibration } from '../../src/contract/tube-calibration.ts';
import { readShop } from '../../src/shop/read.ts';
import { shopEntries, writeShop } from '../../src/shop/write.ts';
import { benderFit } from '../../src/tube/bender-fit.ts';
import { gainMm, pullToDeg } from '../../src/tube/springback.ts';
import { calibrateTube } from '../../src/use/calibrate/calibrate-tube.ts';
import {
  CALIBRATE_TUBE_HOW_TO,
  calibrateTubeText,
} from '../../src/use/calibrate/calibrate-tube-text.ts';
import { shopWithFormer } from '../../src/use/calibrate/shop-with-former.ts';
import { blankwright, json, tempFolder } from '../helpers/command.ts';
import { writeFileSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Springback as in `springback-from-two-tests` of tests/published/tube-bending.json, the gain as in
 * `clr-from-test-bend` there. */
const TWO = `bender: bench bender
tube: 30
radius: 150
bends:
  - { pulled: 20, stayed: 18.2 }
  - { pulled: 120, stayed: 115.4 }
`;
const RESULT = z.strictObject({
  bender: z.string(),
  tubeMm: z.number(),
  radiusMm: z.number(),
  bends: z.int(),
  springback: z.strictObject({
    fixedDeg: z.number(),
    share: z.number(),
    spreadDeg: z.number().nullable(),
  }),
  gains: z.array(z.strictObject({ bend: z.int(), gainMm: z.number(), radiusMm: z.number() })),
  effectiveRadius: z.strictObject({ mm: z.number(), spreadMm: z.number().nullable() }).nullable(),
  saved: z.string().nullable(),
});

const found = (text: string): TubeCalibration => {
  const done = calibrateTube(text);
  if (!done.ok) throw new Error(JSON.stringify(done.problems));
  return done.result;
};
const refused = (text: string): string[] => {
  const done = calibrateTube(text);
  return done.ok ? [] : done.problems.map(({ input }) => input);
};

describe('test bends', () => {
  test('two of them give both constants, as they are published', () => {
    const { springback, effectiveRadius } = found(TWO);
    expect(springback).toEqual({
      fixedDeg: expect.closeTo(1.2757, 3),
      share: expect.closeTo(0.028807, 6),
      spreadDeg: null,
    });
    expect(effectiveRadius).toBeNull();
    expect(pullToDeg(90, springback)).toBeCloseTo(93.8683, 3);
  });

  test('legs give gain and radius, as they are worked out there', () => {
    const legs = TWO.replace(
      'pulled: 120, stayed: 115.4',
      'pulled: 92, stayed: 88.2, cut: 800, legA: 431.5, legB: 431',
    );
    const { gains, effectiveRadius } = found(legs);
    expect(gains).toEqual([{ bend: 2, gainMm: 62.5, radiusMm: expect.closeTo(156.7381, 3) }]);
    expect(effectiveRadius).toEqual({ mm: expect.closeTo(156.7381, 3), spreadMm: null });
  });

  test('what bends were made of comes back, with what they scatter by', () => {
    const bend = (stayed: number, off: number, tape: number) => {
      const legs = [500, 450] as const;
      return {
        stayedDeg: stayed,
        pulledDeg: stayed + 1.5 + 0.03 * stayed + off,
        cutMm: 950 - gainMm(157, stayed) + tape,
        legsMm: legs,
      };
    };
    const exact = benderFit([20, 60, 90, 120].map((deg) => bend(deg, 0, 0)));
    expect(exact?.springback).toEqual({
      fixedDeg: expect.closeTo(1.5, 9),
      share: expect.closeTo(0.03, 9),
      spreadDeg: expect.closeTo(0, 6),
    });
    expect(exact?.effectiveRadius).toEqual({
      mm: expect.closeTo(157, 6),
      spreadMm: expect.closeTo(0, 6),
    });
    const rough = benderFit(
      [20, 60, 90, 120].map((deg, i) => bend(deg, i % 2 === 0 ? 0.3 : -0.3, i % 2)),
    );
    expect(rough?.springback.spreadDeg).toBeGreaterThan(0.2);
    expect(rough?.effectiveRadius?.spreadMm).toBeGreaterThan(0.1);
  });

  test.each<[string, readonly string[]]>([
    [TWO.replace('115.4', '125'), ['bends[1].stayed']],
    [TWO.replace('pulled: 120, stayed: 115.4', 'pulled: 21, stayed: 19'), ['bends']],
    [TWO.replace('stayed: 18.2', 'stayed: 18.2, cut: 400'), ['bends[0]']],
    [TWO.replace('stayed: 18.2', 'stayed: 18.2, cut: 400, legA: 100, legB: 100'), ['bends[0].cut']],
    [TWO.replace('tube: 30', 'tube: wide'), ['tube']],
    [TWO.replace('  - { pulled: 20, stayed: 18.2 }\n', ''), ['bends']],
    ['', ['bends']],
    ['bends: [', ['bends']],
  ])('a mistake is told at its place: %#', (text, inputs) => {
    expect(refused(text)).toEqual(inputs);
  });

  test('the file of the instructions is in order, and what is told of it', () => {
    const file = CALIBRATE_TUBE_HOW_TO.slice(
      CALIBRATE_TUBE_HOW_TO.indexOf('bender:'),
      CALIBRATE_TUBE_HOW_TO.indexOf('\n\nblankwright'),
    );
    const text = calibrateTubeText(found(file));
    expect(text).toContain('for 90 pull to 93.9');
    expect(text).toMatch(/centre-line radius of the finished bend 9\d/);
  });
});

describe('the shop file', () => {
  const shopIn = (text: string) => {
    const read = readShop(text);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    return read.shop;
  };

  test('takes a new bender, a new former, and new figures of one, and keeps its comments', () => {
    const first = shopWithFormer(undefined, found(TWO));
    expect(shopIn(first).benders).toMatchObject([
      {
        name: 'bench bender',
        clamp: 0,
        formers: [{ tube: 30, radius: 150, springback: { fixed: 1.2757, share: 0.0288 } }],
      },
    ]);
    const own = `# Mine\n${first}`;
    const more = shopWithFormer(
      { text: own, shop: shopIn(own) },
      { ...found(TWO), tubeMm: 25, effectiveRadius: { mm: 80.5, spreadMm: null } },
    );
    const again = shopWithFormer(
      { text: more, shop: shopIn(more) },
      {
        ...found(TWO),
        bender: 'Bench Bender',
        springback: { fixedDeg: 2, share: 0.03, spreadDeg: null },
      },
    );
    expect(again).toContain('# Mine');
    expect(shopIn(again).benders?.map((b) => b.formers)).toEqual([
      [
        { tube: 30, radius: 150, springback: { fixed: 2, share: 0.03 } },
        {
          tube: 25,
          radius: 150,
          springback: { fixed: 1.2757, share: 0.0288, effectiveRadius: 80.5 },
        },
      ],
    ]);
    const other = shopWithFormer(
      { text: again, shop: shopIn(again) },
      { ...found(TWO), bender: 'ram' },
    );
    expect(shopIn(other).benders?.map(({ name }) => name)).toEqual(['bench bender', 'ram']);
  });

  test('with benders and bars is written and read back; one without says nothing of them', () => {
    const shop = shopIn(
      `benders: [{ name: a, formers: [{ tube: 25, radius: 75 }], clamp: 60, mostAngle: 120 }]\ntubeStock: { lengths: [6000, 3000] }\n`,
    );
    expect(shop.tubeStock).toEqual({ lengths: [6000, 3000], sawKerf: 2 });
    const again = shopIn(writeShop(shopEntries(shop, {}), 'mine'));
    expect([again.benders, again.tubeStock]).toEqual([shop.benders, shop.tubeStock]);
    expect(writeShop(shopEntries(DEFAULT_SHOP, {}), 'mine')).not.toMatch(/benders|tubeStock/);
  });

  test.each([
    ['benders: [{ name: a, formers: [] }]', 'benders[0].formers'],
    ['benders: [{ name: a, formers: [{ tube: 25, radius: 0 }] }]', 'benders[0].formers[0].radius'],
    [
      'benders: [{ name: a, formers: [{ tube: 25, radius: 75 }] }, { name: A, formers: [{ tube: 25, radius: 75 }] }]',
      'benders[1].name',
    ],
    ['tubeStock: { lengths: [] }', 'tubeStock.lengths'],
  ])('refuses %s', (text, input) => {
    const read = readShop(text);
    expect(read.ok ? [] : read.problems.map((p) => p.input)).toEqual([input]);
  });
});

test('the command: instructions, figures, and the shop file that tube-bent then goes by', async () => {
  const cwd = tempFolder();
  writeFileSync(join(cwd, 'bends.yaml'), TWO);
  const [help, ran] = [
    await blankwright(['calibrate', 'tube'], cwd),
    await blankwright(['calibrate', 'tube', 'bends.yaml', '--save', 'shop.yaml', '--json'], cwd),
  ];
  expect(help.out).toContain('calibrate tube FILE.yaml --save shop.yaml');
  expect(RESULT.parse(json(ran)).saved).toBe('shop.yaml');
  expect(readFileSync(join(cwd, 'shop.yaml'), 'utf8')).toContain('bench bender');
  const made = await blankwright(
    [
      'make',
      'tube-bent',
      '--legs',
      '500; 90, 500',
      '--diameter',
      '30',
      '--wall',
      '2',
      '--shop',
      'shop.yaml',
    ],
    cwd,
  );
  expect(made.out).toContain('pull to 93.9 deg for 90');
});
