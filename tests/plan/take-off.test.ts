import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import type { Machine } from '../../src/model/machine.ts';
import { planFolds } from '../../src/plan/search/plan.ts';
import { takeOff } from '../../src/plan/of-part/take-off.ts';
import { readShop } from '../../src/shop/read.ts';
import { shopEntries, writeShop } from '../../src/shop/write.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { readOf } from './cases.ts';
import { type MadeCase, profileStrip } from './parts.ts';

const mm = (value: number) =>
  ({ value, basis: 'common practice', source: 'for this test' }) as const;
const folder = (openingMm: number): Machine => ({ ...BOX_PAN, clampOpeningMm: mm(openingMm) });
const brake = (daylightMm: number): Machine => ({ ...PRESS_BRAKE, daylightMm: mm(daylightMm) });

/**
 * The way out after the last of the folds `order`, with the side of its parent or its child
 * clamped.
 */
const wayOut = (
  given: MadeCase,
  machine: Machine,
  order: readonly string[],
  clamped: 'parent' | 'child',
) => {
  const { net } = readOf(given as never);
  const { strokes } = planFolds(net, machine, { mostOrders: 0 }).lattice;
  const numbers = order.map((id) => net.folds.findIndex((f) => f.id === id));
  const last = strokes.find((s) => s.folds.length === 1 && s.folds[0] === numbers.at(-1));
  if (last === undefined) throw new Error('no such stroke');
  const made = numbers.slice(0, -1).reduce((bits, f) => bits | (1 << f), 0);
  return takeOff(net, machine, last, clamped === 'parent' ? 0 : 1, made);
};

describe('on a folder, by hand', () => {
  /**
   * A web 100 deep between flanges 60 and 30 high: the one that is folded first stands behind the
   * nose.
   */
  const channel = profileStrip(BOX_PAN.id, [60, 100, 30], [90, 90]);
  test.each([
    // The flange of 60 passes under a nose that is opened by more, not by less.
    [70, 'to the front'],
    [50, 'along the machine'],
  ])('a flange 60 high behind the nose, opened by %d: %s', (opening, way) => {
    expect(wayOut(channel, folder(opening), ['b1', 'b2'], 'parent')).toBe(way);
  });

  test('an angle comes out to the front whatever the opening', () => {
    expect(wayOut(profileStrip(BOX_PAN.id, [60, 40], [90]), folder(5), ['b1'], 'parent')).toBe(
      'to the front',
    );
  });

  /** A base 100 deep with walls 60 high: behind, and at both ends, beside the fingers. */
  const tray: MadeCase = {
    machine: { profile: BOX_PAN.id },
    part: {
      thickness_mm: 1.5,
      root: 'base',
      panels: [
        {
          id: 'base',
          pieces: [
            [
              [0, 0],
              [300, 0],
              [300, 100],
              [0, 100],
            ],
          ],
        },
        {
          id: 'front',
          pieces: [
            [
              [2, -30],
              [298, -30],
              [298, 0],
              [2, 0],
            ],
          ],
        },
        {
          id: 'back',
          pieces: [
            [
              [2, 100],
              [298, 100],
              [298, 160],
              [2, 160],
            ],
          ],
        },
        {
          id: 'left',
          pieces: [
            [
              [-60, 2],
              [0, 2],
              [0, 98],
              [-60, 98],
            ],
          ],
        },
        {
          id: 'right',
          pieces: [
            [
              [300, 2],
              [360, 2],
              [360, 98],
              [300, 98],
            ],
          ],
        },
      ],
      bends: [
        {
          id: 'F',
          parent: 'base',
          child: 'front',
          line: [
            [2, 0],
            [298, 0],
          ],
          angle_deg: 90,
        },
        {
          id: 'B',
          parent: 'base',
          child: 'back',
          line: [
            [2, 100],
            [298, 100],
          ],
          angle_deg: 90,
        },
        {
          id: 'L',
          parent: 'base',
          child: 'left',
          line: [
            [0, 2],
            [0, 98],
          ],
          angle_deg: 90,
        },
        {
          id: 'R',
          parent: 'base',
          child: 'right',
          line: [
            [300, 2],
            [300, 98],
          ],
          angle_deg: 90,
        },
      ],
    },
  };
  test.each([
    [70, ['B', 'L', 'R', 'F'], 'to the front'],
    // Along the machine the ends run into the fingers, to the front the back does.
    [50, ['B', 'L', 'R', 'F'], 'not at all'],
    // One end open: off that way.
    [50, ['B', 'L', 'F'], 'along the machine'],
    // The back not yet folded: out to the front, the ends beside the fingers.
    [50, ['L', 'R', 'F'], 'to the front'],
  ])('a tray opened by %d, after %j: %s', (opening, order, way) => {
    expect(wayOut(tray, folder(opening), order, 'parent')).toBe(way);
  });
});

describe('on a press brake, by hand', () => {
  /**
   * The legs of a channel 60 high stand 60 over the web once it is level again; bent, the left one
   * leans to the punch.
   */
  const channel = profileStrip(PRESS_BRAKE.id, [60, 200, 60], [90, 90]);
  test('legs that lean over pass a punch that is well up, and go along the machine past one that is not', () => {
    expect(wayOut(channel, brake(600), ['b1', 'b2'], 'parent')).toBe('to the front');
    expect(wayOut(channel, brake(20), ['b1', 'b2'], 'parent')).toBe('along the machine');
  });
});

test('a machine that does not say how far it opens says nothing', () => {
  expect(
    wayOut(profileStrip(BOX_PAN.id, [60, 40], [90]), BOX_PAN, ['b1'], 'parent'),
  ).toBeUndefined();
});

test('a shop file says it, and keeps it', () => {
  const text = writeShop(
    shopEntries(
      {
        ...DEFAULT_SHOP,
        machines: [
          { ...BOX_PAN, clampOpeningMm: mm(45) },
          { ...PRESS_BRAKE, daylightMm: mm(200) },
        ],
      },
      {},
    ),
    'A shop',
  );
  const read = readShop(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  expect(
    read.shop.machines.map((m) =>
      m.kind === 'folder' ? m.clampOpeningMm?.value : m.daylightMm?.value,
    ),
  ).toEqual([45, 200]);
});
