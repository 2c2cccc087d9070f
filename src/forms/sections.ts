import type { Json } from './accepts.ts';
import { type Flaw, leftOutOr, type Read, type Reader, type ValueOf } from './field.ts';
import type { ValuePath } from './yaml.ts';

/**
 * Readers for files that hold more than one set of inputs: a shop, a job, measured strips. The
 * values in them are fields, as those of a family are.
 */
export type Readers = Readonly<Record<string, Reader>>;

type Kept<S extends Readers> = {
  [K in keyof S]: undefined extends ValueOf<S[K]> ? never : K;
}[keyof S];

/** What a section gives; values that may be left out are absent where they were. */
export type SectionOf<S extends Readers> = {
  readonly [K in Kept<S>]: ValueOf<S[K]>;
} & { readonly [K in Exclude<keyof S, Kept<S>>]?: ValueOf<S[K]> };

const refused = (path: ValuePath, allowed: string): { readonly ok: false; flaws: Flaw[] } => ({
  ok: false,
  flaws: [{ path, allowed }],
});

const within = (step: string | number, flaws: readonly Flaw[]): Flaw[] =>
  flaws.map((flaw) => ({ ...flaw, path: [step, ...flaw.path] }));

const isMap = (given: unknown): given is Readonly<Record<string, unknown>> =>
  typeof given === 'object' && given !== null && !Array.isArray(given);

/** A set of names with their values: none but these, or others too, which are passed over. */
export const section = <S extends Readers>(
  about: string,
  readers: S,
  others: 'refused' | 'passed over' = 'refused',
): Reader<SectionOf<S>> & { readonly readers: S } => {
  const known = Object.keys(readers);
  const read = (given: unknown): Read<SectionOf<S>> => {
    if (!isMap(given)) return refused([], `a set of ${known.join(', ')}`);
    const value: Record<string, unknown> = {};
    const flaws: Flaw[] = [];
    for (const [name, reader] of Object.entries(readers)) {
      const result = reader.read(Object.hasOwn(given, name) ? given[name] : undefined);
      if (!result.ok) flaws.push(...within(name, result.flaws));
      else if (result.value !== undefined) value[name] = result.value;
    }
    if (others === 'refused')
      for (const name of Object.keys(given))
        if (!Object.hasOwn(readers, name))
          flaws.push({ path: [name], allowed: `one of ${known.join(', ')}`, known });
    return flaws.length > 0 ? { ok: false, flaws } : { ok: true, value: value as SectionOf<S> };
  };
  return { readers, read, json: () => sectionJson(about, readers, others) };
};

const sectionJson = (about: string, readers: Readers, others: string): Json => ({
  description: about,
  type: 'object',
  properties: Object.fromEntries(Object.entries(readers).map(([name, r]) => [name, r.json()])),
  required: Object.keys(readers).filter((name) => readers[name]?.read(undefined).ok === false),
  ...(others === 'refused' && { additionalProperties: false }),
});

/**
 * A list of `min` to `max` things; `what` names them in the plural, worded to complete "allowed: a
 * list of ...".
 */
export const list = <T>(
  about: string,
  item: Reader<T>,
  { what, min, max }: { readonly what: string; readonly min: number; readonly max: number },
): Reader<readonly T[]> => ({
  json: () => ({
    description: about,
    type: 'array',
    items: item.json(),
    minItems: min,
    maxItems: max,
  }),
  read: (given) =>
    Array.isArray(given) && given.length >= min && given.length <= max
      ? readItems(given, item)
      : refused([], `a list of ${min} to ${max} ${what}`),
});

const readItems = <T>(given: readonly unknown[], item: Reader<T>): Read<readonly T[]> => {
  const values: T[] = [];
  const flaws: Flaw[] = [];
  for (const [i, each] of given.entries()) {
    const result = item.read(each);
    if (result.ok) values.push(result.value);
    else flaws.push(...within(i, result.flaws));
  }
  return flaws.length > 0 ? { ok: false, flaws } : { ok: true, value: values };
};

/** Two things of a kind. */
export const pair = <T>(item: Reader<T>, allowed: string): Reader<readonly [T, T]> => ({
  json: () => ({
    description: allowed,
    type: 'array',
    items: item.json(),
    minItems: 2,
    maxItems: 2,
  }),
  read: (given) => {
    if (!Array.isArray(given) || given.length !== 2) return refused([], allowed);
    const result = readItems(given, item);
    return result.ok ? { ok: true, value: result.value as [T, T] } : result;
  },
});

/** Any names, each with a thing of a kind; `allowed` completes "allowed: ...". */
export const named = <T>(
  about: string,
  item: Reader<T>,
  allowed: string,
): Reader<Readonly<Record<string, T>>> => ({
  json: () => ({ description: about, type: 'object', additionalProperties: item.json() }),
  read: (given) => {
    if (!isMap(given)) return refused([], allowed);
    const read = Object.entries(given).map(([name, each]) => [name, item.read(each)] as const);
    const flaws = read.flatMap(([name, r]) => (r.ok ? [] : within(name, r.flaws)));
    return flaws.length > 0
      ? { ok: false, flaws }
      : {
          ok: true,
          value: Object.fromEntries(read.map(([name, r]) => [name, r.ok && r.value])) as Record<
            string,
            T
          >,
        };
  },
});

/** Anything at all, for another reader to judge. */
export const ANYTHING: Reader = {
  json: () => ({}),
  read: (given) => ({ ok: true, value: given }),
};

/** The same reader for a value that may be left out. */
export const optional = <T>(reader: Reader<T>): Reader<T | undefined> => ({
  ...reader,
  read: leftOutOr(reader.read),
});

/** The same reader with a value that stands in where nothing was given. */
export const unless = <T>(reader: Reader<T>, given: unknown): Reader<T> => ({
  ...reader,
  read: (own) => reader.read(own === undefined ? given : own),
});

/** Reports that values do not go together: what is allowed at a place inside, and the mend. */
export type Disagree = (path: ValuePath, allowed: string, mend?: string) => void;

/** A reader that also checks what was read as a whole. */
export const checked = <T>(
  reader: Reader<T>,
  check: (value: T, disagree: Disagree) => void,
): Reader<T> => ({
  json: reader.json,
  read: (given) => {
    const result = reader.read(given);
    if (!result.ok) return result;
    const flaws: Flaw[] = [];
    check(result.value, (path, allowed, mend) => flaws.push({ path, allowed, mend }));
    return flaws.length > 0 ? { ok: false, flaws } : result;
  },
});

/** A reader that turns what was read into another value. */
export const made = <T, Out>(reader: Reader<T>, make: (value: T) => Out): Reader<Out> => ({
  json: reader.json,
  read: (given) => {
    const result = reader.read(given);
    return result.ok ? { ok: true, value: make(result.value) } : result;
  },
});
