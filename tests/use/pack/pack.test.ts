import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { withResult } from '../../../src/use/made-part.ts';
import { importFor } from '../../../src/model/shop.ts';
import { packOf } from '../../../src/use/pack/pack.ts';
import { writeDxf } from '../../../src/dxf/write/dxf.ts';
import { tempFolder } from '../../helpers/command.ts';
import { inTurns } from '../../helpers/extent.ts';
import { ezdxfAvailable, readWithEzdxf } from '../../helpers/ezdxf.ts';
import { needsOutside } from '../../helpers/needs-outside.ts';
import { hasPython, madeOf, OPTIONS, packedOf, readZip } from '../../helpers/packed.ts';

const hasUnzip = spawnSync('unzip', ['-v']).status === 0;
const only = <T>(list: readonly T[]): T => {
  if (list.length !== 1) throw new Error(`${list.length} where one was wanted`);
  return list[0] as T;
};

describe('an archive', () => {
  test('is opened by unzip and by Python, and holds what its manifest says and nothing else', async (ctx) => {
    needsOutside(ctx, 'python3', hasPython);
    needsOutside(ctx, 'unzip', hasUnzip);
    const zip = only(
      (await packedOf(await madeOf('strut-brace', { hand: 'both', quantity: 3 }), 'service')).zips,
    );
    const file = join(tempFolder(), zip.name);
    writeFileSync(file, zip.contents);
    const tested = spawnSync('unzip', ['-t', file], { encoding: 'utf8' });
    expect([tested.status, tested.stderr]).toEqual([0, '']);
    expect(tested.stdout).toContain('No errors detected');
    const read = readZip(zip.contents);
    expect(read.bad).toBeNull();
    expect(read.names).toEqual([
      'manifest.json',
      'index.html',
      'parts.csv',
      'tower-plate_left_s275_3mm_x3.dxf',
      'tower-plate_right_s275_3mm_x3.dxf',
      'tower-plate_left_s275_3mm_x3.pdf',
      'tower-plate_right_s275_3mm_x3.pdf',
    ]);
    // The digests are Python's hashlib.
    expect(Object.fromEntries(read.manifest.files.map((f) => [f.file, f.sha256]))).toEqual(
      Object.fromEntries(Object.entries(read.digests).filter(([name]) => name !== 'manifest.json')),
    );
    // No clock: the first day that a zip can tell.
    expect(read.dates).toEqual(['(1980, 1, 1, 12, 0, 0)']);
  });

  test('holds the assembly of pieces that are all in it, and its manifest names them', async () => {
    const made = await madeOf('tank', { hand: 'both' });
    const packed = only((await packedOf(made, 'here')).zips);
    const files = unzipSync(packed.contents);
    const whole = Object.keys(files).filter((name) => name.includes('-assembly'));
    expect(whole).toHaveLength(2);
    const manifest = JSON.parse(strFromU8(files['manifest.json'] as Uint8Array)) as {
      readonly files: readonly { readonly file: string; readonly parts: readonly unknown[] }[];
    };
    for (const name of whole) {
      expect(strFromU8((files[name] as Uint8Array).subarray(0, 5), true)).toBe('%PDF-');
      expect(manifest.files.find(({ file }) => file === name)?.parts).toHaveLength(made.length / 2);
    }
    // A piece that stays behind leaves no whole to put together, in its hand.
    const stop = { rule: 'web-too-thin', severity: 'stop', message: 'It breaks.' } as const;
    const some = made.map((part, k) => (k === 0 ? withResult(part, { findings: [stop] }) : part));
    const left = unzipSync(only((await packedOf(some, 'here')).zips).contents);
    expect(Object.keys(left).filter((name) => name.includes('-assembly'))).toHaveLength(1);
  });

  test('bears its mark near its start, by which it is known again', async (ctx) => {
    needsOutside(ctx, 'python3', hasPython);
    const zip = only((await packedOf(await madeOf('bracket-angle'), 'here')).zips);
    const head = Buffer.from(zip.contents).subarray(0, 2000).toString('utf8');
    expect(head).toContain(`${zip.mark}\n`);
    expect(readZip(zip.contents).stored).toBe(true);
  });

  test('has the same bytes at every run', async () => {
    const made = await madeOf('tray');
    const [one, two] = [
      only((await packedOf(made, 'service')).zips),
      only((await packedOf(await madeOf('tray'), 'service')).zips),
    ];
    expect(Buffer.compare(one.contents, two.contents)).toBe(0);
  });

  test('is one for each material and thickness, or one for all', async () => {
    const made = [
      ...(await madeOf('bracket-angle')),
      ...(await madeOf('tray')),
      ...(await madeOf('bracket-angle', { name: 'other', thickness: 2 })),
      ...(await madeOf('bracket-angle', { name: 'third' })),
    ];
    const apart = await packedOf(made, 'here');
    expect(
      apart.zips.map(({ name, material, thicknessMm, parts }) => [
        name,
        material,
        thicknessMm,
        parts,
      ]),
    ).toEqual([
      ['vineyard-cart_s275_3mm.zip', 's275', 3, ['seat-post', 'third']],
      ['vineyard-cart_5754-h111_2mm.zip', '5754-h111', 2, ['pump-control-tray']],
      ['vineyard-cart_s275_2mm.zip', 's275', 2, ['other']],
    ]);
    const together = only(
      (await packedOf(made, 'here', { handover: { ...OPTIONS.handover, perSheet: false } })).zips,
    );
    expect([together.name, together.material, together.thicknessMm, together.parts.length]).toEqual(
      ['vineyard-cart.zip', null, null, 4],
    );
  });
});

