import type * as z from 'zod';
import type { Loop } from '../geometry/loop.ts';
import { type FieldFacts, makeOptionalField } from './field.ts';
import { OUTLINE_ALLOWED, OUTLINE_INPUT, readOutline } from './outline.ts';

/** A field for an outline that may be left out; `otherwise` says what then takes its place. */
export const optionalOutline = (options: Pick<FieldFacts, 'about'> & { readonly example: string; readonly otherwise: string }): z.ZodType<Loop | undefined> =>
  makeOptionalField({ kind: 'text', allowed: OUTLINE_ALLOWED, ...options }, OUTLINE_INPUT, readOutline);
