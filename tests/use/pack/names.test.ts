import { unzipSync } from 'fflate';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEFAULT_HANDOVER, NAME_WORDS, patternMend } from '../../../src/model/handover.ts';
import { csv } from '../../../src/text/csv.ts';
import { FileNames, nameBy, type NameValues } from '../../../src/use/pack/names.ts';
import { readShop } from '../../../src/shop/read.ts';
import { shopEntries, writeShop } from '../../../src/shop/write.ts';
import { madeOf, OPTIONS, packedOf } from '../../helpers/packed.ts';

const VALUES: NameValues = {
  name: 'seat post',
  hand: 'left',
  material: 's275',
  thickness: '1.5mm',
  quantity: '12',
  revision: 'B',
  family: 'bracket-angle',
};

describe('names by a pattern', () => {
  test.each([
    [DEFAULT_HANDOVER.names, 'seat-post_left_s275_1.5mm_x12'],
    ['{quantity}x.{name}-{revision}', '12x.seat-post-B'],
    ['{name}', 'seat-post'],
    ['{name}{name}', 'seat-postseat-post'],
  ])('%s', (pattern, name) => {
    expect(nameBy(pattern, VALUES)).toBe(name);
  });

  test('of any part are safe and short, and quantity and thickness stay in them', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', maxLength: 200 }),
        fc.string({ maxLength: 100 }),
        (name, revision) => {
          const made = nameBy(DEFAULT_HANDOVER.names, { ...VALUES, name, revision });
          expect(made).toMatch(/^[A-Za-z0-9_][A-Za-z0-9._-]*_left_s275_1\.5mm_x12$/);
          expect(made.length).toBeLessThanOrEqual(80);
        },
      ),
    );
  });

  test('two parts with one name get two files, whatever their capitals', () => {
    const names = new FileNames();
    expect(['a', 'A', 'b', 'a'].map((n) => names.take(n, 'dxf'))).toEqual([
      'a.dxf',
      'A_2.dxf',
      'b.dxf',
      'a_3.dxf',
    ]);
  });

  test('a name that turns the text beside it round makes no part', async () => {
    await expect(madeOf('bracket-angle', { name: '\u202Efdp.exe' })).rejects.toThrow(
      'characters that cannot be seen',
    );
  });

  test.each([
    '../../etc/passwd',
    'con',
    '=1+1',
    '__proto__',
    '-rf',
    'ä/ö\\ü',
    'a'.repeat(80),
    '🔧',
  ])('a part called %j is packed under a plain name', async (name) => {
    const { zips } = await packedOf(
      [...(await madeOf('bracket-angle', { name })), ...(await madeOf('bracket-angle', { name }))],
      'service',
      { job: name },
    );
    const files = Object.keys(unzipSync(zips[0]?.contents ?? new Uint8Array()));
    expect(zips).toHaveLength(1);
    // One manifest, one cover, one list, two cut files and two drawings.
    expect(files).toHaveLength(7);
    for (const file of [...files, zips[0]?.name])
      expect(file).toMatch(/^[A-Za-z0-9_][A-Za-z0-9._-]*\.(?:html|json|csv|dxf|pdf|zip)$/);
  });
});

describe('the shop file', () => {
  const withNames = (names: string) =>
    readShop(
      `cutters:\n  - name: l\n    process: laser\n    thickness: {from: 1, to: 5}\n    bed: {length: 2000, width: 1000}\n    kerf: [{thickness: 1, kerf: 0.1}]\nhandover:\n  names: ${JSON.stringify(names)}\n`,
    );

  test('says how the files are named', () => {
    const read = withNames('{name}.{quantity}');
    expect(read.ok && read.shop.handover).toEqual({
      ...DEFAULT_HANDOVER,
      names: '{name}.{quantity}',
    });
  });

  test.each([
    ['{nme}_{quantity}', 'there is no {nme}'],
    ['{name}/{quantity}', 'leave out "/"'],
    ['{name} {hand}', 'leave out " "'],
    ['{hand}', 'without {name} one part cannot be told from another'],
    ['{name', 'leave out "{"'],
  ])('%s is refused with the words that there are', (names, mend) => {
    const read = withNames(names);
    expect(patternMend(names)).toBe(mend);
    expect(read.ok ? [] : read.problems).toMatchObject([
      {
        mend,
        allowed: expect.stringContaining(NAME_WORDS.map((w) => `{${w}}`).join(', ')) as string,
      },
    ]);
  });

  test('is written as it was read', () => {
    const shop = {
      ...OPTIONS.shop,
      handover: { names: '{name}', perSheet: false, tolerance: 'f', protect: 'outside' },
    } as const;
    const read = readShop(writeShop(shopEntries(shop, {}), 'A shop.'));
    expect(read.ok && read.shop.handover).toEqual(shop.handover);
  });
});

/**
 * RFC 4180, 2: lines end in CR LF; quotes inside are doubled. A formula's first letters: common
 * practice.
 */
test.each([
  [['a', 1.5, ''], 'a,1.5,\r\n'],
  [['a,b', 'say "x"', 'two\nlines'], '"a,b","say ""x""","two\nlines"\r\n'],
  [['=1+1', '+1', '-1', '@a', '\t=1'], "'=1+1,'+1,'-1,'@a,'\t=1\r\n"],
  [['=a,"b"'], '"\'=a,""b"""\r\n'],
  [[-1, 'a=b'], '-1,a=b\r\n'],
])('%j as CSV', (row, text) => {
  expect(csv([row])).toBe(text);
});
