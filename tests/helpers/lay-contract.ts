import * as z from 'zod';

/** The names of `lay JOB --json`, written down once more. */
const corner = z.tuple([z.number(), z.number(), z.number()]);
export const LAY_RESULT = z.strictObject({
  sheets: z.array(
    z.strictObject({
      name: z.string(),
      stock: z.string(),
      isRemnant: z.boolean(),
      material: z.string(),
      thicknessMm: z.number(),
      price: z.number().nullable(),
      grain: z.enum(['x', 'y']).nullable(),
      gapMm: z.number(),
      edgeMm: z.number(),
      clampsMm: z.number(),
      shears: z.strictObject({ x: z.array(z.number()), y: z.array(z.number()) }).nullable(),
      outline: z.array(corner),
      holes: z.array(z.array(corner)),
      parts: z.array(
        z.strictObject({
          name: z.string(),
          copy: z.int().min(1),
          x: z.number(),
          y: z.number(),
          turnDeg: z.number(),
          turnedOver: z.boolean(),
        }),
      ),
      widthMm: z.number(),
      heightMm: z.number(),
      usedPercent: z.number(),
      clean: z
        .strictObject({
          x: z.number(),
          y: z.number(),
          widthMm: z.number(),
          heightMm: z.number(),
        })
        .nullable(),
      files: z.array(z.string()),
    }),
  ),
  buy: z.array(
    z.strictObject({
      stock: z.string(),
      material: z.string(),
      thicknessMm: z.number(),
      count: z.int(),
      price: z.number().nullable(),
    }),
  ),
  left: z.array(z.strictObject({ name: z.string(), count: z.int(), reason: z.string() })),
  groups: z.array(
    z.strictObject({
      material: z.string(),
      thicknessMm: z.number(),
      sheets: z.int(),
      remnants: z.int(),
      isLeast: z.boolean(),
      seed: z.int(),
      steps: z.int(),
    }),
  ),
  findings: z.array(z.looseObject({ rule: z.string() })),
  taken: z.looseObject({ layout: z.string() }).nullable(),
});
