import { type Accepts, formOf, type Json, taken } from './accepts.ts';
import type { ToldAnchor } from './anchor.ts';
import type { HoleAxes } from './hole-axes.ts';
import { onlyText, type When } from './when.ts';
import type { ValuePath } from './yaml.ts';

/** Kind of an input, in a word that a program can ask for. */
export type FieldKind =
  | 'length'
  | 'angle'
  | 'count'
  | 'number'
  | 'text'
  | 'choice'
  | 'flag'
  | 'holes'
  | 'material'
  | 'thickness'
  | 'rule';

/**
 * Everything that `describe`, the flags, the error messages and the JSON Schema say about an input.
 */
export interface FieldFacts {
  readonly kind: FieldKind;
  /** What the input is, in one plain sentence. */
  readonly about: string;
  /** What may be given, worded to complete "allowed: ...". */
  readonly allowed: string;
  /**
   * What the places of holes are measured from, on a field for holes; several where another input
   * chooses the panel.
   */
  readonly axes?: readonly HoleAxes[];
  /**
   * How values of its kind are written, where that takes more than a line: sentences, the same for
   * all fields of the kind.
   */
  readonly notation?: readonly string[];
  readonly unit?: 'mm' | 'degrees';
  /** Inclusive limits in the unit. */
  readonly minimum?: number;
  readonly maximum?: number;
  readonly choices?: readonly string[];
  /**
   * The default as a person would type it. A field with neither this nor `otherwise` must be given.
   */
  readonly default?: string | number | boolean;
  /** What happens when the field is left out and there is no fixed default. */
  readonly otherwise?: string;
  readonly example: string;
  /** Whether it is a text for people, of which no word is taken for a measurement. */
  readonly isFreeText?: true;
  /**
   * The things that it holds several of, which are counted for the user: in the value itself, or
   * `under` a name in it.
   */
  readonly list?: { readonly one: string; readonly many: string; readonly under?: string };
  /** What each key of a map is, where a file may give maps for it. */
  readonly keys?: Readonly<Record<string, string>>;
  /** A flag that gives one of these and may be given again and again, where it has one. */
  readonly each?: string;
  /**
   * The same value with figures in place of the names of measurements, `put` doing so in a text:
   * where not every word of it stands for a figure.
   */
  readonly withMeasurements?: (given: unknown, put: (text: string) => string) => unknown;
  /** The block of a form to which it belongs. */
  readonly group?: string;
  /** The condition on other inputs under which it has a meaning; always when left out. */
  readonly when?: When;
  /** What it measures, where the part made from it does not state that itself. */
  readonly anchor?: ToldAnchor;
  /**
   * Whether a choice says only how the part is made, and not what it is: where the shop cannot fold
   * one way, another may be offered.
   */
  readonly isMaking?: true;
  /**
   * Whether a choice between in and out, or up and down, may be taken the other way where the shop
   * cannot fold the one: what the part is for allows either.
   */
  readonly mayTurn?: true;
}

/**
 * What a reader made of a given value, or what is allowed instead and, where it is evident, the
 * mend.
 */
export type FieldReading<T> =
  { readonly ok: true; readonly value: T } | ({ readonly ok: false } & Refusal);

/** Why a value cannot be used, where there is more to say than that it is not allowed. */
interface Refusal {
  /** The steps from the value to what is wrong in it; none where it is the value itself. */
  readonly path?: ValuePath;
  readonly allowed?: string | undefined;
  /** What was given, where it is told in other words than the value. */
  readonly given?: string | undefined;
  readonly mend?: string | undefined;
}

/** One thing that is wrong with a value, or with one inside it. */
export interface Flaw extends Refusal {
  readonly path: ValuePath;
  readonly allowed: string;
  /** The last name of the path is the wrong one; these are the known names. */
  readonly known?: readonly string[];
}

export type Read<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly flaws: readonly Flaw[] };

/** Reads what a file or a flag gives, and tells what may be given. */
export interface Reader<Out = unknown> {
  /** Takes anything, `undefined` for what is left out. Never throws. */
  readonly read: (given: unknown) => Read<Out>;
  /** The JSON Schema (draft 2020-12) of what a file holds for it. */
  readonly json: () => Json;
}

/** A reader of one value, with everything that is told about it. */
export interface Field<Out = unknown> extends Reader<Out> {
  readonly facts: FieldFacts;
  /** The form of what is given, in JSON Schema, without the facts. */
  readonly form: () => Json;
}

