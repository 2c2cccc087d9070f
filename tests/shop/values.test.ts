import { expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import type { Shop } from '../../src/model/shop.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { PERFECT_CUTTER, shopWith } from '../helpers/shops.ts';

/** Width of the relief notches and gap of the corners that a tray comes out with. */
const made = async (shop: Shop, more: Record<string, unknown> = {}) => {
  const inputs = { length: 200, depth: 140, height: 45, material: 'dc01', thickness: 1, ...more };
  const all = makeParts(await loadFamily('tray'), inputs, {
    cutOnly: false,
    dxfVersion: 'r2000',
    shop,
  });
  const part = all.ok ? all.parts[0]?.part : undefined;
  return [part?.relief.leastSlotMm, part?.cornerGapMm];
};

test("a shop of one's own sets the narrowest slot and the weld gap, where the inputs do not", async () => {
  const own = shopWith(
    { kerf: [{ thickness: 1, kerf: 1.5 }], leastSlot: [{ upTo: 2, kerfs: 2 }, { mm: 5 }] },
    { weldGap: 0.8 },
  );
  expect(await made(own)).toEqual([3, 0.8]);
  expect(await made(own, { leastSlot: 2.5, cornerGap: 0.2 })).toEqual([2.5, 0.2]);
  expect(await made(own, { 'least-slot': 2.5, 'corner-gap': 0.2 })).toEqual([2.5, 0.2]);
  // The assumed shop leaves everybody's defaults; a shop without a cutter for the sheet knows of no
  // slot.
  expect(await made({ ...DEFAULT_SHOP, weldGap: 0.9 })).toEqual([2, 0.5]);
  expect(await made(shopWith({ thickness: { from: 5, to: 10 } }))).toEqual([2, 0.5]);
});

test('a cutter whose program wants no fold lines gets drawings of what is cut alone', async () => {
  const { import: usual } = PERFECT_CUTTER;
  const layers = async (foldLines: 'in' | 'out') => {
    const shop = shopWith(
      { import: { ...usual, foldLines } },
      { marking: { folds: 'lines', face: 'inside', drilled: 'crosses' } },
    );
    const all = makeParts(
      await loadFamily('bracket-angle'),
      { legA: 60, legB: 40, width: 80, thickness: 3 },
      { cutOnly: false, dxfVersion: 'r2000', shop },
    );
    return all.ok
      ? (all.parts[0]
          ?.files()
          .filter(({ name }) => /\.(?:dxf|svg)$/.test(name))
          .map((f) => [/FOLD-UP/.test(f.contents), /OUTLINE/.test(f.contents)]) ?? [])
      : [];
  };
  expect([await layers('in'), await layers('out')]).toEqual([
    [
      [true, true],
      [true, true],
    ],
    [
      [false, true],
      [false, true],
    ],
  ]);
});
