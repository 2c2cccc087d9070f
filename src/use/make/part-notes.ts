import { type CautionId, cautionRule, cautionsFor, cautionText } from '../../data/cautions.ts';
import type { CommonValues } from '../../forms/common.ts';
import { type Finding, note } from '../../model/finding.ts';
import { apartNotes } from './hands-apart.ts';
import type { TakenOptions } from './make-options.ts';

const OTHER_HAND =
  'The blank of the other hand is the same cut turned over. Keep the hands apart where one face is marked, brushed ' +
  'or countersunk; otherwise one cut file serves both.';

/**
 * Remarks that every part gets besides its findings; cautions in the order of the work. Whether its
 * blank serves the other hand too is asked of a part alone: a tube has none.
 */
export function partNotes(
  {
    values,
    cautions,
    options,
  }: {
    readonly values: Pick<CommonValues, 'hand' | 'material'>;
    readonly cautions: readonly CautionId[];
    readonly options: Pick<TakenOptions, 'apart'>;
  },
  isFolded: boolean,
  hasOtherHand: boolean,
): Finding[] {
  return [
    ...(hasOtherHand ? [note('other-hand', OTHER_HAND)] : []),
    ...apartNotes(options.apart, hasOtherHand),
    ...cautionsFor(cautions, values.material, isFolded).map((id) =>
      note(cautionRule(id), cautionText(id)),
    ),
  ];
}
