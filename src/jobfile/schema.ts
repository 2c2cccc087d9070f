import { SCALAR, YES_OR_SCALAR } from '../forms/accepts.ts';
import { COMMON_INPUTS } from '../forms/common.ts';
import {
  type FieldReading,
  makeField,
  optionalField,
  type ValueOf,
  withDefault,
} from '../forms/field.ts';
import * as fields from '../forms/fields.ts';
import { WAY } from '../forms/making.ts';
import { ANYTHING, list, named, optional, section, unless } from '../forms/sections.ts';
import { RULES, SILENCED_BY } from '../use/rules.ts';
import { nearest } from '../text/nearest.ts';
import { OUTPUTS_ASKED } from '../use/outputs/outputs-asked.ts';

const line = (about: string) => fields.text({ about, max: 100 });

/** A folder below that of the job file; nothing in a file may refer outside it. */
const folder = makeField(
  {
    kind: 'text',
    about: 'Folder to write to.',
    allowed: 'a folder below that of the job file, such as out',
    example: 'out',
  },
  SCALAR,
  (given): FieldReading<string> => {
    const text = String(given).trim();
    const steps = text.split(/[/\\]/);
    const isBelow =
      !/^(?:[/\\]|[A-Za-z]:)/.test(text) &&
      steps.every((step) => step !== '..' && step !== '' && !/[\p{Cc}:]/u.test(step));
    return isBelow ? { ok: true, value: text } : { ok: false };
  },
);

/** The rule must exist: a misspelt one would silence nothing, and nobody would notice. */
const rule = makeField(
  {
    kind: 'choice',
    about: 'The rule of a warning or a note.',
    allowed: 'the rule of a warning or a note, as job tells it before each',
    choices: SILENCED_BY,
    example: SILENCED_BY[0] ?? '',
  },
  SCALAR,
  (given): FieldReading<string> => {
    const text = String(given);
    if (SILENCED_BY.includes(text)) return { ok: true, value: text };
    const meant = RULES.has(text) ? undefined : nearest(text, SILENCED_BY);
    return {
      ok: false,
      mend: meant === undefined ? 'a stop cannot be silenced' : `did you mean ${meant}?`,
    };
  },
);

const silence = (whose: string) =>
  unless(
    list(`Rules whose warnings and notes ${whose} are not told.`, rule, {
      what: 'rules of warnings',
      min: 0,
      max: 100,
    }),
    [],
  );

/** Inputs for which a job may give defaults; the reader of each family judges them. */
export const SHARED = ['material', 'thickness', 'radius', 'rule'] as const;
/** Inputs that stand beside `inputs` and not inside it. */
export const BESIDE = ['name', 'hand', 'quantity'] as const;

const shared = (name: (typeof SHARED)[number]) =>
  optional(
    makeField(
      {
        kind: 'text',
        about: COMMON_INPUTS[name].facts.about,
        allowed: 'a number, a text, yes or no',
        example: COMMON_INPUTS[name].facts.example,
      },
      YES_OR_SCALAR,
      (value): FieldReading<string | number | boolean> => ({ ok: true, value }),
    ),
  );

/** Pieces have names within their part alone. */
const { cardOf: _, ...ofAllParts } = OUTPUTS_ASKED;

const defaults = section('What holds for all parts of the job.', {
  material: shared('material'),
  thickness: shared('thickness'),
  radius: shared('radius'),
  rule: shared('rule'),
  out: optionalField(folder, 'out, beside the job file'),
  ...ofAllParts,
  papers: withDefault(OUTPUTS_ASKED.papers, 'card, sheet'),
  ...WAY,
});

const partFields = {
  family: line('Its family.'),
  name: optionalField(line('Its name, also of its folder.'), 'that of its family'),
  inputs: unless(
    named("The family's inputs, by their names.", ANYTHING, "a set of the family's inputs"),
    {},
  ),
  hand: optionalField(COMMON_INPUTS.hand, 'as its family has it'),
  quantity: optional(
    fields.number({
      about: COMMON_INPUTS.quantity.facts.about,
      what: 'a whole number',
      min: 1,
      max: 10_000,
    }),
  ),
  note: optional(line('A note for its sheet.')),
  revision: optional(line('Its revision, for its sheet and its file names.')),
  foldAt: WAY.foldAt,
  datum: WAY.datum,
  wideBends: WAY.wideBends,
  cardOf: OUTPUTS_ASKED.cardOf,
  silence: silence('on this part'),
};

/** What may be said of a part beside its inputs. */
export const PART_NAMES: readonly string[] = Object.keys(partFields);

/** Schema of one entry of `parts`. */
export const part = section('A part, which may be several blanks and both hands.', partFields);

const measurement = makeField(
  {
    kind: 'text',
    about: 'A length, or a sum of lengths and other measurements.',
    allowed: 'a length or a sum of lengths and other measurements, such as 412 or tankWidth - 2*6',
    example: 'tankWidth - 2*6',
  },
  SCALAR,
  (value): FieldReading<string | number> => ({ ok: true, value }),
);

/** Schema of the whole file. `read.ts` reads inputs and measurements further. */
export const jobSchema = section('A job: parts that are made together.', {
  title: fields.text({ about: 'What the job is called.', max: 100, default: 'job' }),
  shop: optionalField(line('Path of the shop file.'), 'shop.yaml beside the job'),
  defaults: unless(defaults, {}),
  measurements: unless(
    named(
      'Measurements by names of your own, which inputs may use in place of figures.',
      measurement,
      'names with their lengths',
    ),
    {},
  ),
  silence: silence('on any part'),
  parts: list('The parts.', part, { what: 'parts', min: 1, max: 10_000 }),
});

export type JobEntries = ValueOf<typeof jobSchema>;
export type PartEntries = JobEntries['parts'][number];
