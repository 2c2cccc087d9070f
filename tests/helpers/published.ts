import { readFileSync } from 'node:fs';

/**
 * A check with values from outside the project; `source` names entries of the same file's
 * `sources`.
 */
export interface PublishedCheck {
  readonly id: string;
  readonly given: Readonly<Record<string, unknown>>;
  readonly expect: Readonly<Record<string, unknown>>;
  readonly tolerance: number;
  readonly source: readonly string[];
}

/** A whole file of tests/published, from the top of the project: the bench is bundled elsewhere. */
export const publishedFile = <T>(file: string): T =>
  JSON.parse(readFileSync(`tests/published/${file}.json`, 'utf8')) as T;

/** The check with this id from a file of tests/published. */
export const published = (file: string, id: string): PublishedCheck => {
  const { checks } = publishedFile<{ readonly checks: readonly PublishedCheck[] }>(file);
  const check = checks.find((c) => c.id === id);
  if (check === undefined) throw new Error(`${file}.json has no check ${id}`);
  return check;
};
