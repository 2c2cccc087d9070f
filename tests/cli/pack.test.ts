import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import * as z from 'zod';
import { blankwright, COMMAND, json, type Problems, tempFolder } from '../helpers/command.ts';
import { needsOutside } from '../helpers/needs-outside.ts';
import { hasPython, readZip } from '../helpers/packed.ts';

/** The names of `pack --json`, written down once more: no more, no fewer, no other types. */
const PACKED = z.strictObject({
  zips: z.array(
    z.strictObject({
      file: z.string(),
      material: z.string().nullable(),
      thicknessMm: z.number().nullable(),
      parts: z.array(z.string()).min(1),
    }),
  ),
  left: z.array(z.strictObject({ name: z.string(), reason: z.string().min(1) })),
});

const ANGLE = '{legA: 60, legB: 40, width: 80, material: s275, thickness: 3, radius: 4}';

/** Two sheets, both hands, one part folded out. */
const JOB = `title: vineyard cart
parts:
  - family: bracket-angle
    name: seat post
    hand: both
    quantity: 2
    revision: B
    note: deburr
    foldAt: service
    inputs: ${ANGLE}
  - family: ring
    name: filler flange
    quantity: 5
    inputs: {outer: 120, inner: 62, boltCircle: 95, material: dc01, thickness: 1.5}
`;

const STOPPED = `  - family: bracket-angle
    name: doomed
    inputs: {legA: 60, legB: 40, width: 80, material: s275, thickness: 3, rule: measured}
`;

const jobIn = (folder: string, text: string): string => {
  writeFileSync(join(folder, 'cart.yaml'), text);
  return join(folder, 'cart.yaml');
};

