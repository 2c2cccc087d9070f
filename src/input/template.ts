import type * as z from 'zod';
import type { CautionId } from '../data/cautions.ts';
import type { Finding } from '../model/finding.ts';
import type { Part } from '../model/part.ts';
import type { Report } from '../model/report.ts';
import type { COMMON_INPUTS, CommonValues } from './common.ts';

/** The inputs a family adds to the common ones; each field made by a function of `fields.ts`. */
export type OwnInputs = Readonly<Record<string, z.ZodType>>;

/** What `build` receives: the family's own inputs, read and in mm and degrees, beside the common ones. */
export type TemplateValues<Own extends OwnInputs> = { readonly [K in keyof Own]: z.output<Own[K]> } & CommonValues;

/** A full set of inputs that makes a sensible part; also what `describe` shows and the tests run. */
export interface Example {
  readonly title: string;
  readonly inputs: Readonly<Record<string, unknown>>;
}

/** What these inputs make, or the findings that say why they make nothing. */
export interface Built {
  /** A family of one blank. */
  readonly part?: Part;
  /** A family of several blanks that are joined afterwards; it gives no `part`. */
  readonly pieces?: readonly Piece[];
  readonly findings?: readonly Finding[];
  readonly report?: Report;
}

/** One of several blanks. */
export interface Piece {
  /** Lower case with hyphens, unique within the family's pieces: `end-left`. Follows the part's name. */
  readonly id: string;
  readonly part: Part;
  /** How many of it one set takes; 1 when left out. */
  readonly quantity?: number;
}

/** A part family: one module under templates/ whose default export this is. */
export interface Template<Own extends OwnInputs = OwnInputs> {
  /** Lower case with hyphens; the same as the file's name. */
  readonly family: string;
  /** One line for `list`. */
  readonly summary: string;
  /** A small drawing in text that shows which input is which length. At most 72 columns. */
  readonly sketch: string;
  readonly inputs: Own;
  /** Where the family's default of a common input differs from everybody's. */
  readonly defaults?: Readonly<Partial<Record<keyof typeof COMMON_INPUTS, string | number>>>;
  readonly cautions: readonly CautionId[];
  readonly examples: readonly Example[];
  /**
   * A method, so that TypeScript takes any template where one is known by its schema only: `readInputs` gives it all
   * that its schema promises.
   */
  build(values: TemplateValues<Own>): Built;
}

/** Keeps the types of `inputs` for `build`. */
export const defineTemplate = <const Own extends OwnInputs>(template: Template<Own>): Template<Own> => template;
