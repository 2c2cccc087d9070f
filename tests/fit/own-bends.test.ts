import { describe, expect, test } from 'vitest';
import { calibrate, toShopBend } from '../../src/calibrate/calibrate.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import type { Shop, ShopBend } from '../../src/model/shop.ts';
import { foldedStrips, lostMm } from '../helpers/folded-strips.ts';
import { fitted, measureOf } from '../helpers/fitted.ts';
import { loadFamily } from '../helpers/check-template.ts';

/** A nose that gives radius 3 on 1.5 mm, with K 0.42. */
const OWN = { k: 0.42, r: 3, t: 1.5 };

/** A shop that has measured strips of it, without errors of reading. */
const shopOf = (...bends: readonly ShopBend[]): Shop => ({ ...DEFAULT_SHOP, machines: [], bends });
const measured = (): ShopBend => {
  const [lot] = calibrate(
    foldedStrips({ ...OWN, noise: 0 }, [90, 90, 90, 45, 45, 120, 120, 120], 1),
  );
  const bend = lot && toShopBend(lot);
  if (bend === undefined) throw new Error(JSON.stringify(lot));
  return bend;
};

const CHANNEL = {
  flangeA: 50,
  web: 60,
  flangeB: 50,
  width: 80,
  material: 'dc01',
  thickness: 1.5,
  rule: 'measured',
};

const made = async (inputs: Record<string, unknown>, shop = shopOf(measured())) => {
  const result = makeParts(await loadFamily('bracket-channel'), inputs, {
    cutOnly: false,
    dxfVersion: 'r2000',
    shop,
  });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  const [part] = result.parts;
  if (part?.result.blank === undefined || part.result.blank === null)
    throw new Error(JSON.stringify(part?.result.findings));
  return part.result;
};
const blankMm = async (inputs: Record<string, unknown>): Promise<number> =>
  (await made(inputs)).blank?.heightMm ?? NaN;

describe('a channel 50, 60, 50 by the bends of the shop', () => {
  /**
   * By hand: setback r + t = 4.5; BA = pi / 2 (3 + 0.42 x 1.5) = 5.70199; BD = 9 - 5.70199 =
   * 3.29801; the blank is 160 - 2 x 3.29801 = 153.40398.
   */
  test('is cut for the radius that was measured, 153.404 long', async () => {
    const { blank, bends, findings } = await made(CHANNEL);
    expect(bends.map((b) => b.insideRadiusMm)).toEqual([
      expect.closeTo(3, 2),
      expect.closeTo(3, 2),
    ]);
    expect(blank?.heightMm).toBeCloseTo(153.40398, 3);
    expect(findings.filter((f) => f.severity !== 'note').map((f) => f.rule)).toEqual([]);
    expect(findings.find((f) => f.rule === 'measured-tool')?.message).toBe(
      'Fold A, B with what was measured: machine folder, tool nose; K 0.42 with inside radius 3.',
    );
  });

  /**
   * K 0.42 with the catalogue's radius of 1.6: BD = 6.2 - pi / 2 (1.6 + 0.63) = 2.69710, and the
   * part comes out 1.202 long.
   */
  test('with another radius is warned of, with what it costs', async () => {
    const { blank, findings } = await made({ ...CHANNEL, radius: 1.6 });
    expect(blank?.heightMm).toBeCloseTo(160 - 2 * 2.6971, 3);
    const [warning] = findings.filter((f) => f.severity === 'warn');
    expect([warning?.rule, warning?.message]).toEqual([
      'radius-not-measured',
      expect.stringMatching(
        /Radius 1\.6 is asked for at A, B, .*have 3, .*fold A comes out 0\.6 mm long over its two legs, all 2 of them 1\.2 mm\. Give radius 3 or none/,
      ),
    ]);
    // What a calliper does not see is not worth a word.
    expect((await made({ ...CHANNEL, radius: 2.9 })).findings.map((f) => f.rule)).not.toContain(
      'radius-not-measured',
    );
  });

  test.each([45, 60, 90, 120, 135])(
    'bent to %d degrees the blank is what the strips say',
    async (bendAngle) => {
      expect(await blankMm({ ...CHANNEL, bendAngle })).toBeCloseTo(
        160 - 2 * lostMm(bendAngle, OWN),
        3,
      );
    },
  );

  test('of several noses that were measured it is the one whose radius was asked for, or the one nearest to that of the catalogue', async () => {
    const own = measured();
    const shop = shopOf(own, { ...own, tool: 'sharp', radius: 1, k: 0.36 });
    const radii = async (radius?: number) =>
      (await made({ ...CHANNEL, ...(radius !== undefined && { radius }) }, shop)).bends.map((b) => [
        b.insideRadiusMm,
        b.kFactor,
      ]);
    expect(await radii()).toEqual([
      [1, expect.closeTo(0.36, 6)],
      [1, expect.closeTo(0.36, 6)],
    ]);
    expect((await radii(3))[0]).toEqual([3, expect.closeTo(0.42, 3)]);
  });
});

