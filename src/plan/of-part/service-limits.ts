import { lacks } from '../../model/measured.ts';
import { HEM_DEG } from '../../bending/hem.ts';
import { leastLegMm, usualOpeningMm } from '../../bending/v-die.ts';
import { atLeast, figure } from '../../text/figures.ts';
import { moveLoop } from '../../geometry/motion2.ts';
import { dot, leftOf, middle, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import { type Finding, warn } from '../../model/finding.ts';
import type { FlatBend, FlatPanel, FlatPattern } from '../../model/flat.ts';

/**
 * What limits a part that goes out to be folded, on any press brake: a leg must reach over the
 * shoulder of the V that sheet of its thickness is usually bent in.
 */
export const serviceFindings = (flat: FlatPattern): Finding[] =>
  flat.bends.flatMap((bend) =>
    [bend.parent, bend.child].flatMap((panel) => {
      const least = leastLegMm(usualOpeningMm(flat.thicknessMm), bend.angleDeg);
      const has = reachMm(flat, bend, panel);
      // Hems are closed in other tools, and bows are bent about a former.
      if (bend.angleDeg >= HEM_DEG || bend.midSurface === true || has >= least) return [];
      return [
        {
          ...warn(
            'leg-short-for-brake',
            `${panel} reaches ${figure(has)} mm from the middle of bend ${bend.id}; the V usual for ${figure(flat.thicknessMm)} mm sheet wants ${atLeast(least)}. Make it ${atLeast(least - has)} mm longer, or ask the service.`,
          ),
          panel,
          at: middle(...bend.centreLine),
          ...lacks(has, least),
        },
      ];
    }),
  );

/** How far a panel reaches from the middle of a bend, square to it. */
const reachMm = (flat: FlatPattern, bend: FlatBend, id: string): number => {
  const { placement, region } = flat.panels.find((p) => p.id === id) as FlatPanel;
  const across = leftOf(unit(sub(bend.centreLine[1], bend.centreLine[0])));
  const centre = middle(...bend.centreLine);
  return Math.max(
    ...moveLoop(placement, region).map(({ x, y }) =>
      Math.abs(dot(sub([x, y] as Vec2, centre), across)),
    ),
  );
};
