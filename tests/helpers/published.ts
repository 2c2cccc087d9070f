import { readFileSync } from 'node:fs';

/** A check with values from outside the project; `source` names entries of the same file's `sources`. */
export interface PublishedCheck {
  readonly id: string;
  readonly given: Readonly<Record<string, unknown>>;
  readonly expect: Readonly<Record<string, unknown>>;
  readonly tolerance: number;
  readonly source: readonly string[];
}

/** The check with this id from a file of tests/published. */
export const published = (file: string, id: string): PublishedCheck => {
  const text = readFileSync(new URL(`../published/${file}.json`, import.meta.url), 'utf8');
  const { checks } = JSON.parse(text) as { readonly checks: readonly PublishedCheck[] };
  const check = checks.find((c) => c.id === id);
  if (check === undefined) throw new Error(`${file}.json has no check ${id}`);
  return check;
};
