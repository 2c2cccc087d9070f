import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import { STRAIGHT } from '../../src/data/machines/straight.ts';
import type { FlatFormed } from '../../src/model/formed.ts';
import type { Machine } from '../../src/model/machine.ts';
import { BEND, findingsOf, plate } from '../helpers/plate.ts';
import { shopWith } from '../helpers/shops.ts';

/**
 * A bead of 5 that is so far below the bend of a plate 100 wide, which begins at y = 50 and is folded
 * up, or beyond it on the other leg, which begins at y = 57.
 */
const bead = (clear: number, more: Partial<FlatFormed> = {}, long = 80): FlatFormed => ({
  called: 'bead 1',
  inputs: ['beadsAt'],
  panel: 'leg A',
  zone: [
    [10, 50 - clear],
    [10 + long, 50 - clear],
    [10 + long, 45 - clear],
    [10, 45 - clear],
  ],
  proudMm: 3,
  direction: 'up',
  marks: [],
  ...more,
});

const found = (formed: FlatFormed, ...machines: Machine[]) =>
  findingsOf(plate([], { formed: [formed], bends: [BEND] }), {
    shop: shopWith({}, { machines }),
  }).filter((f) => f.rule === 'formed-under-jaw');

describe("'formed-under-jaw'", () => {
  const NOSE = BOX_PAN.noseDepthMm.value;
  const RAM = PRESS_BRAKE.ramHalfMm.value;
  const DIE = PRESS_BRAKE.vMm.value / 2 + PRESS_BRAKE.shoulderMm.value;

  test.each([
    ['under the fingers of a folder', BOX_PAN, 'up', NOSE],
    ['over its bed, where they press as well', BOX_PAN, 'down', NOSE],
    ['under the beam of another', STRAIGHT, 'up', STRAIGHT.noseDepthMm.value],
    ['on the side of a ram', PRESS_BRAKE, 'up', RAM],
    ['on the side of a die', PRESS_BRAKE, 'down', DIE],
  ] as const)('%s', (_, machine, direction, least) => {
    expect(found(bead(least, { direction }), machine)).toEqual([]);
    expect(found(bead(least - 0.01, { direction }), machine)).toHaveLength(1);
  });

  test('tells how far to move it, by the inputs that do', () => {
    const [finding] = found(bead(NOSE - 12), BOX_PAN);
    expect(finding).toMatchObject({ severity: 'warn', panel: 'leg A', inputs: ['beadsAt'] });
    expect(finding?.message).toMatch(/bead 1 stands 3 mm proud .* bend A .* Move it 12 mm further/);
  });

  // Fingers may leave twice the uncovered length between them: what is narrower stands in that gap.
  test('fingers are set apart over what is narrow, a beam is not', () => {
    const gap = 2 * BOX_PAN.maxUncoveredMm.value;
    expect(found(bead(5, {}, gap), BOX_PAN)).toEqual([]);
    expect(found(bead(5, {}, gap + 0.01), BOX_PAN)).toHaveLength(1);
    expect(found(bead(5, {}, gap), STRAIGHT)).toHaveLength(1);
  });

  test('one machine of the shop that clears it is enough', () => {
    expect(found(bead(RAM), BOX_PAN)).toHaveLength(1);
    expect(found(bead(RAM), BOX_PAN, PRESS_BRAKE)).toEqual([]);
    expect(found(bead(0))).toEqual([]);
  });

  test('nothing stands in the way that is formed later, or lies past the end of the bend', () => {
    expect(found(bead(5, { isAfterFolding: true }), BOX_PAN)).toEqual([]);
    const past = bead(5).zone.map(([x, y]) => [x + 100, y] as const);
    expect(found(bead(5, { zone: past }), BOX_PAN)).toEqual([]);
    expect(found(bead(5, { panel: 'leg C' }), BOX_PAN)).toEqual([]);
  });

  test('the leg beyond the bend is measured from where it begins', () => {
    const beyond = (clear: number): FlatFormed => ({
      ...bead(0, { panel: 'leg B' }),
      zone: bead(0).zone.map(([x, y]) => [x, 57 + clear + (50 - y)]),
    });
    expect(found(beyond(NOSE), BOX_PAN)).toEqual([]);
    expect(found(beyond(NOSE - 0.01), BOX_PAN)).toHaveLength(1);
  });
});
