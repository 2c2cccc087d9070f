import { SCALAR, WORDS_INPUT } from '../../forms/accepts.ts';
import {
  type Field,
  fieldOf,
  type FieldReading,
  makeField,
  optionalField,
} from '../../forms/field.ts';
import { type PaperSize, SHEET_NAMES } from '../../model/paper.ts';
import { figure } from '../../text/figures.ts';
import { choice } from '../../forms/fields.ts';
import { PRINT_UNITS } from '../../text/printed.ts';
import { parseLength } from '../../text/units.ts';
import { aboutOutput, OUTPUT_IDS, type OutputId } from './index.ts';

/** Narrowest and widest roll of paper, mm. */
const ROLL_MM = [200, 2000] as const;

const PAPERS = `${SHEET_NAMES.join(', ')}, plotter (all on one page), or roll and its width`;

const words: Field<readonly OutputId[]> = makeField(
  {
    kind: 'text',
    about: `Papers to write too, any of ${OUTPUT_IDS.join(', ')}: ${OUTPUT_IDS.map(aboutOutput).join(', ')}.`,
    allowed: `papers: any of ${OUTPUT_IDS.join(', ')}`,
    example: 'card, sheet',
  },
  WORDS_INPUT,
  (given): FieldReading<readonly OutputId[]> => {
    const all = typeof given === 'string' ? given.split(/[\s,]+/).filter((w) => w !== '') : given;
    const kinds = all.map((word) => OUTPUT_IDS.find((kind) => kind === word.trim().toLowerCase()));
    const strange = kinds.indexOf(undefined);
    if (strange >= 0) return { ok: false, ...(typeof given !== 'string' && { path: [strange] }) };
    return typeof given === 'string' && all.length === 0
      ? { ok: false }
      : { ok: true, value: kinds.filter((kind) => kind !== undefined) };
  },
);

/** The list of outputs, as a file may give it. */
const papers = fieldOf(
  words.facts,
  () => ({
    anyOf: [{ type: 'string' }, { type: 'array', items: { type: 'string', enum: OUTPUT_IDS } }],
  }),
  words.read,
);

/** Options for what is written besides the cut files. */
export const OUTPUTS_ASKED = {
  papers: optionalField(papers, 'none'),
  printUnits: choice({
    about:
      'Unit of lengths that are printed: mm, or inch in fractions to 1/32 with what is left over; files to cut and JSON stay as they are.',
    choices: PRINT_UNITS,
    default: 'mm',
  }),
  paper: makeField(
    {
      kind: 'text',
      about: `Paper for a card template: ${PAPERS}, such as "roll 610".`,
      allowed: `${PAPERS} from ${figure(ROLL_MM[0])} to ${figure(ROLL_MM[1])} mm, such as roll 610`,
      default: 'a4',
      example: 'roll 610',
    },
    SCALAR,
    (given): FieldReading<PaperSize> => {
      const said = String(given).trim().toLowerCase();
      const sheet = SHEET_NAMES.find((name) => name === said);
      if (sheet !== undefined) return { ok: true, value: sheet };
      if (said === 'plotter') return { ok: true, value: said };
      const width = said.startsWith('roll') ? parseLength(said.slice(4)) : undefined;
      return width?.ok === true && width.value >= ROLL_MM[0] && width.value <= ROLL_MM[1]
        ? { ok: true, value: { rollMm: width.value } }
        : { ok: false };
    },
  ),
} as const;
