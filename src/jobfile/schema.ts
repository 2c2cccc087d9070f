import * as z from 'zod';
import { RULES, SILENCED_BY } from '../use/rules.ts';
import { list, name, plain, type Read, scalar, section, word, yesNo } from '../forms/entries.ts';
import type { PaperSize } from '../model/paper.ts';
import { nearest } from '../text/nearest.ts';
import { parseLength } from '../text/units.ts';
import { OUTPUT_IDS } from '../use/outputs/index.ts';

/** Wider than any cut. */
const WIDEST_KERF_MM = 10;

const kerf = scalar(
  `a width from 0 to ${WIDEST_KERF_MM} mm, or shop`,
  (text): Read<number | 'shop'> => {
    if (text.trim().toLowerCase() === 'shop') return { ok: true, value: 'shop' };
    const width = parseLength(text);
    return width.ok && width.value >= 0 && width.value <= WIDEST_KERF_MM ? width : { ok: false };
  },
);

/** A roll of paper, narrowest and widest, mm. */
const ROLL_MM = [200, 2000] as const;

export const paper = scalar(
  `a4, a3, letter, or roll and its width from ${ROLL_MM[0]} to ${ROLL_MM[1]} mm, such as roll 610`,
  (text): Read<PaperSize> => {
    const said = text.trim().toLowerCase();
    if (said === 'a4' || said === 'a3' || said === 'letter') return { ok: true, value: said };
    const width = said.startsWith('roll') ? parseLength(said.slice(4)) : undefined;
    return width?.ok === true && width.value >= ROLL_MM[0] && width.value <= ROLL_MM[1]
      ? { ok: true, value: { rollMm: width.value } }
      : { ok: false };
  },
);

/** A folder below that of the job file: nothing in a file reaches outside. */
const folder = scalar('a folder below that of the job file, such as out', (text): Read<string> => {
  const steps = text.trim().split(/[/\\]/);
  const isBelow =
    !/^(?:[/\\]|[A-Za-z]:)/.test(text.trim()) &&
    steps.every((step) => step !== '..' && step !== '' && !/[\p{Cc}:]/u.test(step));
  return isBelow ? { ok: true, value: text.trim() } : { ok: false };
});

/** A rule that is misspelt would silence nothing, and nobody would notice. */
const rule = scalar(
  'the rule of a warning or a note, as job tells it before each',
  (text): Read<string> => {
    if (SILENCED_BY.includes(text)) return { ok: true, value: text };
    const meant = RULES.has(text) ? undefined : nearest(text, SILENCED_BY);
    return {
      ok: false,
      mend: meant === undefined ? 'a stop cannot be silenced' : `did you mean ${meant}?`,
    };
  },
).meta({ enum: [...SILENCED_BY] });

const silence = list(rule, 'rules of warnings', 0, 100);

/** What a value may be that a family's own reader judges. */
const given = z.union([z.number(), z.string(), z.boolean()], {
  error: 'a number, a text, yes or no',
});

const defaults = section({
  material: given.optional(),
  thickness: given.optional(),
  radius: given.optional(),
  rule: given.optional(),
  out: folder.optional(),
  papers: list(
    word(...OUTPUT_IDS),
    `papers: ${OUTPUT_IDS.join(', ')}`,
    0,
    OUTPUT_IDS.length,
  ).default(['card', 'sheet']),
  paper: paper.default('a4'),
  foldAt: word('here', 'service', 'auto').optional(),
  kerf: kerf.optional(),
  marks: word('lines', 'nicks', 'none').optional(),
  drilled: word('crosses', 'pierces').optional(),
  dxfVersion: word('r2000', 'r12').default('r2000'),
  cutOnly: yesNo().default(false),
});

const inputs = z.record(z.string(), z.unknown(), { error: "a set of the family's inputs" });

/** One entry of `parts`. */
export const part = section({
  family: name(),
  name: name().optional(),
  inputs: inputs.default({}),
  hand: word('left', 'right', 'both').optional(),
  quantity: plain('a whole number', 1, 10_000).optional(),
  note: name().optional(),
  revision: name().optional(),
  foldAt: word('here', 'service', 'auto').optional(),
  silence: silence.default([]),
});

const text = (): z.ZodType<string | number> =>
  z.union([z.string(), z.number()], {
    error: 'a length or a sum of lengths and other measurements, such as 412 or tankWidth - 2*6',
  });

/** The whole file. Inputs and measurements are read further by `read.ts`. */
export const jobSchema = section({
  title: name().default('job'),
  shop: name().optional(),
  defaults: defaults.prefault({}),
  measurements: z.record(z.string(), text(), { error: 'names with their lengths' }).default({}),
  silence: silence.default([]),
  parts: list(part, 'parts', 1, 10_000),
});

export type JobEntries = z.infer<typeof jobSchema>;
export type PartEntries = JobEntries['parts'][number];
