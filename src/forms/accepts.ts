import * as z from 'zod';

/**
 * The form of what a file or a flag gives, before its text is read. `zod` checks it, and zod's own
 * messages are never shown.
 */
export type Accepts<In> = z.ZodType<In, In>;

/** What such a form lets through. */
export type Given<A> = A extends z.ZodType<infer In> ? In : never;

export type Json = Record<string, unknown>;

export const FIGURE = z.union([z.number(), z.string()]);

export const TEXT = z.string();
/** Form of a field that holds one value. */
export const SCALAR = FIGURE;
export const YES_OR_SCALAR = z.union([z.boolean(), z.number(), z.string()]);

/**
 * Form of a list: a text for all entries, or a list with an object, or the text of one entry, for
 * each.
 */
const textOrObjects = <S extends z.ZodRawShape>(names: S) =>
  z.union([z.string(), z.array(z.union([z.string(), z.strictObject(names)]))]);

export const HOLES_INPUT = textOrObjects({ across: FIGURE, along: FIGURE, size: FIGURE });

export const OUTLINE_INPUT = textOrObjects({
  x: FIGURE,
  y: FIGURE,
  r: FIGURE.optional(),
  c: FIGURE.optional(),
  arc: z.boolean().optional(),
});

/** An outline whose edges may have names, and whose arcs may be given by their bulges. */
export const NAMED_OUTLINE_INPUT = textOrObjects({
  x: FIGURE,
  y: FIGURE,
  r: FIGURE.optional(),
  c: FIGURE.optional(),
  arc: z.boolean().optional(),
  bulge: z.number().optional(),
  edge: z.string().optional(),
});

/** Form of cut-outs: a text for all of them, or a list with an outline for each. */
export const CUTOUTS_INPUT = z.union([z.string(), z.array(OUTLINE_INPUT)]);

export const FOLD_LINES_INPUT = textOrObjects({
  from: z.string(),
  to: z.string(),
  angle: FIGURE,
  direction: z.string(),
  r: FIGURE.optional(),
  joggle: FIGURE.optional(),
  slots: z.boolean().optional(),
});

/** Words as a text, or as a list of them. */
export const WORDS_INPUT = z.union([z.string(), z.array(z.string()).max(100)]);

/** Inputs by their names, each as its own field takes it; or a text for all of them. */
export const WITH_VALUES_BY_NAME = z.union([z.string(), z.record(z.string(), z.unknown())]);

/** What was given, if it has that form. */
export const taken = <In>(
  accepts: Accepts<In>,
  given: unknown,
): { readonly given: In } | undefined => {
  const read = accepts.safeParse(given);
  return read.success ? { given: read.data } : undefined;
};

/** The form in JSON Schema (draft 2020-12). */
export const formOf = (accepts: z.ZodType): Json => {
  const { $schema: _, ...form } = z.toJSONSchema(accepts, { io: 'input' });
  return form;
};

/** Draft of JSON Schema that is used. */
export const JSON_SCHEMA = 'https://json-schema.org/draft/2020-12/schema';
