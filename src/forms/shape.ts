import { shown } from './given.ts';

/**
 * A place inside a value that is not what it should be: its path, what stands there, and what
 * should.
 */
export interface ShapeFlaw {
  /** The place: `panels[0].outline[2].x`; empty for the value itself. */
  readonly at: string;
  readonly given: string;
  /** What it should be, worded to complete "allowed: ...". */
  readonly wanted: string;
}

/**
 * Checks a value of which only a type says what it is, since JavaScript may give anything. Returns
 * everything that is wrong with it.
 */
export type Shape = (value: unknown, at: string) => ShapeFlaw[];

const is =
  (isOne: (value: unknown) => boolean, wanted: string): Shape =>
  (value, at) =>
    isOne(value)
      ? []
      : [
          {
            at,
            given:
              value === undefined
                ? 'nothing'
                : typeof value === 'function'
                  ? 'a function'
                  : shown(value),
            wanted,
          },
        ];

/** NaN and infinity count as numbers here; checks of their size refuse them. */
export const number: Shape = is((value) => typeof value === 'number', 'a number');

export const text: Shape = is((value) => typeof value === 'string', 'a text');

/** A text of letters. */
export const name = (wanted: string): Shape =>
  is((value) => typeof value === 'string' && value.trim() !== '', wanted);

export const oneOf = (...words: readonly string[]): Shape =>
  is((value) => typeof value === 'string' && words.includes(value), `one of ${words.join(', ')}`);

/** A function; `wanted` says which arguments and result it has. */
export const fun = (wanted: string): Shape => is((value) => typeof value === 'function', wanted);

/** One thing or another; `wanted` completes "allowed: ..." of both. */
export const either =
  (one: Shape, other: Shape, wanted: string): Shape =>
  (value, at) =>
    one(value, at).length === 0 || other(value, at).length === 0
      ? []
      : is(() => false, wanted)(value, at);

/** The same shape for a value that may be left out. */
export const optional =
  (shape: Shape): Shape =>
  (value, at) =>
    value === undefined ? [] : shape(value, at);

/** A list of things; `what` names them in the plural. */
export const list =
  (item: Shape, what: string): Shape =>
  (value, at) =>
    Array.isArray(value)
      ? value.flatMap((each: unknown, i) => item(each, `${at}[${i}]`))
      : is(Array.isArray, `a list of ${what}`)(value, at);

/** A list of an exact number of things; `what` names them. */
export const fixed =
  (item: Shape, count: number, what: string): Shape =>
  (value, at) =>
    Array.isArray(value) && value.length === count
      ? list(item, what)(value, at)
      : is(() => false, `a list of ${what}`)(value, at);

/** Two numbers. */
export const pair: Shape = is(
  (value) =>
    Array.isArray(value) && value.length === 2 && value.every((each) => typeof each === 'number'),
  'a list of two numbers, x and y',
);

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** An object with these names; it may have others. `what` completes "allowed: ...". */
export const object =
  (names: Readonly<Record<string, Shape>>, what: string): Shape =>
  (value, at) =>
    isObject(value)
      ? Object.entries(names).flatMap(([key, shape]) =>
          shape(value[key], at === '' ? key : `${at}.${key}`),
        )
      : is(isObject, what)(value, at);

/** An object whose shape depends on one of its names. */
export const byKind =
  (kinds: Readonly<Record<string, Shape>>, what: string): Shape =>
  (value, at) => {
    const kind = isObject(value) ? value['kind'] : undefined;
    const shape = typeof kind === 'string' && Object.hasOwn(kinds, kind) ? kinds[kind] : undefined;
    return shape === undefined
      ? object({ kind: oneOf(...Object.keys(kinds)) }, what)(value, at)
      : shape(value, at);
  };
