import { describe, expect, test } from 'vitest';
import { rulesUsed } from '../../src/model/rules-used.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { make, makeOne, rulesOf } from '../helpers/check-template.ts';

/** 1 mm sheet; sides of radius 1 by DIN 6935: K 0.325, BA = pi / 2 x 1.325 = 2.08131, s = 2. */
const TRAY = {
  length: 200,
  depth: 140,
  height: 45,
  lipBack: 'hem-out',
  lipDepth: 12,
  material: 'dc01',
  thickness: 1,
  radius: 1,
};
const SIDES = 140 + 2 * 45 - 2 * (4 - 2.08131);

const hemOf = ({ result }: MadePart, id = 'G') => result.bends.find((b) => b.id === id);

describe('hems of a tray', () => {
  // Common practice: a closed hem takes 0.43 t off the sum of its legs; 12 deep, so 11.57 of sheet.
  test('closed hard, by DIN 6935, which has no figures for it', async () => {
    const tray = await makeOne('tray', { ...TRAY, hemRadius: 0 });
    expect(tray.blank.heightMm).toBeCloseTo(SIDES + 12 - (2 - Math.PI / 2), 4);
    expect(hemOf(tray)).toMatchObject({
      rule: 'hem-closed',
      kFactor: expect.closeTo(0.5, 9) as number,
      deductionMm: expect.closeTo(0.4292, 4) as number,
    });
    expect(rulesOf(tray, 'note')).toContain('hem-allowance');
    expect(rulesOf(tray, 'stop')).toEqual([]);
    expect(
      tray.drawing?.items.flatMap((i) => (i.kind === 'text' ? [i.text] : [])).join(),
    ).toContain('bends by din6935, G by hem-closed');
    // Folded it is two thicknesses; the proof has folded up the file.
    expect(tray.result.proof?.worstMm).toBeLessThan(1e-3);
  });

  test('open, as before: half a turn by the rule', async () => {
    const tray = await makeOne('tray', { ...TRAY, hemRadius: 1 });
    expect(tray.blank.heightMm).toBeCloseTo(SIDES + 12 - (4 - Math.PI * 1.325), 4);
    expect(hemOf(tray)?.rule).toBe('din6935');
    expect(rulesOf(tray, 'note')).not.toContain('hem-allowance');
  });

  // Radius 1, 12 deep: past half a turn by d with 2 (1 + sin d) + cos d / tan(d / 2) = 12, by
  // halving: d = 11.6551 degrees, straight 9.7980. Loop pi (191.6551 / 180) 1.325 = 4.43214.
  test('as a teardrop: a loop past half a turn, its edge down on the side', async () => {
    const d = (11.6551 * Math.PI) / 180;
    expect(2 * (1 + Math.sin(d)) + Math.cos(d) / Math.tan(d / 2)).toBeCloseTo(12, 3);
    const tray = await makeOne('tray', { ...TRAY, hemRadius: 1, hemShape: 'teardrop' });
    // The side's own flat ends two short of the top, at the tangent line of the loop.
    expect(tray.blank.heightMm).toBeCloseTo(SIDES - 2 + 4.43214 + 9.798, 3);
    expect(rulesOf(tray, 'stop')).toEqual([]);
  });

  test.each([
    [
      { hemRadius: 0, hemShape: 'teardrop' },
      'no-loop',
      /give hemShape flat, or hemRadius [\d.]+ or more/,
    ],
    [
      { hemRadius: 6, hemShape: 'teardrop' },
      'hem-too-shallow',
      /lipDepth 12 is too little.*give 14 or more/,
    ],
  ])('%j cannot be', async (inputs, rule, mend) => {
    const [tray] = await make('tray', { ...TRAY, ...inputs });
    expect(rulesOf(tray, 'stop')).toContain(rule);
    expect(tray?.result.findings.find((f) => f.rule === rule)?.message).toMatch(mend);
    expect(
      rulesOf(
        (await make('tray', { ...TRAY, hemRadius: 6, hemShape: 'teardrop', lipDepth: 14 }))[0],
        'stop',
      ),
    ).toEqual([]);
  });

  test('measured inside, the depth of a teardrop is a thickness more outside', async () => {
    const [outside, inside] = [
      await makeOne('tray', { ...TRAY, hemRadius: 1, hemShape: 'teardrop' }),
      await makeOne('tray', {
        ...TRAY,
        length: 198,
        depth: 138,
        height: 44,
        lipDepth: 11,
        hemRadius: 1,
        hemShape: 'teardrop',
        measure: 'inside',
      }),
    ];
    // Height and hem are both to the top: what is inside of the one is outside of the other.
    expect(hemOf(inside)).toEqual(hemOf(outside));
  });
});

