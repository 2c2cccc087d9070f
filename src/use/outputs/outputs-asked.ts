import { SCALAR, WORDS_INPUT } from '../../forms/accepts.ts';
import {
  type Field,
  fieldOf,
  type FieldReading,
  makeField,
  optionalField,
} from '../../forms/field.ts';
import { type PaperSize, SHEET_NAMES, SIZES_BY } from '../../model/paper.ts';
import { figure } from '../../text/figures.ts';
import { choice, text } from '../../forms/fields.ts';
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

/** Paper as a person calls it. */
export const paperWords = (paper: PaperSize): string =>
  typeof paper === 'object'
    ? `a roll of ${figure(paper.rollMm)} mm`
    : paper === 'plotter'
      ? 'a plotter'
      : paper === 'letter'
        ? 'Letter'
        : paper.toUpperCase();

/** Options for what is written besides the cut files. */
export const OUTPUTS_ASKED = {
  papers: optionalField(papers, 'none'),
  printUnits: choice({
    about:
      'Unit of lengths that are printed: mm, or inch in fractions to 1/32 with what is left over; files to cut and JSON stay as they are.',
    choices: PRINT_UNITS,
    default: 'mm',
  }),
  /** A4 when left out, and for drawings in archives A3 where a part is drawn larger on it. */
  paper: optionalField(
    makeField(
      {
        kind: 'text',
        about: `Paper of everything that is printed: ${SHEET_NAMES.join(', ')}; of a card alone plotter (all on one page) or a roll and its width, such as "roll 610".`,
        allowed: `${PAPERS} from ${figure(ROLL_MM[0])} to ${figure(ROLL_MM[1])} mm, such as roll 610`,
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
    'a4',
  ),
  sizes: choice({
    about:
      'Sizes of the blank on sheets and drawings: baseline, all from the datum, or chain, each from the one before.',
    choices: SIZES_BY,
    default: 'baseline',
  }),
  /** All when left out. */
  cardOf: optionalField(
    makeField(
      {
        kind: 'text',
        about: 'Pieces that cards are made of, where not all are wanted.',
        allowed: 'names of pieces or parts, with a comma between',
        example: 'front, top',
      },
      SCALAR,
      (given): FieldReading<readonly string[]> => {
        const names = String(given)
          .split(',')
          .map((name) => name.trim().toLowerCase())
          .filter((name) => name !== '');
        return names.length > 0 ? { ok: true, value: names } : { ok: false };
      },
    ),
    'all',
  ),
  date: optionalField(
    text({ about: 'The day that papers bear in their title blocks, as you write it.', max: 40 }),
    'left to be filled in by hand',
  ),
} as const;
