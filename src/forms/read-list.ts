import type { ReadList } from '../contract/read-list.ts';
import type { FieldFacts } from './field.ts';

/**
 * The number of entries in an input that holds several; `undefined` for one that holds none, or was
 * not given.
 */
export function readListOf(
  input: string,
  { list }: FieldFacts,
  given: unknown,
  value: unknown,
): ReadList | undefined {
  if (list === undefined || given === undefined) return undefined;
  const items: unknown =
    list.under === undefined
      ? value
      : (value as Readonly<Record<string, unknown>> | undefined)?.[list.under];
  if (!Array.isArray(items) || items.length === 0) return undefined;
  return {
    input,
    count: items.length,
    what: items.length === 1 ? list.one : list.many,
    endsOpen: typeof given === 'string' && /;\s*$/.test(given),
  };
}