describe('the hem of a heel rest', () => {
  const REST = {
    floorAngle: 0,
    treadAngle: 15,
    width: 220,
    treadDepth: 140,
    lipHeight: 30,
    hem: 12,
    material: 'dc01',
    thickness: 1,
    radius: 1,
    flangeRear: 0,
  };

  test('closed, and as a teardrop', async () => {
    const [open, closed, teardrop] = [
      await makeOne('heel-rest', { ...REST, hemRadius: 1 }),
      await makeOne('heel-rest', { ...REST, hemRadius: 0 }),
      await makeOne('heel-rest', { ...REST, hemRadius: 1, hemShape: 'teardrop' }),
    ];
    const hem = (part: MadePart) => part.result.bends.find((b) => b.angleDeg === 180);
    expect([open, closed, teardrop].map((p) => hem(p)?.rule)).toEqual([
      'din6935',
      'hem-closed',
      'din6935',
    ]);
    expect(hem(closed)?.deductionMm).toBeCloseTo(0.4292, 4);
    // 12 deep as above, with the leg it is drawn with: 10.
    expect(hem(teardrop)?.allowanceMm).toBeCloseTo(4.43214 + 9.798 - 10, 3);
    expect(
      rulesOf(
        (await make('heel-rest', { ...REST, hemRadius: 0, hemShape: 'teardrop' }))[0],
        'stop',
      ),
    ).toEqual(['no-loop']);
  });
});

test('a plate that is folded right over goes by the hem allowance as well', async () => {
  const plate = await makeOne('plate', {
    outline: '0,0; 100,0; 100,60; 0,60',
    folds: '0,40 100,40 180 up r0',
    material: 'dc01',
    thickness: 1,
  });
  expect(plate.result.bends[0]).toMatchObject({
    rule: 'hem-closed',
    allowanceMm: expect.closeTo(Math.PI / 2, 9) as number,
  });
});

describe('by which rule each bend went', () => {
  test('a strap that is rolled over a round', async () => {
    const strap = await makeOne('strap', {
      over: 'round',
      across: 300,
      height: 320,
      boltCentres: 370,
      width: 40,
      material: '1.4301',
      thickness: 2,
      rule: 'mh1',
    });
    expect([strap.result.rule, strap.result.bends.map((b) => b.rule)]).toEqual([
      'mh1',
      ['mh1', 'k:0.5', 'mh1'],
    ]);
    expect(strap.drawing?.items.flatMap((i) => (i.kind === 'text' ? [i.text] : []))).toContain(
      'bends by mh1, B by k:0.5',
    );
  });

  test.each([
    ['mh1', [], 'mh1'],
    ['mh1', ['mh1', 'mh1'], 'mh1'],
    // None of them goes by what was asked for: a transition.
    ['faa', ['k:0.5', 'k:0.5'], 'k:0.5'],
    ['mh1', ['k:0.5', 'mh1', 'hem-closed', 'k:0.5'], 'mh1, F0 F3 by k:0.5, F2 by hem-closed'],
    ['mh1', ['mh1', ...Array.from({ length: 7 }, () => 'k:0.5')], 'mh1, 7 others by k:0.5'],
  ])('%s, %j', (rule, rules, text) => {
    expect(
      rulesUsed(
        rule,
        rules.map((r, i) => ({ id: `F${i}`, rule: r })),
      ),
    ).toBe(text);
  });
});
