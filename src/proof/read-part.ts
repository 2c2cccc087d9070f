import * as z from 'zod';
import type { Asked } from '../contract/asked.ts';

const point = z.tuple([z.number(), z.number()]);
const vertices = z.array(z.tuple([z.number(), z.number(), z.number()]));
const of = z.int();
const panel = z.string();

const space = z.tuple([z.number(), z.number(), z.number()]);
const rolled = {
  kind: z.literal('rolled'),
  frame: z.object({ at: point, round: point, axis: point }),
  shape: z.discriminatedUnion('kind', [
    z.object({ kind: z.literal('cylinder'), radiusMm: z.number() }),
    z.object({
      kind: z.literal('cone'),
      radiusMm: z.number(),
      heightMm: z.number(),
      offsetMm: z.number(),
      startDeg: z.number(),
    }),
  ]),
  from: point,
  to: point,
};
const PLACE = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('edge'), panel, of, from: point, to: point }),
  z.object({
    kind: z.literal('mould'),
    panel,
    fold: z.string(),
    measure: z.enum(['outside', 'inside']).optional(),
  }),
  z.object({ kind: z.literal('face'), panel, heightMm: z.number() }),
  z.object({ kind: z.literal('centre'), panel, of }),
  z.object({ kind: z.literal('mark'), panel, at: point }),
  z.object({ kind: z.literal('corner'), panel, at: point }),
  z.object({ kind: z.literal('diameter'), of }),
  z.object({ kind: z.literal('radius'), of, at: point }),
  z.object({ kind: z.enum(['length', 'width']), of, from: point, to: point }),
  z.object({ kind: z.literal('line'), fold: z.string() }),
  z.object({ kind: z.literal('cut'), of }),
  z.discriminatedUnion('what', [
    z.object({ ...rolled, what: z.literal('apart') }),
    z.object({ ...rolled, what: z.literal('plane'), at: space, normal: space }),
  ]),
]);

/** The fields of a part in `make --json` that a proof needs. */
const PART = z.object({
  name: z.string(),
  material: z.object({ thicknessMm: z.number().positive() }),
  bends: z.array(
    z.object({
      id: z.string(),
      angleDeg: z.number(),
      direction: z.enum(['up', 'down']),
      insideRadiusMm: z.number(),
      kFactor: z.number(),
      allowanceMm: z.number(),
      centreLine: z.tuple([point, point]),
    }),
  ),
  proof: z.object({
    measures: z.array(
      z.object({
        name: z.string(),
        holes: z.array(z.string()).optional(),
        called: z.string().optional(),
        askedMm: z.number(),
        between: z.array(PLACE).min(1),
        heightMm: z.number().optional(),
        atLeast: z.literal(true).optional(),
        input: z.string().optional(),
      }),
    ),
    angles: z.array(
      z.object({
        name: z.string(),
        askedDeg: z.number(),
        fold: z.string().nullable(),
        panels: z.tuple([panel, panel]).optional(),
        input: z.string().optional(),
      }),
    ),
    made: z.object({
      measure: z.enum(['outside', 'inside']),
      kerfMm: z.number().min(0),
      panels: z.array(z.object({ name: z.string(), at: point })),
      cut: z.object({ outline: vertices.min(2), holes: z.array(vertices.min(2)) }),
      file: z
        .object({ unit: z.enum(['mm', 'inch']), statesUnit: z.boolean(), foldLines: z.boolean() })
        .optional(),
    }),
  }),
});

const WHOLE = z.object({
  parts: z.array(z.looseObject({ name: z.string(), files: z.array(z.string()).optional() })).min(1),
});

export type ReadPart =
  | { readonly ok: true; readonly asked: Asked; readonly name: string }
  | { readonly ok: false; readonly given: string; readonly mend: string };

/**
 * What a file is measured against, from one part of `make --json` or from all that it printed. In
 * the latter case it is the part that wrote a file of this name, or the only part.
 */
export const readPart = (json: unknown, fileName: string): ReadPart => {
  const whole = WHOLE.safeParse(json);
  if (!whole.success) return readOne(json);
  const { parts } = whole.data;
  const own = parts.find(({ files = [] }) =>
    files.some((f) => f.replace(/^.*[\\/]/, '') === fileName),
  );
  const only = parts.length === 1 ? parts[0] : undefined;
  const part = own ?? only;
  if (part !== undefined) return readOne(part);
  return {
    ok: false,
    given: `${parts.length} parts, none of which wrote a file named ${fileName}`,
    mend: `give one of them alone (${parts.map((p) => p.name).join(', ')}), or the file by its own name`,
  };
};

/** Names the flaw: `a part without material`, or what stands where something else should. */
const flawAt = (path: readonly PropertyKey[], json: unknown): string => {
  const name = path
    .map((step) => (typeof step === 'number' ? `[${step}]` : `.${String(step)}`))
    .join('')
    .replace(/^\./, '');
  const value = path.reduce<unknown>(
    (at, step) =>
      typeof at === 'object' && at !== null
        ? (at as Record<PropertyKey, unknown>)[step]
        : undefined,
    json,
  );
  if (name === '')
    return Array.isArray(json) ? 'a list' : json === null ? 'nothing' : 'a single value';
  return value === undefined
    ? `no part: ${name} is missing`
    : `no part: ${name} is ${JSON.stringify(value).slice(0, MOST_SHOWN)}`;
};

const MOST_SHOWN = 40;

const readOne = (json: unknown): ReadPart => {
  const read = PART.safeParse(json);
  if (!read.success) {
    const [issue] = read.error.issues;
    const isStopped =
      typeof json === 'object' && json !== null && 'proof' in json && json.proof === null;
    if (isStopped)
      return {
        ok: false,
        given: 'a part that was stopped',
        mend: 'nothing was written for it that could be proved',
      };
    return {
      ok: false,
      given: issue === undefined ? 'something else' : flawAt(issue.path, json),
      mend: 'make it anew with blankwright make ... --json',
    };
  }
  const { name, material, bends, proof } = read.data;
  const measures = proof.measures.map(({ heightMm, atLeast, ...m }) => ({
    ...m,
    ...(heightMm !== undefined && { heightMm }),
    ...(atLeast !== undefined && { atLeast }),
  }));
  const { file, ...made } = proof.made;
  return {
    ok: true,
    name,
    asked: {
      thicknessMm: material.thicknessMm,
      bends,
      measures,
      angles: proof.angles,
      ...made,
      ...(file !== undefined && { file }),
    },
  };
};
