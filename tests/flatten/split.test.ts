import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { isWeldable, type SeamCut } from '../../src/flatten/seam-cut.ts';
import { splitPart } from '../../src/flatten/split.ts';
import { polygon, rectangle } from '../../src/geometry/loop.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import type { Part } from '../../src/model/part.ts';
import { expectAlike, type Folded, gapBetween, cornersOf } from '../helpers/assembly.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';
import { boxOf } from '../helpers/folded-points.ts';
import { fold, panel, part } from '../helpers/parts.ts';
import { randomPart } from '../helpers/random-part.ts';

const RULE = { id: 'k', k: 0.42 } as const;

const welded = (folds: readonly string[]): readonly SeamCut[] =>
  folds.map((fold) => ({ fold, way: 'weld' }));

const folded = (one: Part): Folded => ({ part: one, flat: flatten(one, RULE) });

/** An open box of 120 x 80 x 30 with a lip on its right side. */
const box = (angleDeg = 90): Part =>
  part(
    [
      panel('base', rectangle(0, 0, 120, 80)),
      panel('front', rectangle(0, 0, 120, 30)),
      panel('right', rectangle(0, 0, 80, 30)),
      panel('back', rectangle(0, 0, 120, 30)),
      panel('left', rectangle(0, 0, 80, 30)),
      panel('lip', rectangle(0, 0, 80, 12)),
    ],
    [
      fold('A', { panel: 'base', edge: 0 }, { panel: 'front', edge: 0 }, angleDeg),
      fold('B', { panel: 'base', edge: 1 }, { panel: 'right', edge: 0 }),
      fold('C', { panel: 'base', edge: 2 }, { panel: 'back', edge: 0 }),
      fold('D', { panel: 'base', edge: 3 }, { panel: 'left', edge: 0 }),
      fold('E', { panel: 'right', edge: 2 }, { panel: 'lip', edge: 0 }),
    ],
    { thicknessMm: 2, cornerGapMm: 0.5 },
  );

const cutAt = (whole: Part, cut: readonly string[], gapMm: number): readonly Part[] => {
  const split = splitPart(whole, RULE, welded(cut), gapMm);
  if (!split.ok) throw new Error(JSON.stringify(split.findings));
  return split.pieces;
};

describe('a part that is welded at some of its folds', () => {
  // Sheet of 2: the edges of base and side end 2 mm inside the mould line and half the gap, taken
  // across the corner: 2 + 0.5 / (2 cos 45) = 2.3536.
  test('worked by hand: a side of a box', () => {
    const pieces = cutAt(box(), ['A'], 0.5);
    expect(pieces.map((p) => p.panels.map(({ id }) => id))).toEqual([
      ['base', 'right', 'back', 'left', 'lip'],
      ['front'],
    ]);
    const front = flatten(pieces[1] as Part, RULE);
    expect(front.heightMm).toBeCloseTo(30 - 2 - 0.35355, 4);
    // Its ends are those of an open corner: 2 + 0.35355 off either end, as of the folded box.
    expect(front.widthMm).toBeCloseTo(120 - 2 * 2.35355, 4);
  });

  test.each([
    [['A'], 90, 0.5],
    [['A', 'C'], 90, 0],
    [['B'], 90, 1.2],
    [['E'], 90, 0.5],
    [['A', 'B', 'C', 'D'], 90, 0.5],
    [['A'], 30, 0.5],
    [['A'], 120, 0.8],
  ] as const)(
    'welded at %j, the first fold at %s degrees: pieces put together are the part',
    (cut, angleDeg, gapMm) => {
      for (const whole of [box(angleDeg), mirrorPart(box(angleDeg))]) {
        const pieces = cutAt(whole, cut, gapMm).map(folded);
        expectAlike(folded(whole), pieces);
        for (const id of cut) {
          const { parent, child } = whole.folds.find((f) => f.id === id) as Part['folds'][number];
          const gap = gapBetween(folded(whole), pieces, [parent.panel, child.panel]);
          expect(gap).toBeCloseTo(gapMm, 6);
        }
      }
    },
  );

  test('outside, the assembly measures what the folded box does', () => {
    const pieces = cutAt(box(), ['A', 'B', 'D'], 0.5).map(folded);
    const { low, high } = boxOf(
      box().panels.flatMap(({ id }) => cornersOf(folded(box()), pieces, id)),
    );
    const size = [0, 1, 2].map((i) => (high[i] ?? 0) - (low[i] ?? 0)) as [number, number, number];
    expect(size[0]).toBeCloseTo(120, 6);
    expect(size[1]).toBeCloseTo(80, 6);
    expect(size[2]).toBeCloseTo(30, 6);
  });

  test('a fold on a stretch of an edge leaves the metal beside it', () => {
    const tab = part(
      [panel('plate', rectangle(0, 0, 100, 60)), panel('tab', rectangle(0, 0, 40, 25))],
      [fold('A', { panel: 'plate', edge: 0, from: 30, to: 70 }, { panel: 'tab', edge: 0 })],
      { thicknessMm: 2 },
    );
    const [plate] = cutAt(tab, ['A'], 0.5);
    const flat = flatten(plate as Part, RULE);
    expect([flat.widthMm, flat.heightMm]).toEqual([100, 60]);
    // A step of 2.3536 mm, as long as the tab and a cut of the narrowest slot at either end.
    expect(6000 - flat.areaMm2).toBeCloseTo(2.35355 * (40 + 2 * 1.5), 3);
  });

  test('a hem is no seam', () => {
    const hem = part(
      [panel('plate', rectangle(0, 0, 100, 60)), panel('hem', rectangle(0, 0, 100, 12))],
      [fold('A', { panel: 'plate', edge: 2 }, { panel: 'hem', edge: 0 }, 180)],
    );
    const split = splitPart(hem, RULE, welded(['A']), 0.5);
    expect(split.ok ? [] : split.findings.map(({ rule }) => rule)).toEqual(['no-weld-seam']);
  });

  test('what the seam leaves nothing of is refused', () => {
    const narrow = part(
      [
        panel('plate', polygon([0, 0], [100, 0], [100, 60], [0, 60])),
        panel('strip', rectangle(0, 0, 100, 2)),
      ],
      [fold('A', { panel: 'plate', edge: 2 }, { panel: 'strip', edge: 0 }, 90, 'up', 0)],
      { thicknessMm: 2 },
    );
    const split = splitPart(narrow, RULE, welded(['A']), 0.5);
    expect(split.ok).toBe(false);
  });

  test('random parts, cut at random folds: the panels stand as on the whole', () => {
    let looked = 0;
    fc.assert(
      fc.property(
        randomPart(fc.constantFrom(90, 90, 45, 110, 20.5)),
        fc.array(fc.nat(11), { minLength: 1, maxLength: 3 }),
        fc.constantFrom(0, 0.5, 1.3),
        (whole, at, gapMm) => {
          const folds = whole.folds.filter(isWeldable);
          const cut = [...new Set(at.map((i) => folds[i % Math.max(1, folds.length)]?.id ?? ''))];
          if (folds.length === 0 || flatten(whole, RULE).outline.length === 0) return;
          const split = splitPart(whole, RULE, welded(cut), gapMm);
          if (!split.ok) return;
          expect(split.pieces).toHaveLength(cut.length + 1);
          const pieces = split.pieces.map(folded);
          if (pieces.some(({ flat }) => flat.outline.length === 0)) return;
          looked += 1;
          expectAlike(folded(whole), pieces);
        },
      ),
      { numRuns: fuzzRuns(300) },
    );
    expect(looked).toBeGreaterThan(shareOf(60));
  });
});