/** What every field states about itself besides what it reads. */
export type Said = Pick<FieldFacts, 'about' | 'group' | 'when' | 'anchor' | 'isMaking' | 'mayTurn'>;

export const saidOf = ({ about, group, when, anchor, isMaking, mayTurn }: Said): Said => ({
  about,
  ...(group !== undefined && { group }),
  ...(when !== undefined && { when }),
  ...(anchor !== undefined && { anchor }),
  ...(isMaking !== undefined && { isMaking }),
  ...(mayTurn !== undefined && { mayTurn }),
});

/** What a reader gives. */
export type ValueOf<R> = R extends Reader<infer Out> ? Out : never;

/** A field that reads what `accepts` lets through, and gives what `read` makes of it. */
export function makeField<In, Out>(
  facts: FieldFacts,
  accepts: Accepts<In>,
  read: (given: In) => FieldReading<Out>,
): Field<Out> {
  const flawed = (refusal: Refusal): Read<Out> => ({
    ok: false,
    flaws: [{ path: [], ...refusal, allowed: refusal.allowed ?? facts.allowed }],
  });
  return fieldOf(
    facts,
    () => formOf(accepts),
    (given) => {
      const found = taken(accepts, given === undefined ? facts.default : given);
      if (found === undefined) return flawed({});
      const result = read(found.given);
      if (result.ok) return result;
      const { ok: _, ...refusal } = result;
      return flawed(refusal);
    },
  );
}

/** A field made from its parts. */
export const fieldOf = <Out>(
  facts: FieldFacts,
  form: () => Json,
  read: Reader<Out>['read'],
): Field<Out> => ({ facts, form, read, json: () => ({ ...form(), ...factsJson(facts) }) });

/** The same field, which may be left out and then is `undefined`; `otherwise` says what then. */
export const optionalField = <Out>(
  field: Field<Out>,
  otherwise: string,
): Field<Out | undefined> => {
  const { default: _, ...facts } = field.facts;
  return fieldOf({ ...facts, otherwise }, field.form, leftOutOr(field.read));
};

/** Like `makeField`, for an input that may be left out. */
export const makeOptionalField = <In, Out>(
  { otherwise, ...facts }: FieldFacts & { readonly otherwise: string },
  accepts: Accepts<In>,
  read: (given: In) => FieldReading<Out>,
): Field<Out | undefined> => optionalField(makeField(facts, accepts, read), otherwise);

/** Passes a value that is left out through as `undefined`. */
export const leftOutOr =
  <Out>(read: Reader<Out>['read']): Reader<Out | undefined>['read'] =>
  (given) =>
    given === undefined ? { ok: true, value: undefined } : read(given);

/**
 * The same field with another default, which also takes the place of what an optional field does
 * otherwise.
 */
export const withDefault = <Out>(
  field: Field<Out>,
  value: string | number,
): Field<Exclude<Out, undefined>> => {
  const { otherwise: _, ...facts } = field.facts;
  return fieldOf({ ...facts, default: value }, field.form, (given) =>
    field.read(given === undefined ? value : given),
  ) as Field<Exclude<Out, undefined>>;
};

/** The same field, which has a meaning only then. */
export const onlyWhen = <Out>({ facts, form, read }: Field<Out>, when: When): Field<Out> =>
  fieldOf({ ...facts, when }, form, read);

/** The same fields, all in one block of a form. */
export const group = <Fields extends Readonly<Record<string, Field>>>(
  name: string,
  fields: Fields,
): Fields =>
  Object.fromEntries(
    Object.entries(fields).map(([key, { facts, form, read }]) => [
      key,
      fieldOf({ ...facts, group: name }, form, read),
    ]),
  ) as unknown as Fields;

const factsJson = (facts: FieldFacts): Json => {
  const { about, notation = [], otherwise, choices, example } = facts;
  const { kind, unit, minimum, maximum, default: usual, group: block, when, anchor } = facts;
  const described = [
    about,
    ...(otherwise === undefined ? [] : [`Left out: ${otherwise}.`]),
    ...(when === undefined ? [] : [onlyText(when)]),
    ...notation,
  ];
  const known = {
    unit,
    minimum,
    maximum,
    enum: choices,
    default: usual,
    group: block,
    when,
    anchor,
  };
  return {
    description: described.join(' '),
    kind,
    ...Object.fromEntries(Object.entries(known).filter(([, value]) => value !== undefined)),
    examples: [example],
  };
};
