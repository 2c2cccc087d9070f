import { describe, expect, it } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { composePoses, invertPose, type Pose } from '../../src/geometry/pose.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import { partNet } from '../../src/plan/part-net.ts';
import { TREES } from '../helpers/trees.ts';

const HALF_TURN: Pose = { o: [0, 0, 0], x: [-1, 0, 0], y: [0, 1, 0], z: [0, 0, -1] };

const near = ({ o, x, y, z }: Pose) => [o, x, y, z].map((v) => v.map((n) => expect.closeTo(n, 6)));
const rows = ({ o, x, y, z }: Pose) => [o, x, y, z];

describe.each(TREES)('$name', ({ part }) => {
  it('lies flat with the frames of every fold on each other but for half a turn, in either hand', () => {
    for (const hand of [part, mirrorPart(part)]) {
      const net = partNet(hand, flatten(hand, { id: 'k', k: 0.42 }));
      expect(net.folds.map((f) => f.id)).toEqual(hand.folds.map((f) => f.id));
      for (const { frames, flat, lengthMm, angleDeg, folded } of net.folds) {
        expect(lengthMm).toBeGreaterThan(0);
        expect(rows(composePoses(composePoses(frames[0], HALF_TURN), invertPose(frames[1])))).toEqual(near(flat));
        // The child is turned by the bend angle against how it lies flat.
        const turn = composePoses(folded, invertPose(flat));
        const trace = turn.x[0] + turn.y[1] + turn.z[2];
        expect(trace).toBeCloseTo(1 + 2 * Math.cos((angleDeg * Math.PI) / 180), 6);
      }
    }
  });

  it('has panels of the sheet, less the gap on every side of their own pieces', () => {
    const flat = flatten(part, { id: 'k', k: 0.42 });
    const net = partNet(part, flat);
    expect(net.panels.map((p) => p.areaMm2)).toEqual(flat.panels.map((p) => p.areaMm2));
    for (const { solids, lessGap } of net.panels) {
      expect(lessGap.length).toBeLessThanOrEqual(solids.length);
      const heights = solids.flatMap((s) => s.corners.map((c) => c[2]));
      expect([Math.min(...heights), Math.max(...heights)]).toEqual([0, part.thicknessMm]);
    }
  });
});
