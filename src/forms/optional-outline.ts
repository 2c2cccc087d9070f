import type * as z from 'zod';
import { type FieldFacts, makeOptionalField } from './field.ts';
import {
  CORNERS,
  type GivenOutline,
  OUTLINE_ALLOWED,
  OUTLINE_INPUT,
  readGivenOutline,
} from './outline.ts';

/** A field for an outline that may be left out; `otherwise` says what then takes its place. */
export const optionalOutline = (
  options: Pick<FieldFacts, 'about'> & { readonly example: string; readonly otherwise: string },
): z.ZodType<GivenOutline | undefined> =>
  makeOptionalField(
    { kind: 'text', list: CORNERS, allowed: OUTLINE_ALLOWED, ...options },
    OUTLINE_INPUT,
    readGivenOutline,
  );
