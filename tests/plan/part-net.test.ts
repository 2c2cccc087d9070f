import { describe, expect, it } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { AT_HOME, composePoses, invertPose, type Pose } from '../../src/geometry/pose.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import { partNet } from '../../src/plan/of-part/part-net.ts';
import type { FlatBend } from '../../src/model/flat.ts';
import type { Fold, Part } from '../../src/model/part.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import { fold, panel, part } from '../helpers/parts.ts';
import { TREES } from '../helpers/trees.ts';

const HALF_TURN: Pose = { o: [0, 0, 0], x: [-1, 0, 0], y: [0, 1, 0], z: [0, 0, -1] };

const shifted = (pose: Pose, x: number): Pose => composePoses(pose, { ...AT_HOME, o: [x, 0, 0] });
const turnedBy = (deg: number): Pose => {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return { o: [0, 0, 0], x: [c, s, 0], y: [-s, c, 0], z: [0, 0, 1] };
};

const near = ({ o, x, y, z }: Pose) => [o, x, y, z].map((v) => v.map((n) => expect.closeTo(n, 6)));
const rows = ({ o, x, y, z }: Pose) => [o, x, y, z];

describe.each(TREES)('$name', ({ part: tree }) => {
  it('turns every fold about its frames into the finished part, in either hand; flat they are a deduction apart', () => {
    for (const hand of [tree, mirrorPart(tree)]) {
      const blank = flatten(hand, { id: 'k', k: 0.42 });
      const { net } = partNet(hand, blank);
      expect(net.folds.map((f) => f.id)).toEqual(hand.folds.map((f) => f.id));
      for (const { id, frames, flat, lengthMm, angleDeg, folded } of net.folds) {
        expect(lengthMm).toBeGreaterThan(0);
        const {
          allowanceMm,
          insideRadiusMm,
          angleDeg: finishedDeg,
        } = blank.bends.find((b) => b.id === id) as FlatBend;
        const apart =
          2 *
            (insideRadiusMm + hand.thicknessMm) *
            Math.tan((Math.min(angleDeg, 150) * Math.PI) / 360) -
          allowanceMm;
        expect(
          rows(
            composePoses(
              composePoses(shifted(frames[0], -apart), HALF_TURN),
              invertPose(frames[1]),
            ),
          ),
        ).toEqual(near(flat));
        if (finishedDeg <= 150)
          expect(
            rows(
              composePoses(
                composePoses(composePoses(frames[0], turnedBy(angleDeg)), HALF_TURN),
                invertPose(frames[1]),
              ),
            ),
          ).toEqual(near(folded));
        // The child is turned by the bend angle against how it lies flat.
        const turn = composePoses(folded, invertPose(flat));
        const trace = turn.x[0] + turn.y[1] + turn.z[2];
        expect(trace).toBeCloseTo(1 + 2 * Math.cos((finishedDeg * Math.PI) / 180), 6);
      }
    }
  });

  it('has panels of the sheet, less the gap on every side of their own pieces', () => {
    const flat = flatten(tree, { id: 'k', k: 0.42 });
    const { net } = partNet(tree, flat);
    expect(net.panels.map((p) => p.areaMm2)).toEqual(flat.panels.map((p) => p.areaMm2));
    for (const { solids, lessGap } of net.panels) {
      expect(lessGap.length).toBeLessThanOrEqual(solids.length);
      const heights = solids.flatMap((s) => s.corners.map((c) => c[2]));
      expect([Math.min(...heights), Math.max(...heights)]).toEqual([0, tree.thicknessMm]);
    }
  });
});

it('panels joined by slotted folds and by folds of no angle are one, and hems are swung to 120 degrees', () => {
  const chain = (rest: readonly Partial<Fold>[]): Part =>
    part(
      rest
        .map((_, i) => panel(`leg ${i}`, rectangle(0, 0, 50, 40)))
        .concat(panel('last', rectangle(0, 0, 50, 30))),
      rest.map((own, i) => ({
        ...fold(
          `F${i}`,
          { panel: `leg ${i}`, edge: 2 },
          { panel: i + 1 === rest.length ? 'last' : `leg ${i + 1}`, edge: 0 },
          90,
          'up',
          2,
        ),
        ...own,
      })),
      { thicknessMm: 2 },
    );
  const row = { longestMm: 20, landMm: 4, widthMm: 2 };
  const slotted = chain([{}, { slots: row }, { angleDeg: 180 }, { angleDeg: 0 }]);
  const flat = flatten(slotted, { id: 'k', k: 0.42 });
  const { net, byHand } = partNet(slotted, flat, { mostDeg: 135 });
  expect(byHand.map((f) => f.id)).toEqual(['F1']);
  expect(net.panels.map((p) => [p.id, p.solids.length])).toEqual([
    ['leg 0', 1],
    ['leg 1', 2],
    ['leg 3', 2],
  ]);
  expect(net.folds.map((f) => [f.id, f.panels, f.angleDeg])).toEqual([
    ['F0', [0, 1], 90],
    ['F2', [1, 2], 120],
  ]);
  // The last fold hangs on leg 2, which lies in the frame of leg 1: one leg of 32, and two whole
  // allowances, further up.
  const [, hem] = net.folds;
  const allowance = flat.bends[1]?.allowanceMm ?? 0;
  expect(hem?.flat.o[1]).toBeCloseTo(
    36 + allowance + 40 - 4 - 4 + (flat.bends[2]?.allowanceMm ?? 0) - 4,
    6,
  );
});
