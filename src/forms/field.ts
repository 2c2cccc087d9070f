import * as z from 'zod';
import type { HoleAxes } from './hole-axes.ts';

/** What an input is, in words a program can ask for. */
export type FieldKind =
  | 'length'
  | 'angle'
  | 'count'
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
  /** One plain sentence. */
  readonly about: string;
  /** What may be given, as it completes "allowed: ...". */
  readonly allowed: string;
  /**
   * Of holes: what their places are measured from; several where another input chooses the panel.
   */
  readonly axes?: readonly HoleAxes[];
  /**
   * How values of its kind are written, where that takes more than a line: sentences, the same for
   * all that are alike.
   */
  readonly notation?: readonly string[];
  readonly unit?: 'mm' | 'degrees';
  /** Inclusive limits in the unit. */
  readonly minimum?: number;
  readonly maximum?: number;
  readonly choices?: readonly string[];
  /** As a person would type it. A field with neither this nor `otherwise` must be given. */
  readonly default?: string | number | boolean;
  /** What happens when the field is left out and there is no fixed default. */
  readonly otherwise?: string;
  readonly example: string;
  /** It is a text for people: no word of it is taken for a measurement. */
  readonly isFreeText?: true;
  /**
   * It holds several of these, which are counted back: in the value itself, or `under` a name in
   * it.
   */
  readonly list?: { readonly one: string; readonly many: string; readonly under?: string };
}

/**
 * What a reader made of a given value, or what is allowed instead and, where it is evident, the
 * mend.
 */
export type FieldReading<T> =
  | { readonly ok: true; readonly value: T }
  | {
      readonly ok: false;
      readonly allowed?: string;
      readonly given?: string;
      readonly mend?: string;
    };

/** The part of a refusal that travels inside a zod issue. */
export interface Refusal {
  readonly allowed?: string;
  readonly given?: string;
  readonly mend?: string;
}

/**
 * One for all copies of this module in a process: a user's template brings its own beside the one
 * in the command.
 */
const SHARED = Symbol.for('blankwright.fields');
const shared = globalThis as { [SHARED]?: ReturnType<typeof z.registry<FieldFacts>> };
const facts = (shared[SHARED] ??= z.registry<FieldFacts>());

/**
 * The facts of a field made by `makeField`; a field made in any other way is a mistake of the
 * template.
 */
export const factsOf = (field: z.ZodType): FieldFacts => {
  const found = facts.get(field);
  if (found === undefined)
    throw new TypeError('a template field must be made by the functions of fields.ts');
  return found;
};

/** What a file or a flag gives for a field that holds one value. */
export const SCALAR = z.union([z.number(), z.string()]);

/**
 * A zod type that carries `FieldFacts`, reads what `accepts` lets through, and gives what `read`
 * makes of it. The same facts go into zod's metadata, from where `z.toJSONSchema(..., { io: 'input'
 * })` takes them.
 */
export function makeField<In, Out>(
  what: FieldFacts,
  accepts: z.ZodType<In, In>,
  read: (given: In) => FieldReading<Out>,
): z.ZodType<Out, In | undefined> {
  const reading = accepts.transform((given, context): Out => {
    const result = read(given);
    if (result.ok) return result.value;
    const { allowed, given: part, mend } = result;
    context.issues.push({
      code: 'custom',
      input: given,
      message: allowed ?? what.allowed,
      params: { allowed, given: part, mend },
    });
    return z.NEVER;
  });
  const field = what.default === undefined ? reading : reading.prefault(what.default as In & {});
  return register(what, field as z.ZodType<Out, In | undefined>);
}

/**
 * As `makeField`, for an input that may be left out and then is `undefined`; `otherwise` says what
 * happens then.
 */
export function makeOptionalField<In, Out>(
  what: FieldFacts & { readonly otherwise: string },
  accepts: z.ZodType<In, In>,
  read: (given: In) => FieldReading<Out>,
): z.ZodType<Out | undefined, In | undefined> {
  return register(what, makeField<In, Out>({ ...what }, accepts, read).optional());
}

/**
 * The same field with another default, which also takes the place of what an optional field does
 * otherwise.
 */
export const withDefault = (field: z.ZodType, value: string | number): z.ZodType => {
  const { otherwise: _, ...what } = factsOf(field);
  return register({ ...what, default: value }, field.prefault(value));
};

function register<T extends z.ZodType>(what: FieldFacts, field: T): T {
  const { about, notation, kind, unit, minimum, maximum, choices, example, otherwise } = what;
  // Not `field.meta`, which makes the field a second time: that would be a tenth of what a start
  // takes.
  z.globalRegistry.add(field, {
    description: [
      about,
      ...(otherwise === undefined ? [] : [`Left out: ${otherwise}.`]),
      ...(notation ?? []),
    ].join(' '),
    kind,
    ...(unit !== undefined && { unit }),
    ...(minimum !== undefined && { minimum }),
    ...(maximum !== undefined && { maximum }),
    ...(choices !== undefined && { enum: choices }),
    examples: [example],
  });
  facts.add(field, what);
  return field;
}
