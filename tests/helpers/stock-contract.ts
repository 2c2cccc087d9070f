import * as z from 'zod';

/** The names that programs read of what was booked: strict, since they are a contract. */
const USED = z.strictObject({
  stock: z.string(),
  isRemnant: z.boolean(),
  count: z.int().positive(),
  left: z.int().nonnegative().nullable(),
  bought: z.int().nonnegative(),
});

const ADDED = z.strictObject({
  name: z.string(),
  material: z.string(),
  thicknessMm: z.number().positive(),
  from: z.string(),
  sheet: z.string(),
  lengthMm: z.number().positive(),
  widthMm: z.number().positive(),
  outline: z.string().nullable(),
  xMm: z.number(),
  yMm: z.number(),
});

export const TAKEN = z.strictObject({
  layout: z.string().regex(/^[\da-f]{12}$/),
  shop: z.string(),
  record: z.string(),
  used: z.array(USED),
  added: z.array(ADDED),
});

export const TAKEN_BACK = z.strictObject({
  layout: z.string(),
  shop: z.string(),
  record: z.string(),
  used: z.array(USED),
  removed: z.array(z.string()),
});
