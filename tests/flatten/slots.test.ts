import { describe, expect, it } from 'vitest';
import { runChecks } from '../../src/checks/index.ts';
import { findMaterial } from '../../src/data/materials.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import { loopExtents } from '../../src/geometry/extents.ts';
import { loopGap } from '../../src/geometry/gap.ts';
import { signedArea } from '../../src/geometry/measure.ts';
import { distance } from '../../src/geometry/vec2.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import type { Part, SlotRow } from '../../src/model/part.ts';
import { angle } from '../helpers/parts.ts';
import { shopWith } from '../helpers/shops.ts';
import { TREES } from '../helpers/trees.ts';

const K = { id: 'k', k: 0.42 } as const;
const ROW: SlotRow = { longestMm: 40, landMm: 10, widthMm: 2 };

const withSlots = (part: Part, slots: SlotRow): Part => ({
  ...part,
  folds: part.folds.map((f) => ({ ...f, slots })),
});

const material = findMaterial('s235');
if (!material.ok) throw new Error('s235 is in the catalogue');
const sheet = material.value;

const slotsOf = (flat: FlatPattern, fold: string) =>
  flat.cutouts.flatMap((c) => (c.kind === 'loop' && c.fold === fold ? [c.loop] : []));

describe('a row of slots on a bend', () => {
  // Worked by hand: line of 80; one slot of 60 would be too long, two leave (80 - 3 * 10) / 2 = 25
  // each.
  const flat = flatten(withSlots(angle(60, 40, 80, 30, 6, 4), ROW), K);

  it('has lands before, between and after slots of one length', () => {
    const level =
      ((flat.bends[0]?.centreLine[0][1] ?? 0) + (flat.bends[0]?.centreLine[1][1] ?? 0)) / 2;
    const boxes = slotsOf(flat, 'A')
      .map((loop) => loopExtents(loop))
      .sort((a, b) => (a?.minX ?? 0) - (b?.minX ?? 0));
    expect(boxes).toEqual([
      {
        minX: expect.closeTo(10, 9),
        maxX: expect.closeTo(35, 9),
        minY: expect.closeTo(level - 1, 9),
        maxY: expect.closeTo(level + 1, 9),
      },
      {
        minX: expect.closeTo(45, 9),
        maxX: expect.closeTo(70, 9),
        minY: expect.closeTo(level - 1, 9),
        maxY: expect.closeTo(level + 1, 9),
      },
    ]);
  });

  it('takes its metal off the blank and leaves the outline and the bend as they were', () => {
    const whole = flatten(angle(60, 40, 80, 30, 6, 4), K);
    expect(flat.outline).toEqual(whole.outline);
    expect(flat.bends).toEqual(whole.bends);
    // Each slot: a rectangle of 23 x 2 and a full circle of radius 1.
    expect(flat.areaMm2).toBeCloseTo(whole.areaMm2 - 2 * (23 * 2 + Math.PI), 9);
  });

  it('is no hole too near its own bend', () => {
    expect(
      runChecks({ flat, material: sheet, shop: shopWith(), isMirrored: false }).map((f) => f.rule),
    ).not.toContain('hole-near-bend');
  });
});

it.each([
  { line: 78, row: { longestMm: 40, landMm: 20, widthMm: 2 }, lengths: [38] },
  // 92 is two lands and one slot of 72: a limit that is just met is met.
  { line: 92, row: { longestMm: 72, landMm: 10, widthMm: 2 }, lengths: [72] },
  { line: 92, row: { longestMm: 71.99, landMm: 10, widthMm: 2 }, lengths: [31, 31] },
])('a line of $line with $row has slots of $lengths', ({ line, row, lengths }) => {
  const flat = flatten(withSlots(angle(60, 40, line, 30, 5, 5), row), K);
  const found = slotsOf(flat, 'A')
    .map((loop) => loopExtents(loop))
    .map((b) => (b?.maxX ?? 0) - (b?.minX ?? 0));
  expect(found).toEqual(lengths.map((l) => expect.closeTo(l, 9)));
});

it('a line too short for one slot stops the part and says what lands would do', () => {
  const tight = flatten(
    withSlots(angle(60, 40, 30, 30, 5, 5), { longestMm: 40, landMm: 14, widthMm: 4 }),
    K,
  );
  expect(tight.findings.map((f) => [f.rule, f.severity])).toEqual([['no-room-for-slots', 'stop']]);
  // (30 - 4) / 2 = 13: lands just below it leave room, 13 do not.
  expect(tight.findings[0]?.message).toContain('make the lands 12.99 mm or less');
  const rulesAt = (landMm: number) =>
    flatten(
      withSlots(angle(60, 40, 30, 30, 5, 5), { longestMm: 40, landMm, widthMm: 4 }),
      K,
    ).findings.map((f) => f.rule);
  expect([rulesAt(13), rulesAt(12.99)]).toEqual([['no-room-for-slots'], []]);
});

it.each(TREES)(
  '$name: every slot lies on its bend line, its lands are whole, either hand',
  ({ part }) => {
    for (const tree of [part, mirrorPart(part)]) {
      const row = { longestMm: 15, landMm: 1, widthMm: 0.4 };
      const flat = flatten(withSlots(tree, row), K);
      const whole = flatten(tree, K);
      for (const bend of flat.bends) {
        const slots = slotsOf(flat, bend.id);
        const long = distance(...bend.centreLine);
        const areas = slots.reduce((s, loop) => s + signedArea(loop), 0);
        const lengthMm =
          slots.length === 0 ? 0 : (long - (slots.length + 1) * row.landMm) / slots.length;
        expect(lengthMm).toBeLessThanOrEqual(row.longestMm + 1e-9);
        expect(areas).toBeCloseTo(slots.length * ((lengthMm - 0.4) * 0.4 + Math.PI * 0.04), 9);
        for (const [i, a] of slots.entries()) {
          for (const b of slots.slice(i + 1))
            expect(loopGap(a, b, 1000)).toBeGreaterThan(row.landMm - 1e-9);
          // Not nearer to the blank's edge than a land, but where a relief reaches in beside the end
          // of the line.
          expect(loopGap(a, flat.outline, 1000)).toBeGreaterThan(0);
        }
      }
      expect(flat.areaMm2).toBeLessThan(whole.areaMm2);
    }
  },
);
