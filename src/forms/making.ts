import { PAPER_KINDS, type PaperKind } from '../contract/paper-kind.ts';
import { INSTRUMENTS } from '../data/tolerances/accuracy.ts';
import { GENERAL_CLASSES } from '../data/tolerances/general.ts';
import type { PaperSize } from '../model/paper.ts';
import { DRILLED_MARKS, FOLD_AT, FOLD_MARKS } from '../model/shop.ts';
import { figure } from '../text/figures.ts';
import { parseLength } from '../text/units.ts';
import { SCALAR, WORDS_INPUT } from './accepts.ts';
import {
  type Field,
  fieldOf,
  type FieldReading,
  makeField,
  optionalField,
  type ValueOf,
} from './field.ts';
import { choice, flag } from './fields.ts';

/*
 * Options of making, each defined here and nowhere else: flags of `make`, defaults of a job file,
 * and what its JSON Schema says of them follow.
 */

/** Wider than any cut. */
const WIDEST_KERF_MM = 10;

const AS_SHOP = 'as the shop file has it';

/** How a part is made, whatever it is. */
export const WAY = {
  /** Leaves just what is cut on the drawings; all is drawn when left out. */
  cutOnly: flag({ about: 'Only what is cut: no fold lines, no notes.', default: false }),
  /** The dialect of the DXF; that of release 2000 when left out. */
  dxfVersion: choice({
    about: 'The dialect of the DXF: r2000, or r12 for old controllers.',
    choices: ['r2000', 'r12'],
    default: 'r2000',
  }),
  /** Where it is folded; in the shop where its machines can, when left out. */
  foldAt: optionalField(
    choice({
      about:
        'Where it is folded. here: a part that the shop cannot fold is stopped; service: it is folded elsewhere; auto: here where it can be.',
      choices: FOLD_AT,
    }),
    'auto',
  ),
  /**
   * Width of the cut that the table does not allow for by itself, mm, or that of the shop's cutter;
   * 0 when left out.
   */
  kerf: optionalField(
    makeField(
      {
        kind: 'text',
        about:
          "Cut lines half a kerf beside the metal, for tables that do not allow for it: a width, or shop for that of the shop's cutter.",
        allowed: `a width from 0 to ${WIDEST_KERF_MM} mm, or shop`,
        example: '1.6',
      },
      SCALAR,
      (given): FieldReading<number | 'shop'> => {
        if (String(given).trim().toLowerCase() === 'shop') return { ok: true, value: 'shop' };
        const width = parseLength(String(given));
        if (!width.ok) return { ok: false, mend: width.reason };
        return width.value >= 0 && width.value <= WIDEST_KERF_MM ? width : { ok: false };
      },
    ),
    'cut lines lie on the edge of the metal',
  ),
  /**
   * How the middles of holes that are drilled come onto it; as the shop has it when left out,
   * pierced where only cuts are drawn.
   */
  drilled: optionalField(
    choice({
      about:
        'How the middles of holes to be drilled come onto the metal: crosses that are marked, or pierces.',
      choices: DRILLED_MARKS,
    }),
    AS_SHOP,
  ),
  /**
   * How fold lines come onto the metal: lines to be marked, nicks at their ends, or not at all; as
   * the shop has it when left out.
   */
  marks: optionalField(
    choice({
      about: 'How fold lines come onto the metal: lines, nicks in the edge at their ends, or none.',
      choices: FOLD_MARKS,
    }),
    AS_SHOP,
  ),
} as const;

/** What is said of some of these; all of it may be left out. */
export type Chosen<Fields> = { readonly [K in keyof Fields]?: ValueOf<Fields[K]> | undefined };

export type Way = Chosen<typeof WAY>;

/** Of all that is said, what is of the way that a part is made. */
export const wayIn = (said: Way): Way =>
  Object.fromEntries(
    (Object.keys(WAY) as (keyof Way)[]).flatMap((name) =>
      said[name] === undefined ? [] : [[name, said[name]]],
    ),
  );

/** What is asked of how well a part is likely to fit. */
export const FIT = {
  fit: flag({
    about: 'Say how near each measure is likely to come, and whether bolts go in.',
    default: false,
  }),
  /**
   * What inputs were measured with that do not say how far they may be off; they are taken as given
   * when left out.
   */
  measuredWith: optionalField(
    choice({
      about:
        'With --fit: what lengths were measured with that say no +- of their own: tape, rule or calliper.',
      choices: INSTRUMENTS,
    }),
    'taken as given',
  ),
  /** The class of ISO 2768-1 that was asked for. */
  tolerance: optionalField(
    choice({
      about: 'With --fit: the class of ISO 2768-1 to keep to: f, m, c or v.',
      choices: GENERAL_CLASSES,
    }),
    'none is kept to',
  ),
} as const;

/** A roll of paper, narrowest and widest, mm. */
const ROLL_MM = [200, 2000] as const;

const words: Field<readonly PaperKind[]> = makeField(
  {
    kind: 'text',
    about:
      'Papers to write too, any of card, sheet, model, step: card template, job sheet, GLB and STL, STEP (needs an extra package).',
    allowed: `papers: any of ${PAPER_KINDS.join(', ')}`,
    example: 'card, sheet',
  },
  WORDS_INPUT,
  (given): FieldReading<readonly PaperKind[]> => {
    const all = typeof given === 'string' ? given.split(/[\s,]+/).filter((w) => w !== '') : given;
    const kinds = all.map((word) => PAPER_KINDS.find((kind) => kind === word.trim().toLowerCase()));
    const strange = kinds.indexOf(undefined);
    if (strange >= 0) return { ok: false, ...(typeof given !== 'string' && { path: [strange] }) };
    return typeof given === 'string' && all.length === 0
      ? { ok: false }
      : { ok: true, value: kinds.filter((kind) => kind !== undefined) };
  },
);

/** A file may list them. */
const papers = fieldOf(
  words.facts,
  () => ({
    anyOf: [{ type: 'string' }, { type: 'array', items: { type: 'string', enum: PAPER_KINDS } }],
  }),
  words.read,
);

/** What is written beside the files to cut. */
export const PAPERS = {
  papers: optionalField(papers, 'none'),
  paper: makeField(
    {
      kind: 'text',
      about:
        'What a card template is printed on: a4, a3, letter, or roll and its width, such as "roll 610".',
      allowed: `a4, a3, letter, or roll and its width from ${figure(ROLL_MM[0])} to ${figure(ROLL_MM[1])} mm, such as roll 610`,
      default: 'a4',
      example: 'roll 610',
    },
    SCALAR,
    (given): FieldReading<PaperSize> => {
      const said = String(given).trim().toLowerCase();
      if (said === 'a4' || said === 'a3' || said === 'letter') return { ok: true, value: said };
      const width = said.startsWith('roll') ? parseLength(said.slice(4)) : undefined;
      return width?.ok === true && width.value >= ROLL_MM[0] && width.value <= ROLL_MM[1]
        ? { ok: true, value: { rollMm: width.value } }
        : { ok: false };
    },
  ),
} as const;
