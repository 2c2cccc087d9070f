import { type CautionId, cautionRule, cautionsFor, cautionText } from '../../data/cautions.ts';
import type { CommonValues } from '../../forms/common.ts';
import { type Finding, note } from '../../model/finding.ts';

const OTHER_HAND =
  'The blank of the other hand is the same cut turned over. Keep the hands apart where one face is marked, brushed ' +
  'or countersunk; otherwise one cut file serves both.';

/**
 * Remarks that every part gets besides its findings; cautions in the order of the work. A tube is not
 * cut of a blank that serves both hands.
 */
export function partNotes(
  {
    values,
    cautions,
  }: {
    readonly values: Pick<CommonValues, 'hand' | 'material'>;
    readonly cautions: readonly CautionId[];
  },
  isFolded: boolean,
  isCut = true,
): Finding[] {
  return [
    ...(values.hand === 'left' || !isCut ? [] : [note('other-hand', OTHER_HAND)]),
    ...cautionsFor(cautions, values.material, isFolded).map((id) =>
      note(cautionRule(id), cautionText(id)),
    ),
  ];
}
