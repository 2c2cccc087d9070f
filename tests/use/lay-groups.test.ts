import { describe, expect, test } from 'vitest';
import { rectangle } from '../../src/geometry/loop.ts';
import { findMaterial } from '../../src/data/materials.ts';
import { readJob } from '../../src/index.ts';
import type { LayRequest, PartToLay } from '../../src/lay/sheets/request.ts';
import { DEFAULT_HANDOVER } from '../../src/model/handover.ts';
import type { Shop } from '../../src/model/shop.ts';
import type { StockPiece } from '../../src/model/stock.ts';
import { drawingOf } from '../../src/use/lay/drawn-region.ts';
import {
  type LayAsked,
  type LayBlank,
  layGroups,
  layGroupsOfJob,
} from '../../src/use/lay/lay-groups.ts';
import angle from '../../templates/bracket-angle/index.ts';
import { shopWith } from '../helpers/shops.ts';

const ASKED: LayAsked = { turns: '90', hasGoodFace: false, mayBuy: true, first: [], together: [] };

const STOCK: readonly StockPiece[] = [
  {
    name: 'sheet',
    isRemnant: false,
    outline: rectangle(0, 0, 2000, 1000),
    holes: [],
    count: 2,
    price: 50,
  },
];

const material = findMaterial('s235');
const blank = (name: string, thicknessMm: number, marks = false): LayBlank => {
  if (!material.ok) throw new Error(material.reason);
  const plain = drawingOf(name, { outline: rectangle(0, 0, 90, 60), holes: [] });
  const line = { kind: 'line', role: 'fold-up', from: [0, 30], to: [90, 30] } as const;
  return {
    name,
    quantity: 2,
    material: material.value,
    thicknessMm,
    drawing: marks ? { ...plain, items: [...plain.items, line] } : plain,
    grain: 'free',
  };
};

const requestFor = (
  one: LayBlank,
  asked: Partial<LayAsked> = {},
  shop: Shop = shopWith({ marks: false }),
): LayRequest =>
  layGroups([one], shop, STOCK, { ...ASKED, ...asked }).groups[0]?.request as LayRequest;

const partFor = (...given: Parameters<typeof requestFor>): PartToLay =>
  requestFor(...given).parts[0] as PartToLay;

describe('what a layout keeps', () => {
  const plasma = shopWith({
    thickness: { from: 1, to: 6 },
    kerf: [
      { thickness: 2, kerf: 1.4 },
      { thickness: 4, kerf: 2 },
    ],
    leastWeb: [{ upTo: 3, mm: 2, thicknesses: 1.5 }, { thicknesses: 2 }],
    clamps: 35,
  });

  test.each([
    // The cut, and the least web beside it: by hand from the rows above.
    ['the web in mm', 1, {}, [1.4 + 2, 1.4 + 2, 35]],
    ['the web in thicknesses, the cut between two rows', 3, {}, [1.7 + 4.5, 1.7 + 4.5, 35]],
    ['the row of thicker sheet', 4, {}, [2 + 8, 2 + 8, 35]],
    ['what is asked for in its place', 3, { gapMm: 12, edgeMm: 20, clampsMm: 0 }, [12, 20, 0]],
    // No cutter takes it: two thicknesses, 5 mm at least (common practice).
    ['no cutter', 8, {}, [16, 16, 0]],
  ] as const)('%s', (_, thickness, asked, [gap, edge, clamps]) => {
    const request = requestFor(blank('lid', thickness), asked, plasma);
    expect(request.gapMm).toBeCloseTo(gap, 9);
    expect(request.edgeMm).toBeCloseTo(edge, 9);
    expect(request.clampsMm).toBe(clamps);
  });

  test('sheets that are counted can be bought too, but not with the stock alone', () => {
    const counts = (mayBuy: boolean) =>
      requestFor(blank('lid', 2), { mayBuy }).pieces.map(({ count }) => count);
    expect([counts(true), counts(false)]).toEqual([[2, undefined], [2]]);
  });
});

describe('how a part may lie', () => {
  test.each([
    ['0', [0]],
    ['180', [0, 180]],
    ['90', [0, 90, 180, 270]],
    ['any', 'any'],
  ] as const)('turns: %s', (turns, turnsDeg) => {
    expect(partFor(blank('lid', 2), { turns }).turnsDeg).toEqual(turnsDeg);
  });

  const marking = shopWith({ marks: true });
  const protecting = shopWith(
    { marks: false },
    { handover: { ...DEFAULT_HANDOVER, protect: 'outside' } },
  );

  test.each([
    ['turned over where no face matters', blank('lid', 2), {}, undefined, true],
    ['not on a brushed sheet', blank('lid', 2), { hasGoodFace: true }, undefined, false],
    ['not where a face is protected', blank('lid', 2), {}, protecting, false],
    ['not where lines are scribed on the upper one', blank('lid', 2, true), {}, marking, false],
    ['but without lines it is', blank('lid', 2), {}, marking, true],
    ['and where the cutter scribes none', blank('lid', 2, true), {}, undefined, true],
  ])('%s', (_, one, asked, shop, mayTurnOver) => {
    expect(partFor(one, asked, shop).mayTurnOver).toBe(mayTurnOver);
  });

  test('first, and together with others', () => {
    const asked = { first: ['lid'], together: [['ear', 'lid'], ['other']] };
    expect(partFor(blank('lid', 2), asked)).toMatchObject({ isFirst: true, together: 'ear, lid' });
    expect(partFor(blank('tie', 2), asked)).toMatchObject({ isFirst: false, together: undefined });
  });

  test.each([
    // DIN 6935, up to 390 MPa: 3 mm sheet takes 3 mm across the rolling direction and 5 mm along it.
    [3, true],
    [5, false],
  ])('a bend of %d mm wishes the grain square to it: %s', (radius, isTight) => {
    const read = readJob(
      `title: cart\nparts:\n  - { family: bracket-angle, name: post, inputs: { material: s235, legA: 60, legB: 40, width: 80, thickness: 3, radius: ${radius} } }\n`,
      new Map([[angle.family, angle]]),
    );
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const shop = shopWith({}, { marking: { folds: 'lines', face: 'inside', drilled: 'crosses' } });
    const ready = { job: read.job, families: new Map([[angle.family, angle]]), shop };
    const { groups, drawings } = layGroupsOfJob(ready, STOCK, ASKED);
    const part = groups[0]?.request.parts[0];
    const fold = drawings
      .get(part?.name ?? '')
      ?.items.find((item) => item.kind === 'line' && item.role.startsWith('fold'));
    if (fold?.kind !== 'line') throw new Error('no fold line');
    const [x, y] = [fold.to[0] - fold.from[0], fold.to[1] - fold.from[1]];
    // The grain is square to the fold.
    const square = Math.abs(x) > Math.abs(y) ? 'across' : 'along';
    expect(part?.grain).toBe(isTight ? square : 'free');
  });
});
