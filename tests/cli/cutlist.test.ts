import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import * as z from 'zod';
import { blankwright, json, names, tempFolder } from '../helpers/command.ts';

const row = z.strictObject({
  name: z.string(),
  family: z.string(),
  hand: z.enum(['left', 'right']),
  quantity: z.int(),
  widthMm: z.number(),
  heightMm: z.number(),
  areaMm2: z.number(),
  massKg: z.number(),
  cutLengthMm: z.number(),
  pierces: z.int(),
  folds: z.int(),
  minutes: z.number().nullable(),
});
const totals = z.strictObject({
  quantity: z.int(),
  areaMm2: z.number(),
  massKg: z.number(),
  cutLengthMm: z.number(),
  pierces: z.int(),
  folds: z.int(),
});
const sheets = z
  .strictObject({
    lengthMm: z.number(),
    widthMm: z.number(),
    count: z.int(),
    cost: z.number().nullable(),
  })
  .nullable();
/** The names of `cutlist --json`, written down once more. */
const CUT_LIST = z.strictObject({
  job: z.string(),
  groups: z.array(
    z.strictObject({
      material: z.string(),
      thicknessMm: z.number(),
      rows: z.array(row),
      total: totals,
      cutter: z.string().nullable(),
      minutes: z.number().nullable(),
      cuttingCost: z.number().nullable(),
      sheets,
      tooLarge: z.array(z.string()),
      otherSheets: z.array(
        z.strictObject({ name: z.string(), lengthMm: z.number(), widthMm: z.number() }),
      ),
      // With a layout: tests/cli/laid.test.ts.
      laid: z.null(),
    }),
  ),
  tubes: z
    .array(
      z.strictObject({
        material: z.string(),
        diameterMm: z.number(),
        wallMm: z.number(),
        rows: z.array(
          z.strictObject({
            name: z.string(),
            family: z.string(),
            hand: z.enum(['left', 'right']),
            quantity: z.int(),
            lengthMm: z.number(),
            massKg: z.number(),
          }),
        ),
        lengthMm: z.number(),
        massKg: z.number(),
        sawKerfMm: z.number(),
        bars: z.array(
          z.strictObject({
            barMm: z.number(),
            cuts: z.array(z.strictObject({ name: z.string(), lengthMm: z.number() })),
            leftMm: z.number(),
          }),
        ),
        tooLong: z.array(z.string()),
        isBest: z.boolean(),
      }),
    )
    .optional(),
  left: z.array(z.string()),
});

/** Two sheets, both hands, and more than one of a part. */
const CART = `title: vineyard cart
parts:
  - { family: bracket-angle, name: seat post, hand: both, inputs: { legA: 60, legB: 40, width: 80, material: s275, thickness: 3, radius: 4 } }
  - { family: test-strip, name: coupon, quantity: 3, inputs: { thickness: 2 } }
  - { family: ring, name: filler flange, quantity: 2, inputs: { outer: 120, inner: 62, boltCircle: 95, thickness: 2 } }
`;

test('a job in three forms, without writing a file', async () => {
  const cwd = tempFolder();
  writeFileSync(join(cwd, 'cart.yaml'), CART);
  const [text, table, list] = await Promise.all(
    [[], ['--csv'], ['--json']].map((flags) =>
      blankwright(['cutlist', 'cart.yaml', ...flags], cwd),
    ),
  );
  const { job, groups, left } = CUT_LIST.parse(json(list as NonNullable<typeof list>));
  expect([job, left]).toEqual(['vineyard cart', []]);
  expect(groups.map((g) => [g.material, g.thicknessMm, g.rows.length])).toEqual([
    ['s235', 2, 2],
    ['s275', 3, 2],
  ]);
  const blanks = groups.flatMap((g) => g.rows);
  expect(blanks.find((r) => r.name === 'coupon')?.quantity).toBe(3);
  expect(text?.out).toContain('s275 3 mm');
  expect(table?.out.trim().split('\r\n')).toHaveLength(blanks.length + 1);
  expect(names(cwd)).toEqual(['cart.yaml']);
});

