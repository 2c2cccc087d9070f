import type { Move } from '../search/cheapest.ts';
import type { PlanAnswer } from '../search/plan.ts';
import { whyNot } from '../search/reasons.ts';
import { foldIdsOf } from '../machines/net.ts';
import type { Stroke } from '../search/stroke.ts';
import type { Blocked } from '../../contract/fold-plan.ts';
import { namesOf } from './plan-steps.ts';

/** A stroke that cannot be made from a state, and the way the part is held. */
export interface BlockedStroke {
  readonly move: Move;
  /** The folds made, as bits. */
  readonly made: number;
  readonly blocked: Blocked;
}

/**
 * The strokes that cannot be made, furthest on first. Of the two ways of holding the part, each is
 * given in the one in which it gets further.
 */
export function blockedStrokes({ lattice, deadEnds }: PlanAnswer): BlockedStroke[] {
  const { net, strokes } = lattice;
  const told = new Set<number>();
  return deadEnds.ends
    .toSorted((a, b) => bits(b.made) - bits(a.made))
    .flatMap(({ made, stroke }): BlockedStroke[] => {
      if (told.has(stroke)) return [];
      told.add(stroke);
      const reasons = ([0, 1] as const).flatMap((placement) => {
        const reason = whyNot(net, strokes[stroke] as Stroke, made, placement);
        return reason === undefined ? [] : [{ placement, reason }];
      });
      const [furthest] = reasons.toSorted(
        (a, b) => (b.reason.atDeg ?? -1) - (a.reason.atDeg ?? -1),
      );
      if (furthest === undefined) return [];
      const { text, touches, atDeg } = furthest.reason;
      const after = net.folds.filter((_, f) => (made & (1 << f)) !== 0).flatMap(foldIdsOf);
      return [
        {
          move: { stroke, placement: furthest.placement },
          made,
          blocked: {
            bend: namesOf(lattice, stroke).join(' + '),
            after,
            reason: text,
            touches,
            atDeg,
            suggestion: null,
          },
        },
      ];
    });
}

const bits = (n: number): number => (n === 0 ? 0 : (n & 1) + bits(n >>> 1));
