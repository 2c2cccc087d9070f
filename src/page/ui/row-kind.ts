import type { RowKind } from '../model/entries.ts';
import type { FieldAnswer } from '../core/questions.ts';

/** The kind of rows that an input holds; `undefined` for one that holds no list, or one of another kind. */
export const rowKindOf = ({
  kind,
  list,
}: FieldAnswer): Exclude<RowKind, 'distances'> | undefined => {
  if (kind === 'holes') return 'holes';
  if (list?.one === 'flange') return 'flanges';
  return list?.under === 'points' ? 'points' : undefined;
};
