import { describe, expect, it } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { bendMark } from '../../src/plan/of-part/bend-mark.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import type { FlatBend, FlatPattern } from '../../src/model/flat.ts';
import { angle, fold, panel, part } from '../helpers/parts.ts';
import { TREES } from '../helpers/trees.ts';

const K = { id: 'k', k: 0.42 } as const;
const NONE = new Set<string>();
const bendOf = (flat: FlatPattern, id: string): FlatBend =>
  flat.bends.find((b) => b.id === id) as FlatBend;

describe('a flange of 30 on a body, t 1.5, R 1.5, K 0.42 (a case worked with the published rules)', () => {
  const flat = flatten(angle(80, 30, 100, 90, 1.5, 1.5), K);
  const bend = bendOf(flat, 'A');

  it.each([
    ['leg A', { kind: 'nose', radiusMm: 1.5 }, 28.846, 'the free edge of leg B'],
    ['leg A', { kind: 'nose', radiusMm: 0 }, 30.346, 'the free edge of leg B'],
    ['leg A', { kind: 'v' }, 28.673, 'the free edge of leg B'],
    // The flange held: 27 of flat and one nose radius from its edge, 80 - 2.654 + 30 - 28.5 from
    // the far edge of the body.
    ['leg B', { kind: 'nose', radiusMm: 1.5 }, 107.346 - 28.5, 'the free edge of leg A'],
  ] as const)('%s held, %j', (held, tool, distanceMm, from) => {
    for (const hand of [flat, flatten(mirrorPart(angle(80, 30, 100, 90, 1.5, 1.5)), K)]) {
      const mark = bendMark(hand, bendOf(hand, 'A'), held, NONE, tool);
      expect([mark.distanceMm, mark.from]).toEqual([expect.closeTo(distanceMm, 3), from]);
    }
    expect(bend.allowanceMm).toBeCloseTo(3.346, 3);
  });
});

it('once the flanges beside it stand, the mark is measured from the outside of one', () => {
  // A channel 40 - 60 - 40 whose web has no free edge beside its folds.
  const channel = part(
    [
      panel('web', rectangle(0, 0, 90, 60)),
      panel('a', rectangle(0, 0, 90, 40)),
      panel('b', rectangle(0, 0, 90, 40)),
      panel('lip', rectangle(0, 0, 90, 15)),
    ],
    [
      fold('A', { panel: 'web', edge: 0 }, { panel: 'a', edge: 0 }, 90, 'up', 2),
      fold('B', { panel: 'web', edge: 2 }, { panel: 'b', edge: 0 }, 90, 'up', 2),
      fold('L', { panel: 'b', edge: 2 }, { panel: 'lip', edge: 0 }, 90, 'up', 2),
    ],
    { thicknessMm: 2 },
  );
  const flat = flatten(channel, K);
  const v = { kind: 'v' } as const;
  const of = (made: string[]) => bendMark(flat, bendOf(flat, 'B'), 'web', new Set(made), v);
  // Allowance pi/2 (2 + 0.84) = 4.461; from B's middle: half of it, b's flat 40 - 8 = 32, a whole
  // one, the lip's 11.
  expect(of([])).toMatchObject({
    from: 'the free edge of lip',
    distanceMm: expect.closeTo(1.5 * 4.461 + 32 + 11, 3) as number,
  });
  // The lip stands: from its outside face, 36 + half an allowance.
  expect(of(['L'])).toMatchObject({
    from: 'the outside of fold L',
    distanceMm: expect.closeTo(4.461 / 2 + 36, 3) as number,
  });
  expect(of(['A', 'L'])).toMatchObject({ from: 'the outside of fold L' });
});

it.each(TREES)(
  '$name: every mark lies in its bend or a nose radius from it, whichever side is held',
  ({ part: tree }) => {
    const flat = flatten(tree, K);
    for (const bend of flat.bends) {
      for (const held of [bend.parent, bend.child]) {
        for (const radiusMm of [0, bend.insideRadiusMm, 100]) {
          const { at, distanceMm } = bendMark(flat, bend, held, NONE, { kind: 'nose', radiusMm });
          const [p, q] = held === bend.parent ? bend.parentTangent : bend.childTangent;
          const length = Math.hypot(q[0] - p[0], q[1] - p[1]);
          const off =
            Math.abs((q[0] - p[0]) * (at[1] - p[1]) - (q[1] - p[1]) * (at[0] - p[0])) / length;
          expect(off).toBeCloseTo(Math.min(radiusMm, bend.insideRadiusMm), 6);
          expect(distanceMm ?? 1).toBeGreaterThan(0);
        }
      }
    }
  },
);
