import * as z from 'zod';
import { nearest } from '../text/nearest.ts';
import { type ParsedNumber, parseAngle, parseLength, parseNumber } from '../text/units.ts';

/**
 * The building blocks of files that hold more than one set of inputs: a shop, measured strips. The
 * message of every zod issue they raise is what is allowed, as it completes "allowed: ...", and
 * `params.mend` the mend where there is one.
 */
export interface RefusalParams {
  readonly mend: string | undefined;
}

const SCALAR = [z.number(), z.string()] as const;

/** What a reader made of a text. */
export type Read<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly mend?: string | undefined };

/** A value of one word or number, read by `read`; `allowed` completes "allowed: ...". */
export function scalar<T>(
  allowed: string,
  read: (text: string) => Read<T>,
): z.ZodType<T, number | string> {
  return z.union(SCALAR, { error: allowed }).transform((given, context): T => {
    const result = read(String(given));
    if (result.ok) return result.value;
    context.issues.push({
      code: 'custom',
      input: given,
      message: allowed,
      params: { mend: result.mend } satisfies RefusalParams,
    });
    return z.NEVER;
  });
}

const within =
  (parse: (text: string) => ParsedNumber, min: number, max: number) =>
  (text: string): Read<number> => {
    const parsed = parse(text);
    if (!parsed.ok) return { ok: false, mend: parsed.reason };
    return parsed.value >= min && parsed.value <= max ? parsed : { ok: false };
  };

/** A length, inclusive limits in mm; text with a unit too. */
export const mm = (min: number, max: number): z.ZodType<number, number | string> =>
  scalar(`a length from ${min} to ${max} mm`, within(parseLength, min, max));

export const degrees = (min: number, max: number): z.ZodType<number, number | string> =>
  scalar(`an angle from ${min} to ${max} degrees`, within(parseAngle, min, max));

/** A plain number; `what` says of what. */
export const plain = (what: string, min: number, max: number): z.ZodType<number, number | string> =>
  scalar(`${what} from ${min} to ${max}`, within(parseNumber, min, max));

/** One of some words; capitals do not matter. */
export const word = <const C extends string>(
  ...choices: readonly C[]
): z.ZodType<C, number | string> =>
  scalar(`one of ${choices.join(', ')}`, (text) => {
    const said = text.trim().toLowerCase();
    const value = choices.find((choice) => choice.toLowerCase() === said);
    if (value !== undefined) return { ok: true, value };
    const meant = nearest(said, choices);
    return { ok: false, mend: meant === undefined ? undefined : `did you mean ${meant}?` };
  }).meta({ enum: [...choices] });

/** A name of one line. */
export const name = (): z.ZodType<string, number | string> =>
  scalar('a name of 1 to 100 characters on one line', (text) => {
    const value = text.trim();
    return value !== '' && value.length <= 100 && !/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u.test(value)
      ? { ok: true, value }
      : { ok: false };
  });

/** A name as it is typed on the command line. */
export const id = (): z.ZodType<string, number | string> =>
  scalar('a short name of small letters, digits, dots and hyphens', (text) =>
    /^[a-z\d][a-z\d.-]{0,39}$/.test(text) ? { ok: true, value: text } : { ok: false },
  );

/** `true` or `false`, and the words people write for them, which YAML 1.2 takes for text. */
export const yesNo = (): z.ZodType<boolean, boolean | string> =>
  z
    .union([z.boolean(), z.string()], { error: 'yes or no' })
    .transform((given, context): boolean => {
      const said = String(given).trim().toLowerCase();
      if (said === 'yes' || said === 'true') return true;
      if (said === 'no' || said === 'false') return false;
      context.issues.push({
        code: 'custom',
        input: given,
        message: 'yes or no',
        params: { mend: undefined } satisfies RefusalParams,
      });
      return z.NEVER;
    });

/** How the message of names that are not known begins; the names that are follow. */
export const ONE_OF = 'one of ';

/** A set of names with their values, none but these. */
export const section = <S extends z.ZodRawShape>(shape: S): z.ZodObject<S, z.core.$strict> => {
  const names = Object.keys(shape).join(', ');
  return z.strictObject(shape, {
    error: ({ code }) => (code === 'unrecognized_keys' ? ONE_OF + names : `a set of ${names}`),
  });
};

/** A list of `min` to `max` things; `what` in the plural. */
export const list = <T extends z.ZodType>(
  item: T,
  what: string,
  min: number,
  max: number,
): z.ZodArray<T> => {
  const allowed = `a list of ${min} to ${max} ${what}`;
  return z
    .array(item, { error: allowed })
    .min(min, { error: allowed })
    .max(max, { error: allowed });
};

/** Adds an issue of things that do not go together, at a place inside. */
export const disagree = (
  issues: z.core.$ZodRawIssue[],
  input: unknown,
  path: (string | number)[],
  allowed: string,
  mend?: string,
): void => {
  issues.push({
    code: 'custom',
    input,
    path,
    message: allowed,
    params: { mend } satisfies RefusalParams,
  });
};