describe('what is packed', () => {
  test('never a part that was stopped, whatever came of it before', async () => {
    const good = await madeOf('bracket-angle');
    const bad = await madeOf('bracket-angle', { name: 'bad', rule: 'measured' });
    // A part of which everything is there, but for one finding.
    const late = (await madeOf('bracket-angle', { name: 'late' })).map((made) =>
      withResult(made, { findings: [{ rule: 'x', severity: 'stop', message: 'Found late.' }] }),
    );
    const packed = await packedOf([...good, ...bad, ...late], 'service');
    expect(packed.zips.flatMap((z) => z.parts)).toEqual(['seat-post']);
    expect(packed.left.map((l) => l.name)).toEqual(['bad', 'late']);
    expect(packed.left[0]?.reason).toContain('measured');
    expect(packed.left[1]?.reason).toBe('Found late.');
    expect(await packedOf(bad, 'here')).toEqual({ zips: [], left: [packed.left[0]] });
  });

  test('a cut file has the cut lines of the part and no others, by ezdxf', async (ctx) => {
    needsOutside(ctx, 'python3-ezdxf', ezdxfAvailable);
    for (const family of inTurns(['bracket-angle', 'heel-rest', 'duct-box'], 1, 3)) {
      const [made] = await madeOf(family);
      const files = unzipSync(
        only((await packedOf(made === undefined ? [] : [made], 'service')).zips).contents,
      );
      const [cut] = Object.entries(files)
        .filter(([name]) => name.endsWith('.dxf'))
        .map(([, bytes]) => strFromU8(bytes));
      const whole = made?.files().find((f) => f.name.endsWith('.dxf'))?.contents;
      const [ours, theirs] = readWithEzdxf([cut ?? '', whole ?? '']);
      expect(ours?.errors).toEqual([]);
      expect(new Set(ours?.entities.map((e) => e.layer))).toEqual(
        new Set(made?.flat?.cutouts.length === 0 ? ['OUTLINE'] : ['HOLES', 'OUTLINE']),
      );
      expect(theirs?.entities.length).toBeGreaterThan(ours?.entities.length ?? 0);
      expect(ours?.entities).toEqual(
        theirs?.entities.filter((e) => e.layer === 'HOLES' || e.layer === 'OUTLINE'),
      );
    }
  });

  test('cut files are written as the cutter of the shop takes them', async () => {
    const [laser] = OPTIONS.shop.cutters;
    if (laser === undefined) throw new Error('no cutter');
    const shop = {
      ...OPTIONS.shop,
      cutters: [
        {
          ...laser,
          import: { ...laser.import, units: 'inch' as const, curves: 'chords' as const },
        },
      ],
    };
    const [made] = await madeOf('bracket-angle', {}, { shop });
    const files = unzipSync(
      only(
        (await packedOf(made === undefined ? [] : [made], 'here', { shop, dxfVersion: 'r12' }))
          .zips,
      ).contents,
    );
    if (made?.drawing === undefined) throw new Error('no drawing');
    expect(strFromU8(files['seat-post_left_s275_3mm_x1.dxf'] ?? new Uint8Array())).toBe(
      writeDxf(made.drawing, { version: 'r12', cutOnly: true, form: importFor(shop, 3) }),
    );
  });

  test('drawings are of what the service folds, and of nothing else', async () => {
    const made = [
      ...(await madeOf('bracket-angle')),
      ...(await madeOf('ring', { material: 's275', thickness: 3 })),
    ];
    const names = async (fold: 'here' | 'service') =>
      Object.keys(unzipSync(only((await packedOf(made, fold)).zips).contents)).filter((n) =>
        n.endsWith('.pdf'),
      );
    expect(await names('here')).toEqual([]);
    expect(await names('service')).toEqual(['seat-post_left_s275_3mm_x1.pdf']);
  });
});