test('a strap longer than any sheet in stock is told', async () => {
  const cwd = tempFolder();
  writeFileSync(
    join(cwd, 'job.yaml'),
    'defaults: { thickness: 2 }\nparts:\n  - { family: plate, name: long strap, inputs: { outline: "0,0; 3400,0; 3400,60; 0,60" } }\n  - { family: ring, name: good, inputs: { outer: 100, inner: 40, boltCircle: 70 } }\n',
  );
  const [text, list] = await Promise.all([
    blankwright(['cutlist', 'job.yaml'], cwd),
    blankwright(['cutlist', 'job.yaml', '--json'], cwd),
  ]);
  expect([text.code, text.err]).toEqual([0, '']);
  expect(text.out).toContain('at least 1 sheet of 2000 x 1000, however the blanks are laid out');
  expect(text.out).toContain(
    'long strap goes on no sheet in stock in any turn: order a longer or wider one, or split it with a weld seam',
  );
  expect(CUT_LIST.parse(json(list)).groups).toMatchObject([
    { sheets: { count: 1 }, tooLarge: ['long strap'], otherSheets: [] },
  ]);
});

test('a part that cannot be made is left out and named', async () => {
  const cwd = tempFolder();
  writeFileSync(
    join(cwd, 'job.yaml'),
    'defaults: { thickness: 2 }\nparts:\n  - { family: ring, name: good, inputs: { outer: 100, inner: 40, boltCircle: 70 } }\n  - { family: ring, name: bad, inputs: { outer: 100, inner: 40, boltCircle: 99 } }\n',
  );
  const ran = await blankwright(['cutlist', 'job.yaml'], cwd);
  expect([ran.code, ran.err]).toEqual([1, expect.stringContaining('bad cannot be made')]);
  expect(ran.out).toContain('good');
});

test('tubes are laid on the bars that the shop buys, the saw cut allowed for', async () => {
  const cwd = tempFolder();
  writeFileSync(join(cwd, 'shop.yaml'), 'name: shed\ntubeStock: { lengths: [3000], sawKerf: 3 }\n');
  writeFileSync(
    join(cwd, 'job.yaml'),
    `title: cart
defaults: { material: s275, thickness: 3, radius: 4 }
parts:
  - { family: tube-bent, name: stay, quantity: 3, inputs: { legs: "1480", diameter: 25, wall: 2 } }
  - { family: tube-bent, name: long stay, inputs: { legs: "3100", diameter: 25, wall: 2 } }
`,
  );
  const [text, table, list] = await Promise.all(
    [[], ['--csv'], ['--json']].map((flags) => blankwright(['cutlist', 'job.yaml', ...flags], cwd)),
  );
  const { groups, tubes } = CUT_LIST.parse(json(list as NonNullable<typeof list>));
  expect(groups).toEqual([]);
  // What the job says of its sheet is nothing to a tube. By hand: pi x 23 x 2 x 7.85e-6 kg a mm.
  expect(tubes).toMatchObject([
    { material: 'e235', diameterMm: 25, lengthMm: 3 * 1480 + 3100, tooLong: ['long stay'] },
  ]);
  expect(tubes?.[0]?.rows[0]?.massKg).toBeCloseTo(1480 * Math.PI * 23 * 2 * 7.85e-6, 6);
  expect(tubes?.[0]?.bars.map((b) => [b.barMm, b.cuts.length, b.leftMm])).toEqual([
    [3000, 2, 3000 - 2 * 1480 - 2 * 3],
    [3000, 1, 3000 - 1480 - 3],
  ]);
  expect(text?.out).toContain('bar 1, 3000 mm: stay 1480 + stay 1480; left 34');
  expect(text?.out).toContain('long stay is longer than any bar');
  expect(table?.out).toContain('e235,25,2,stay,tube-bent,left,3,1480,');
});
