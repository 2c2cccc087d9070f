import * as z from 'zod';

const share = z.number().min(0).max(1);
const holeName = z.string().regex(/^h[1-9]\d*$/);

/**
 * The names under `fit` in `make --json`, written a second time: no more, no fewer, no other types.
 */
export const FIT = z.strictObject({
  // None of a wall that is rolled all over.
  measures: z.array(
    z.strictObject({
      name: z.string().min(1),
      holes: z.array(holeName).min(1).optional(),
      called: z.string().min(1).optional(),
      unit: z.enum(['mm', 'deg']),
      asked: z.number(),
      expected: z.number(),
      likely: z.number().min(0),
      worst: z.number().min(0),
      causes: z.array(z.strictObject({ cause: z.string().min(1), share })),
      tolerance: z
        .strictObject({
          grade: z.enum(['f', 'm', 'c', 'v']),
          plusMinus: z.number().positive(),
          chance: share,
        })
        .nullable(),
    }),
  ),
  bolts: z.array(
    z.strictObject({
      holes: z.array(z.string()).min(2),
      names: z.array(holeName).min(2),
      bolts: z.array(z.string().regex(/^M\d/)).min(2),
      meets: z.string().min(1).nullable(),
      clearanceMm: z.number(),
      chance: share,
      mend: z
        .strictObject({
          chance: share,
          openTo: z.array(
            z.strictObject({
              hole: z.string(),
              name: holeName,
              diameterMm: z.number().positive(),
            }),
          ),
          slots: z.array(
            z.strictObject({
              hole: z.string(),
              name: holeName,
              widthMm: z.number(),
              lengthMm: z.number(),
              directionDeg: z.number().min(0).max(180),
              runs: z.string().min(1),
            }),
          ),
        })
        .nullable(),
    }),
  ),
  basis: z.array(z.string().min(1)).min(1),
});