describe('both hands', () => {
  test('of a blank that is its own mirror image have one cut file for all, and a drawing each', async (ctx) => {
    needsOutside(ctx, 'python3', hasPython);
    const zip = only(
      (await packedOf(await madeOf('bracket-angle', { hand: 'both', quantity: 4 }), 'service'))
        .zips,
    );
    const { names, rows } = readZip(zip.contents);
    expect(names.slice(3)).toEqual([
      'seat-post_both_s275_3mm_x8.dxf',
      'seat-post_left_s275_3mm_x4.pdf',
      'seat-post_right_s275_3mm_x4.pdf',
    ]);
    expect(rows.map((r) => [r['file'], r['hand'], r['quantity']])).toEqual(
      ['left', 'right'].map((hand) => ['seat-post_both_s275_3mm_x8.dxf', hand, '4']),
    );
  });

  test('of any other blank have two', async () => {
    const zip = only((await packedOf(await madeOf('strut-brace', { hand: 'both' }), 'here')).zips);
    expect(Object.keys(unzipSync(zip.contents)).slice(3)).toEqual([
      'tower-plate_left_s275_3mm_x1.dxf',
      'tower-plate_right_s275_3mm_x1.dxf',
    ]);
  });

  test('one hand alone keeps its own name, also when the other was stopped', async () => {
    const [left, right] = await madeOf('bracket-angle', { hand: 'both' });
    if (left === undefined || right === undefined) throw new Error('two hands');
    const alone = only((await packedOf([right], 'here')).zips);
    expect(Object.keys(unzipSync(alone.contents))[3]).toBe('seat-post-R_right_s275_3mm_x1.dxf');
    const stopped = only(
      (await packedOf([{ ...left, stopped: true, files: () => [] }, right], 'here')).zips,
    );
    expect(Object.keys(unzipSync(stopped.contents))[3]).toBe('seat-post_right_s275_3mm_x1.dxf');
  });
});

describe('the parts list', () => {
  test('is read alike by Python and by csv-parse, and its quantities are those of the parts', async (ctx) => {
    needsOutside(ctx, 'python3', hasPython);
    const made = [
      ...(await madeOf('tank', { hand: 'both', quantity: 2 })),
      ...(await madeOf('baffle', { thickness: 2 })),
    ];
    const packed = await packOf(
      made.map((one, i) => ({
        made: one,
        fold: 'service',
        revision: i === 0 ? 'B' : '',
        note: 'weld "flush", then\nwash',
      })),
      OPTIONS,
    );
    const rows = packed.zips.flatMap(({ contents }) => {
      const { rows: theirs } = readZip(contents);
      expect(
        parse(strFromU8(unzipSync(contents)['parts.csv'] ?? new Uint8Array()), { columns: true }),
      ).toEqual(theirs);
      return theirs;
    });
    expect(rows).toHaveLength(made.length);
    for (const [i, { result }] of made.entries()) {
      const row = rows.find((r) => r['part'] === result.name);
      expect(row).toMatchObject({
        quantity: String(result.quantity),
        hand: result.hand,
        material: result.material.id,
        thickness_mm: String(result.material.thicknessMm),
        pierces: String(result.blank?.pierces),
        folds: String(result.bends.length),
        revision: i === 0 ? 'B' : '',
        note: 'weld "flush", then\nwash',
      });
      expect(Number(row?.['blank_width_mm'])).toBeCloseTo(result.blank?.widthMm ?? 0, 2);
      expect(Number(row?.['mass_kg'])).toBeCloseTo(result.blank?.massKg ?? 0, 3);
      expect(Number(row?.['cut_length_mm'])).toBeCloseTo(result.blank?.cutLengthMm ?? 0, 1);
      expect(row?.['folded_by']).toBe(result.bends.length === 0 ? 'nobody' : 'service');
      expect(row?.['drawing'] === '').toBe(result.bends.length === 0);
    }
    // What each file name says is to be cut is what its rows add up to.
    for (const file of new Set(rows.map((r) => r['file']))) {
      const sum = rows
        .filter((r) => r['file'] === file)
        .reduce((n, r) => n + Number(r['quantity']), 0);
      expect(file).toMatch(new RegExp(`_x${sum}(?:_\\d+)?\\.dxf$`));
    }
  });
});
