import { describe, expect, it } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { foldUp } from '../../src/fold/fold-up.ts';
import { foldedSizeMm } from '../../src/fold/size.ts';
import { polygon } from '../../src/geometry/loop.ts';
import { perimeter, signedArea } from '../../src/geometry/measure.ts';
import { posePoint } from '../../src/geometry/pose.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import type { Direction, Fold, Part } from '../../src/model/part.ts';
import { reroot } from '../../src/model/reroot.ts';
import { expectFoldsBack } from '../helpers/fold-back.ts';
import { toFlatten } from '../helpers/flatten-js.ts';
import { fold, panel, part } from '../helpers/parts.ts';

const K = { id: 'k', k: 0.42 } as const;

const onMiddle = (f: Fold): Fold => ({ ...f, midSurface: true });

/** Four triangles of 100 x 100 x 60 round one point, folded one on the next. */
const fan = (turns: readonly (readonly [number, Direction])[]): Part => {
  const triangle = polygon([0, 0], [60, 0], [30, Math.sqrt(9100)]);
  return part(
    [0, ...turns].map((_, i) => panel(`facet ${i}`, triangle)),
    turns.map(([angle, direction], i) =>
      onMiddle(
        fold(
          `F${i}`,
          { panel: `facet ${i}`, edge: 1 },
          { panel: `facet ${i + 1}`, edge: 2 },
          angle,
          direction,
        ),
      ),
    ),
  );
};

const PARTS = [
  {
    name: 'all up',
    tree: fan([
      [20, 'up'],
      [35, 'up'],
      [10, 'up'],
    ]),
  },
  {
    name: 'up, down, up',
    tree: fan([
      [20, 'up'],
      [90, 'down'],
      [1, 'up'],
    ]),
  },
];

describe.each(PARTS)('folds on the middle of the sheet: $name', ({ tree }) => {
  const flat = flatten(tree, K);

  it('panels lie side by side, untouched by relief, trim or allowance', () => {
    expect(flat.findings).toEqual([]);
    // A fan of four: the point they share, and five corners round it. Its area is theirs.
    expect(flat.outline).toHaveLength(6);
    expect(toFlatten(flat.outline).isValid()).toBe(true);
    expect(flat.areaMm2).toBeCloseTo(4 * 30 * Math.sqrt(9100), 6);
    expect(perimeter(flat.outline)).toBeCloseTo(4 * 60 + 2 * 100, 6);
    expect(
      flat.bends.map((b) => [b.allowanceMm, b.setbackMm, b.deductionMm, b.kFactor, b.rule]),
    ).toEqual(flat.bends.map(() => [0, 0, 0, 0.5, 'k:0.5']));
  });

  it('fold back by other means, with the shared point in one place on the middle of every panel', () => {
    for (const p of [tree, mirrorPart(tree)]) {
      const blank = flatten(p, K);
      expectFoldsBack(p, blank);
      const { poses } = foldUp(p, blank);
      const apexes = p.panels.map(({ id, outline }) => {
        const apex = outline.find((v) => v.y > 90);
        const pose = poses.get(id);
        return apex === undefined || pose === undefined
          ? []
          : posePoint(pose, [apex.x, apex.y, p.thicknessMm / 2]);
      });
      for (const apex of apexes)
        expect(apex).toEqual((apexes[0] ?? []).map((v) => expect.closeTo(v, 9)));
    }
  });

  it('half way they have turned half their angle about the same lines', () => {
    const { poses } = foldUp(tree, flat, () => 0.5);
    const halved = { ...tree, folds: tree.folds.map((f) => ({ ...f, angleDeg: f.angleDeg / 2 })) };
    for (const [id, pose] of foldUp(halved, flatten(halved, K)).poses) {
      const other = poses.get(id);
      for (const axis of ['o', 'x', 'y', 'z'] as const)
        expect(other?.[axis]).toEqual(pose[axis].map((v) => expect.closeTo(v, 9)));
    }
  });

  it('do not depend on where the tree begins, nor on the hand', () => {
    for (const { id } of tree.panels) {
      const other = flatten(reroot(tree, id), K);
      expect(other.findings).toEqual([]);
      expect(signedArea(other.outline)).toBeCloseTo(signedArea(flat.outline), 6);
      expect(perimeter(other.outline)).toBeCloseTo(perimeter(flat.outline), 6);
    }
    expect([...foldedSizeMm(mirrorPart(tree), flatten(mirrorPart(tree), K))]).toEqual(
      foldedSizeMm(tree, flat).map((v) => expect.closeTo(v, 6)),
    );
  });
});
