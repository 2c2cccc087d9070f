import { MOST_HITS } from '../bending/bump.ts';
import { INSTRUMENTS } from '../data/tolerances/accuracy.ts';
import { GENERAL_CLASSES } from '../data/tolerances/general.ts';
import { DRILLED_MARKS, FOLD_AT, FOLD_MARKS } from '../model/shop.ts';
import type { WideBends } from '../model/wide-bends.ts';
import { parseLength } from '../text/units.ts';
import { SCALAR } from './accepts.ts';
import { type FieldReading, makeField, optionalField, type ValueOf } from './field.ts';
import { choice, flag, text } from './fields.ts';

/*
 * Options of making, each defined here and nowhere else. The flags of `make`, the defaults of a job
 * file and its JSON Schema follow from them.
 */

/** Greatest kerf that may be given, mm, wider than any cut. */
const WIDEST_KERF_MM = 10;

/** Sides of a blank as it is drawn, in the words of `datum`; a hole there has its name on paper. */
const DATUM_NAME = /^(?:(?:.+ )?(?:left|right|bottom|top)|h[1-9]\d*)$/;
const MOST_DATUM_NAMES = 2;

const AS_SHOP = 'as the shop file has it';

const [LEAST_STAND_OFF_MM, MOST_STAND_OFF_MM] = [0.01, 20];

const readWideBends = (given: unknown): FieldReading<WideBends> => {
  const word = String(given).trim().toLowerCase();
  if (word === 'rolled' || word === 'former' || word === 'bumped')
    return { ok: true, value: { way: word } };
  if (/^\d+$/.test(word)) {
    const hits = Number(word);
    return hits >= 2 && hits <= MOST_HITS
      ? { ok: true, value: { way: 'bumped', hits } }
      : { ok: false };
  }
  // A bare figure is a number of hits, so a length bears its unit.
  const off = /[a-z"]$/.test(word) ? parseLength(word) : undefined;
  return off?.ok === true && off.value >= LEAST_STAND_OFF_MM && off.value <= MOST_STAND_OFF_MM
    ? { ok: true, value: { way: 'bumped', standOffMm: off.value } }
    : { ok: false };
};

/** How a part is made, whatever it is. */
export const WAY = {
  /** Whether drawings hold the cut alone; everything is drawn when left out. */
  cutOnly: flag({ about: 'Only what is cut: no fold lines, no notes.', default: false }),
  /** The dialect of the DXF; that of release 2000 when left out. */
  dxfVersion: choice({
    about: 'The dialect of the DXF: r2000, or r12 for old controllers.',
    choices: ['r2000', 'r12'],
    default: 'r2000',
  }),
  /** Place where it is folded; in the shop where its machines can, when left out. */
  foldAt: optionalField(
    choice({
      about:
        'Where it is folded. here: a part that the shop cannot fold is stopped; service: it is folded elsewhere; auto: here where it can be.',
      choices: FOLD_AT,
    }),
    'auto',
  ),
  /** Name of the cutter that it is cut with, or its process; the first that takes the sheet when left out. */
  cutWith: optionalField(
    text({
      about: 'The cutter it is cut with, by its name or process in the shop file: laser, plasma.',
      max: 80,
    }),
    'the first cutter that takes the sheet',
  ),
  /** Whether the plan leaves out what hands would do beside the machine. */
  byMachineOnly: flag({
    about:
      'Plan without the help of hands: no fold over a block, no last degrees by hand, no packers.',
    default: false,
  }),
  /**
   * What sizes on the papers are measured from: names of edges or holes of the blank; two edges that a
   * tape hooks on best when left out.
   */
  datum: optionalField(
    makeField(
      {
        kind: 'text',
        about:
          'What sizes on the papers are measured from: two edges at right angles, an edge and a hole, or two holes.',
        allowed:
          'one or two of left, right, bottom, top (the outermost straight edge on that side of the blank as it is drawn), an edge of a panel (web left), a hole as the sheet names it (h1), with a comma between',
        example: 'left, bottom',
      },
      SCALAR,
      (given): FieldReading<readonly string[]> => {
        const names = String(given)
          .split(',')
          .map((name) => name.trim().split(/\s+/).join(' '))
          .filter((name) => name !== '');
        return names.length > 0 &&
          names.length <= MOST_DATUM_NAMES &&
          names.every((name) => DATUM_NAME.test(name))
          ? { ok: true, value: names }
          : { ok: false };
      },
    ),
    'the two edges that a tape hooks on best',
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
   * How the middles of holes that are drilled are put on the metal; the shop decides when left out,
   * and they are pierced where only cuts are drawn.
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
   * How fold lines are put on the metal: lines to be marked, nicks at their ends, or not at all;
   * the shop decides when left out.
   */
  marks: optionalField(
    choice({
      about: 'How fold lines come onto the metal: lines, nicks in the edge at their ends, or none.',
      choices: FOLD_MARKS,
    }),
    AS_SHOP,
  ),
  /** How bends are formed that are far wider than the machines' tools; as the plan finds best when left out. */
  wideBends: optionalField(
    makeField(
      {
        kind: 'text',
        about:
          'How bends far wider than a tool makes them are formed: rolled, former (by hand round a pipe), bumped, or bumped in a number of hits or with corners no farther off the arc than a length. Lines of hits are marked on the blank.',
        allowed: `rolled, former, bumped, a number of hits from 2 to ${MOST_HITS}, or a length with its unit from ${LEAST_STAND_OFF_MM} to ${MOST_STAND_OFF_MM} mm`,
        example: '24',
      },
      SCALAR,
      readWideBends,
    ),
    'rolled where rolls of the shop take them, or bumped where a machine gets through all hits, or round a former; no hits are marked',
  ),
  /** Whether a part that the shop cannot fold is made in another design; it is not when left out. */
  makeFoldable: flag({
    about:
      'Make a part that the shop cannot fold in another design that it can: welded or slit at folds, or with a choice or a size changed. A warning says what was changed.',
    default: false,
  }),
} as const;

/** Values of some of these options; all of them may be left out. */
export type Chosen<Fields> = { readonly [K in keyof Fields]?: ValueOf<Fields[K]> | undefined };

export type Way = Chosen<typeof WAY>;

/** Those of the options that belong to the way a part is made. */
export const wayIn = (said: Way): Way =>
  Object.fromEntries(
    (Object.keys(WAY) as (keyof Way)[]).flatMap((name) =>
      said[name] === undefined ? [] : [[name, said[name]]],
    ),
  );

/** Options for how well a part is likely to fit. */
export const FIT = {
  fit: flag({
    about: 'Say how near each measure is likely to come, and whether bolts go in.',
    default: false,
  }),
  /**
   * Instrument for the inputs that do not state how far they may be off; they are taken as exact
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
  /** Class of ISO 2768-1 that was asked for. */
  tolerance: optionalField(
    choice({
      about: 'With --fit: the class of ISO 2768-1 to keep to: f, m, c or v.',
      choices: GENERAL_CLASSES,
    }),
    'none is kept to',
  ),
} as const;
