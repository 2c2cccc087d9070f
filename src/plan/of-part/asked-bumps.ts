import { type Bump, bumpOf } from '../../bending/bump.ts';
import { along, sub, type Vec2 } from '../../geometry/vec2.ts';
import type { FlatBend, FlatPattern } from '../../model/flat.ts';
import type { Machine } from '../../model/machine.ts';
import type { Part } from '../../model/part.ts';
import type { WideBends } from '../../model/wide-bends.ts';
import { isFormed } from './is-formed.ts';

/** A bend that was asked for in hits, and the lines of the hits, from its parent on. */
export interface AskedBump {
  readonly bend: FlatBend;
  readonly bump: Bump;
  readonly lines: readonly (readonly [Vec2, Vec2])[];
}

/**
 * The bends of a part whose hits are marked on the blank: those that are to be bumped, and that no
 * machine of the shop makes at one stroke. The other hand's are the mirror image.
 */
export const askedBumps = (
  part: Part,
  flat: FlatPattern,
  machines: readonly Machine[],
  wish: WideBends | undefined,
): AskedBump[] => {
  if (wish?.way !== 'bumped') return [];
  const { thicknessMm } = flat;
  return flat.bends.flatMap((bend) => {
    const fold = part.folds.find(({ id }) => id === bend.id);
    const isNoStroke =
      fold !== undefined &&
      fold.slots === undefined &&
      machines.length > 0 &&
      machines.every((machine) => isFormed(fold, bend, thicknessMm, machine));
    if (!isNoStroke) return [];
    const bump = bumpOf({ ...bend, thicknessMm }, wish);
    return [{ bend, bump, lines: hitLines(bend, bump) }];
  });
};

/** The lines of the hits of a bend in the blank, from its parent on. */
export const hitLines = (
  { parentTangent: [a, b], childTangent: [c, d] }: FlatBend,
  { hits }: Pick<Bump, 'hits'>,
): readonly (readonly [Vec2, Vec2])[] =>
  Array.from({ length: hits }, (_, i) => {
    const share = (i + 0.5) / hits;
    return [along(a, sub(c, a), share), along(b, sub(d, b), share)] as const;
  });