describe('how well it will fit', () => {
  const shop = shopOf(measured());
  const expected = async (inputs: Record<string, unknown>) => {
    const { fit } = await fitted('bracket-channel', { ...CHANNEL, ...inputs }, {}, { shop });
    return ['flange A', 'web', 'flange B'].map(
      (name) => measureOf(fit, name).expected - measureOf(fit, name).asked,
    );
  };

  test('as asked, when the blank was cut for the bends that were measured', async () => {
    for (const off of await expected({})) expect(Math.abs(off)).toBeLessThan(2e-3);
  });

  /**
   * Cut for K 0.42 and 1.5, folded to 3: half of 3.29801 - 2.65421 more on each flange, all of it
   * on the web.
   */
  test.each([
    [{ radius: 1.5 }, 3.29801 - 2.65421],
    // By DIN 6935 for r = t: K 0.325, BD = 6 - pi / 2 x 1.5 x 1.325 = 2.87803.
    [{ radius: 1.5, rule: 'din6935' }, 3.29801 - 2.87803],
    [{ radius: 3, rule: 'k:0.5' }, 3.29801 - (9 - (Math.PI / 2) * 3.75)],
  ])('%j: what the shop will find', async (inputs, off) => {
    const [a, web, b] = await expected(inputs);
    expect([a, web, b]).toEqual([
      expect.closeTo(off / 2, 2),
      expect.closeTo(off, 2),
      expect.closeTo(off / 2, 2),
    ]);
  });

  test('K and radius that were found together are doubted together', async () => {
    const doubt = async (bend: Partial<ShopBend>) => {
      const { fit } = await fitted(
        'bracket-channel',
        CHANNEL,
        {},
        { shop: shopOf({ ...measured(), kError: 0.08, radiusError: 0.4, ...bend }) },
      );
      const { causes, likely } = measureOf(fit, 'web');
      const share = (name: string): number =>
        Math.sqrt((causes.find((c) => c.cause === name)?.share ?? 0) * likely ** 2);
      return {
        k: share('the K factor'),
        radius: share('the inside radius'),
        spread: share('how one bend differs from the next'),
      };
    };
    // At 90 degrees, two half bends at the web: d/dr = 2 (1 - pi / 4), d/dK = - pi / 2 t; limits
    // are 1.96 deviations.
    const [byRadius, byK] = [1.96 * 0.4 * (2 - Math.PI / 2), 1.96 * 0.08 * (Math.PI / 2) * 1.5];
    const apart = await doubt({ correlation: 0 });
    expect([apart.radius, apart.k]).toEqual([expect.closeTo(byRadius, 3), expect.closeTo(byK, 3)]);
    const together = await doubt({ correlation: 0.95 });
    expect(together.radius).toBeCloseTo(Math.abs(byRadius - 0.95 * byK), 3);
    expect(together.k).toBeCloseTo(byK * Math.sqrt(1 - 0.95 ** 2), 3);
    // Half of the length of each of the two zones lies at the web.
    expect((await doubt({ spread: 0.2 })).spread).toBeCloseTo(1.96 * 0.2 * Math.SQRT1_2, 3);
  });

  test('a closed hem is doubted by how far apart those are who say anything of it', async () => {
    // From 0.43 t off, K 0.5, to nothing off (US Navy, Steelworker manual), K 2 / pi: 0.137. By DIN
    // 6935 it would be K 0.
    const { fit } = await fitted('tray', {
      length: 200,
      depth: 140,
      height: 45,
      lipBack: 'hem-out',
      hemRadius: 0,
      material: 's235',
      thickness: 1,
      radius: 6,
    });
    expect(fit.basis.join(' ')).toContain('K factor: ±0.14');
  });

  test('a roll is none of the bends that were measured', async () => {
    const { fit } = await fitted(
      'strap',
      {
        over: 'round',
        across: 300,
        height: 320,
        boltCentres: 370,
        width: 40,
        material: 'dc01',
        thickness: 1.5,
        rule: 'measured',
      },
      {},
      { shop: shopOf({ ...measured(), angles: { from: 45, to: 170 } }) },
    );
    for (const m of fit.measures) expect(Math.abs(m.expected - m.asked), m.name).toBeLessThan(0.01);
  });
});
