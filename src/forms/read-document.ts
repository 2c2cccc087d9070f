import { nearest } from '../text/nearest.ts';
import type { Flaw, Reader } from './field.ts';
import { shown } from './given.ts';
import type { InputProblem } from './problem.ts';
import { valueAt, written } from './value-path.ts';
import { parseYaml, type ValuePath } from './yaml.ts';

/** How messages speak of a document as a whole. */
export interface DocumentWords {
  /** Its name among inputs: `shop`. */
  readonly input: string;
  /** What it may be, as it completes "allowed: ...". */
  readonly allowed: string;
  /** Hint where to find a document that works. */
  readonly look: string;
}

/** Problems state the place of the value in the text: `line 3, column 5`. */
export type ReadDocument<T> =
  | {
      readonly ok: true;
      readonly value: T;
      readonly placeOf: (path: ValuePath, what: 'value' | 'name') => string;
    }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

/**
 * Reads a YAML or JSON text by a reader made of `sections.ts`. Every problem is told at once,
 * each under the path of its value (`cutters[0].kerf[2].thickness`), with what was given and on
 * which line. Never throws for any text.
 */
export function readDocument<T>(
  text: string,
  reader: Reader<T>,
  words: DocumentWords,
): ReadDocument<T> {
  const yaml = parseYaml(text);
  const whole = (given: string, mend: string): ReadDocument<T> => ({
    ok: false,
    problems: [{ input: words.input, given, allowed: words.allowed, mend }],
  });
  if (!yaml.ok) return whole(yaml.given, yaml.mend ?? words.look);
  const { value, placeOf } = yaml;
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return whole(
      value === null ? 'nothing' : Array.isArray(value) ? 'a list' : 'a single value',
      words.look,
    );
  const read = reader.read(value);
  if (read.ok) return { ok: true, value: read.value, placeOf };
  const problems = read.flaws.map((flaw) => toldOf(flaw, { value, placeOf, top: words.input }));
  // A misspelt name is also a missing one, but that is a single mistake.
  const misspelt = new Set(problems.flatMap(({ meant }) => meant ?? []));
  return {
    ok: false,
    problems: problems
      .filter(({ problem, isMissing }) => !(isMissing === true && misspelt.has(problem.input)))
      .map(({ problem }) => problem),
  };
}

interface Whole {
  readonly value: unknown;
  readonly placeOf: (path: ValuePath, what: 'value' | 'name') => string;
  readonly top: string;
}

interface Told {
  readonly problem: InputProblem;
  readonly isMissing?: boolean;
  /** The path that an unknown name was most likely meant for. */
  readonly meant?: string;
}

function toldOf(flaw: Flaw, whole: Whole): Told {
  const { path, allowed, known } = flaw;
  if (known !== undefined) return unknownName(path, allowed, known, whole);
  const value = valueAt(whole.value, path);
  const place = whole.placeOf(path, 'value');
  const given =
    value === undefined
      ? `nothing in what begins at ${place}`
      : `${flaw.given ?? shown(value)} at ${place}`;
  const mend = flaw.mend ?? (value === undefined ? `add ${String(path.at(-1))}` : undefined);
  return {
    problem: {
      input: written(path, whole.top),
      given,
      allowed,
      ...(mend !== undefined && { mend }),
    },
    isMissing: value === undefined,
  };
}

function unknownName(
  path: ValuePath,
  allowed: string,
  known: readonly string[],
  whole: Whole,
): Told {
  const meant = nearest(String(path.at(-1)), known);
  const problem = {
    input: written(path, whole.top),
    given: `${shown(valueAt(whole.value, path))} under a name that is not known, at ${whole.placeOf(path, 'name')}`,
    allowed,
    mend: meant === undefined ? 'leave it out' : `did you mean ${meant}?`,
  };
  return meant === undefined
    ? { problem }
    : { problem, meant: written([...path.slice(0, -1), meant], whole.top) };
}
