import { along, distance, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { FoldPlan } from '../../contract/fold-plan.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { PictureItem } from '../../model/picture.ts';
import { hitLines } from '../../plan/of-part/asked-bumps.ts';
import { NARROW } from './line-types.ts';

/** Length of a tick on paper, mm; shorter than where names begin inside the outline. */
const TICK_MM = 1.8;

/** Ticks on a drawn blank at both ends of the lines by which its bends are bumped. */
export const hitTicks = (
  { bends }: FlatPattern,
  plan: FoldPlan | null,
  at: (p: Vec2) => Vec2,
): PictureItem[] =>
  (plan?.steps ?? []).flatMap(({ bend: id, bump }) => {
    const bend = bends.find((b) => b.id === id);
    if (bump === undefined || bend === undefined) return [];
    return hitLines(bend, bump).flatMap(([a, b]) =>
      [
        [at(a), at(b)],
        [at(b), at(a)],
      ].map((ends) => tick(...(ends as [Vec2, Vec2]))),
    );
  });

const tick = (from: Vec2, other: Vec2): PictureItem => ({
  kind: 'curve',
  pieces: [
    {
      from,
      to: along(from, unit(sub(other, from)), Math.min(TICK_MM, distance(from, other) / 4)),
      bulge: 0,
    },
  ],
  stroke: NARROW,
});
