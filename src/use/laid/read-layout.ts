import * as z from 'zod';
import { shown } from '../../forms/given.ts';
import type { InputProblem } from '../../forms/problem.ts';
import { signedArea } from '../../geometry/measure.ts';
import { NOISE_MM2, SAME_LENGTH_MM } from '../../geometry/tolerance.ts';
import type { LaidSheet } from '../../model/laid.ts';
import { laidSheetOf } from './laid-result.ts';

/** No sheet reaches farther, mm. */
const FARTHEST_MM = 1e5;
/** Nobody shears a sheet into more strips. */
const MOST_SHEARS = 1000;
const figure = z.number().min(-FARTHEST_MM).max(FARTHEST_MM);
const corner = z.tuple([figure, figure, figure]);
const loop = z
  .array(corner)
  .min(2)
  .refine((corners) => signedArea(corners.map(([x, y, bulge]) => ({ x, y, bulge }))) > NOISE_MM2);

const levels = z
  .array(figure.positive())
  .max(MOST_SHEARS)
  .refine((all) => all.every((level, k) => k === 0 || level > (all[k - 1] as number)));

/** What is read of `lay --json`; what else stands there is passed over. */
const LAYOUT = z.object({
  sheets: z.array(
    z.object({
      name: z.string().min(1),
      stock: z.string(),
      isRemnant: z.boolean(),
      material: z.string(),
      thicknessMm: figure.positive(),
      price: z.number().min(0).nullable(),
      grain: z.enum(['x', 'y']).nullable(),
      gapMm: figure.min(0),
      edgeMm: figure.min(0),
      // What was laid out before these were told kept nothing for clamps and sheared nothing.
      clampsMm: figure.min(0).default(0),
      shears: z.object({ x: levels, y: levels }).nullable().default(null),
      outline: loop,
      holes: z.array(loop),
      parts: z.array(
        z.object({
          name: z.string(),
          copy: z.int().min(1),
          x: figure,
          y: figure,
          turnDeg: figure,
          turnedOver: z.boolean(),
        }),
      ),
    }),
  ),
});

export type ReadLayout =
  | { readonly ok: true; readonly sheets: readonly LaidSheet[] }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

const ALLOWED = 'a file of what blankwright lay JOB.yaml --json printed';

/** The sheets in the text of a file that `lay --json` printed. */
export const readLayout = (text: string): ReadLayout => {
  const refuse = (given: string, mend: string): ReadLayout => ({
    ok: false,
    problems: [{ input: 'laid', given, allowed: ALLOWED, mend }],
  });
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return refuse(shown(text), 'lay the job again, and keep what is printed as it is');
  }
  const read = LAYOUT.safeParse(json);
  if (read.success) return { ok: true, sheets: read.data.sheets.map(laidSheetOf) };
  const [issue] = read.error.issues;
  const at = (issue?.path ?? []).map(String).join('.');
  return refuse(
    at === '' ? 'no sheets' : `${at}, which is missing or no such thing`,
    'lay the job again, and keep what is printed as it is',
  );
};

/** A part of a job, and how many it takes. */
export interface AskedPart {
  readonly name: string;
  readonly quantity: number;
  readonly material: { readonly id: string; readonly thicknessMm: number };
}

/** How many of a part lie on no sheet. */
export interface NotLaid {
  readonly name: string;
  readonly count: number;
}

/**
 * What of some parts lies on no sheet, or what is wrong with a layout of them: parts that there are
 * not, or more of them than the job takes, are those of another job, or of this one before it was
 * changed.
 */
export const notLaid = (
  sheets: readonly LaidSheet[],
  asked: readonly AskedPart[],
): readonly NotLaid[] | InputProblem => {
  const wanted = new Map(asked.map((part) => [part.name, part]));
  const laid = new Map<string, number>();
  for (const sheet of sheets)
    for (const { name } of sheet.parts) {
      const part = wanted.get(name);
      const count = 1 + (laid.get(name) ?? 0);
      if (part === undefined) return strange(name, 'parts of this job that can be made');
      if (!isOf(sheet, part)) return strange(`${name} on ${sheet.name}`, 'a sheet of its material');
      if (count > part.quantity)
        return strange(`${count} of ${name}`, `the ${part.quantity} that the job takes`);
      laid.set(name, count);
    }
  return asked.flatMap(({ name, quantity }) => {
    const count = quantity - (laid.get(name) ?? 0);
    return count === 0 ? [] : [{ name, count }];
  });
};

const strange = (given: string, allowed: string): InputProblem => ({
  input: 'laid',
  given,
  allowed,
  mend: 'lay the job again, as it is now',
});

const isOf = (sheet: LaidSheet, { material }: AskedPart): boolean =>
  sheet.material === material.id &&
  Math.abs(sheet.thicknessMm - material.thicknessMm) < SAME_LENGTH_MM;