describe('pack', () => {
  test('JSON: an archive for each sheet, and no part left; its files where it says', async (ctx) => {
    needsOutside(ctx, 'python3', hasPython);
    const cwd = tempFolder();
    jobIn(cwd, JOB);
    const ran = await blankwright(['pack', 'cart.yaml', '--json'], cwd);
    expect([ran.code, ran.err]).toEqual([0, '']);
    expect(PACKED.parse(json(ran))).toEqual({
      zips: [
        {
          file: join('pack', 'vineyard-cart_s275_3mm.zip'),
          material: 's275',
          thicknessMm: 3,
          parts: ['seat post-L', 'seat post-R'],
        },
        {
          file: join('pack', 'vineyard-cart_dc01_1.5mm.zip'),
          material: 'dc01',
          thicknessMm: 1.5,
          parts: ['filler flange'],
        },
      ],
      left: [],
    });
    const rows = readdirSync(join(cwd, 'pack'))
      .toSorted()
      .flatMap((name) => readZip(readFileSync(join(cwd, 'pack', name))).rows);
    expect(
      rows.map((r) => [r['part'], r['quantity'], r['folded_by'], r['revision'], r['note']]),
    ).toEqual([
      ['filler flange', '5', 'nobody', '', ''],
      ['seat post-L', '2', 'service', 'B', 'deburr'],
      ['seat post-R', '2', 'service', 'B', 'deburr'],
    ]);
  });

  test('the same bytes in another folder and another part of the world', () => {
    const packed = ['Pacific/Auckland', 'America/Los_Angeles'].map((zone) => {
      const cwd = tempFolder();
      mkdirSync(join(cwd, 'deep'));
      const job = jobIn(join(cwd, 'deep'), JOB);
      const ran = spawnSync(process.execPath, [COMMAND, 'pack', job, '--out', zone.slice(0, 3)], {
        cwd,
        encoding: 'utf8',
        env: { ...process.env, TZ: zone },
      });
      expect([ran.status, ran.stderr]).toEqual([0, '']);
      const out = join(cwd, zone.slice(0, 3));
      return Object.fromEntries(
        readdirSync(out).map((name) => [name, readFileSync(join(out, name)).toString('base64')]),
      );
    });
    expect(Object.keys(packed[0] ?? {})).toHaveLength(2);
    expect(packed[1]).toEqual(packed[0]);
  });

  test('a stopped part is left out by name, and the others are packed', async () => {
    const cwd = tempFolder();
    jobIn(cwd, JOB + STOPPED);
    const ran = await blankwright(['pack', 'cart.yaml', '--json'], cwd);
    expect([ran.code, ran.err]).toEqual([1, '']);
    const { zips, left } = PACKED.parse(json(ran));
    expect(zips.flatMap((zip) => zip.parts)).toEqual([
      'seat post-L',
      'seat post-R',
      'filler flange',
    ]);
    expect(left).toMatchObject([
      { name: 'doomed', reason: expect.stringContaining('measured') as string },
    ]);
    const told = await blankwright(['pack', 'cart.yaml'], cwd);
    expect(told.code).toBe(1);
    expect(told.out).toContain('vineyard-cart_s275_3mm.zip: seat post-L, seat post-R');
    expect(told.err).toContain('left out  doomed: ');
    const alone = await blankwright(
      ['pack', jobIn(tempFolder(), `parts:\n${STOPPED}`), '--out', 'none', '--json'],
      cwd,
    );
    expect([alone.code, PACKED.parse(json(alone)).zips]).toEqual([1, []]);
  });

  test('--all-in-one, --fold and the shop file say how', async (ctx) => {
    needsOutside(ctx, 'python3', hasPython);
    const cwd = tempFolder();
    jobIn(cwd, JOB);
    const built = await blankwright(['shop'], cwd);
    writeFileSync(
      join(cwd, 'shop.yaml'),
      built.out.replace(/names: "[^"]*"/, "names: '{quantity}x_{name}-{hand}-{revision}'"),
    );
    const ran = await blankwright(
      ['pack', 'cart.yaml', '--all-in-one', '--fold', 'here', '--json'],
      cwd,
    );
    const [zip] = PACKED.parse(json(ran)).zips;
    expect(zip).toEqual({
      file: join('pack', 'vineyard-cart.zip'),
      material: null,
      thicknessMm: null,
      parts: ['seat post-L', 'seat post-R', 'filler flange'],
    });
    expect(readZip(readFileSync(join(cwd, zip?.file ?? ''))).names.slice(3)).toEqual([
      '4x_seat-post-both-B.dxf',
      '5x_filler-flange-left.dxf',
    ]);
  });

  test("its own archives are replaced, nobody else's", async () => {
    const cwd = tempFolder();
    jobIn(cwd, JOB);
    const archive = join(cwd, 'pack', 'vineyard-cart_s275_3mm.zip');
    expect((await blankwright(['pack', 'cart.yaml'], cwd)).code).toBe(0);
    jobIn(cwd, JOB.replace('legA: 60', 'legA: 61'));
    const before = readFileSync(archive);
    expect((await blankwright(['pack', 'cart.yaml'], cwd)).code).toBe(0);
    expect(readFileSync(archive).equals(before)).toBe(false);
    // An archive of another job under the same name, and one that is none of ours.
    for (const foreign of [
      readFileSync(join(cwd, 'pack', 'vineyard-cart_dc01_1.5mm.zip')),
      Buffer.from('PK\u0003\u0004 something else'),
    ]) {
      writeFileSync(archive, foreign);
      const ran = await blankwright(['pack', 'cart.yaml', '--json'], cwd);
      expect(ran.code).toBe(2);
      expect(json<Problems>(ran).problems).toMatchObject([
        {
          input: 'out',
          given: expect.stringContaining('vineyard-cart_s275_3mm.zip') as string,
          mend: expect.stringContaining('--force') as string,
        },
      ]);
      expect(readFileSync(archive).equals(foreign)).toBe(true);
    }
    expect((await blankwright(['pack', 'cart.yaml', '--force'], cwd)).code).toBe(0);
    expect(readFileSync(archive).subarray(0, 2).toString()).toBe('PK');
  });

  test.each([
    [['pack'], 'job'],
    [['pack', 'nosuch.yaml'], 'job'],
    [['pack', 'cart.yaml', '--fold', 'elsewhere'], 'fold'],
    [['pack', 'cart.yaml', '--nosuch'], '--nosuch'],
  ])('%j is wrong input', async (args, input) => {
    const cwd = tempFolder();
    jobIn(cwd, JOB);
    const ran = await blankwright([...args, '--json'], cwd);
    expect(ran.code).toBe(2);
    expect(json<Problems>(ran).problems[0]?.input).toBe(input);
    expect(readdirSync(cwd)).toEqual(['cart.yaml']);
  });
});
