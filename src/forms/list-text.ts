import { TEXT } from './accepts.ts';
import {
  type Field,
  type FieldFacts,
  type FieldReading,
  makeField,
  optionalField,
  type Said,
  saidOf,
} from './field.ts';

/** What is said of a list that is written as one text, and what it is where it is left out. */
export type ListSaid = Said & { readonly otherwise: string };

/** A list that is written as one text, entry behind entry; `undefined` where it is left out. */
export const optionalListText = <T>(
  { otherwise, ...said }: ListSaid,
  facts: Pick<FieldFacts, 'list' | 'allowed' | 'example'>,
  read: (given: string) => FieldReading<T>,
): Field<T | undefined> =>
  optionalField(makeField({ kind: 'text', ...saidOf(said), ...facts }, TEXT, read), otherwise);
