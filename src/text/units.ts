/**
 * The one reader for lengths, angles and small numbers that a person types, and the only place that
 * knows how long an inch is.
 *
 * A length is a number with or without a unit, or a sum of such: `101.6`, `10 cm`, `4in`, `4"`, `2
 * 1/2"`, `1/8in`, `2½in`, `5'`, `2ft 3in`, `120-2*3`, `4in + 1/8in`, `(300-2*1.5)/2`. The usual
 * precedence holds. A number without a unit is in millimetres, also beside a length that has one:
 * `10 + 4in` is 10 mm and 4 inches. A fraction of whole numbers takes the unit that follows it
 * (`1/8in`), and a whole number, a space and a fraction make a mixed number. A length may be
 * multiplied or divided by a plain number only.
 *
 * Two signs in a row (`10 +-0.2`, `5 - -3`) are refused: the first reads as a tolerance. So are the
 * hyphens of `4-1/8"` and `2'-3"`, which one reader takes for "and" and the next for "minus".
 */

import { evaluate, type Evaluated, type Kind, type Names, type Unit } from './expression.ts';

/** An inch is 25.4 mm exactly (international yard and pound agreement of 1959; ISO 80000-3). */
export const MM_PER_INCH = 25.4;

/** Cubic metres and litres in a cubic millimetre. */
export const M3_PER_MM3 = 1 / 1_000_000_000;
export const LITRES_PER_MM3 = 1 / 1_000_000;

/**
 * The number that was read (mm, degrees or plain), or one sentence that says what is wrong, where,
 * and what would be right.
 */
export type ParsedNumber = Evaluated;

/** Reads a length in mm, at most 100 000 mm either way. */
export const parseLength = (text: string, names?: Names): ParsedNumber =>
  parse(text, LENGTH, names);

/** Reads an angle in degrees, at most a full turn either way: `90`, `90deg`, `90°`, `180-35.5`. */
export const parseAngle = (text: string, names?: Names): ParsedNumber => parse(text, ANGLE, names);

/**
 * Reads a plain number, at most a thousand million either way: a count, a factor, a strength. It
 * takes no unit.
 */
export const parseNumber = (text: string, names?: Names): ParsedNumber =>
  parse(text, NUMBER, names);

const MILLIMETRE: Unit = { size: 1 };
const CENTIMETRE: Unit = { size: 10 };
const METRE: Unit = { size: 1000 };
const INCH: Unit = { size: MM_PER_INCH };
const FOOT: Unit = { size: 12 * MM_PER_INCH, followedBy: INCH };
const DEGREE: Unit = { size: 1 };

const spelt = (unit: Unit, ...spellings: string[]): [string, Unit][] =>
  spellings.map((spelling) => [spelling, unit]);

const LENGTH: Kind = {
  article: 'a length',
  units: new Map([
    ...spelt(MILLIMETRE, 'mm'),
    ...spelt(CENTIMETRE, 'cm'),
    ...spelt(METRE, 'm'),
    ...spelt(INCH, 'in', 'inch', 'inches', '"', '″', '”', '“', "''", '′′', '’’'),
    ...spelt(FOOT, 'ft', 'foot', 'feet', "'", '′', '’'),
  ]),
  unitsAllowed: `lengths take mm, cm, m, in, ft, " or '`,
  limit: 100_000,
  limitText: '100000 mm',
  examples: '101.6, 10 cm, 4in or 2 1/2in',
};

const ANGLE: Kind = {
  article: 'an angle',
  units: new Map(spelt(DEGREE, 'deg', 'degree', 'degrees', '°')),
  unitsAllowed: 'angles take deg or °',
  limit: 360,
  limitText: '360 degrees',
  examples: '90 or 37.5°',
};

const NUMBER: Kind = {
  article: 'a number',
  units: new Map(),
  unitsAllowed: 'a plain number takes none',
  limit: 1e9,
  limitText: '1000000000',
  examples: '4 or 0.42',
};

/** A unit other than millimetres: the word written behind a figure, and its length. */
export interface TypedUnit {
  readonly word: 'cm' | 'm' | 'in';
  readonly mm: number;
}

const TELLABLE: ReadonlyMap<Unit, TypedUnit> = new Map([
  [CENTIMETRE, { word: 'cm', mm: CENTIMETRE.size }],
  [METRE, { word: 'm', mm: METRE.size }],
  [INCH, { word: 'in', mm: INCH.size }],
  [FOOT, { word: 'in', mm: INCH.size }],
]);

/**
 * The last unit that was typed in a length; `undefined` for millimetres. Feet are answered in
 * inches.
 */
export function typedUnit(text: string): TypedUnit | undefined {
  const units = (text.match(/[a-z]+|''|′′|’’|["″”“'′’]/gi) ?? []).flatMap(
    (word) => LENGTH.units.get(word.toLowerCase()) ?? [],
  );
  const last = units.at(-1);
  return last === undefined ? undefined : TELLABLE.get(last);
}

const MOST_CHARACTERS = 200;

/**
 * Number of figures that sums keep, which drops the noise of binary fractions: `3 1/2in` is 88.9
 * and not 88.89999999999999.
 */
const FIGURES = 14;

const bad = (reason: string): ParsedNumber => ({ ok: false, reason });

/**
 * A plain decimal, as most inputs are; it needs none of the machinery below and keeps every figure
 * that it has, so that what was written out of a part reads as that part.
 */
const PLAIN = /^-?\d{1,9}(?:\.\d{1,30})?(?:e-\d{1,3})?$/;

function parse(text: string, kind: Kind, names: Names | undefined): ParsedNumber {
  if (PLAIN.test(text)) return withinLimit(Number(text) + 0, kind);
  if (text.length > MOST_CHARACTERS) {
    return bad(
      `${kind.article} takes at most ${MOST_CHARACTERS} characters, and this has ${text.length}`,
    );
  }
  if (text.trim() === '')
    return bad(`nothing is given; write ${kind.article} such as ${kind.examples}`);
  const slip = commaSlip(text) ?? hyphenSlip(text);
  if (slip !== undefined) return bad(slip);

  const evaluated = evaluate(text, kind, names);
  if (!evaluated.ok) return evaluated;
  return withinLimit(Number(evaluated.value.toPrecision(FIGURES)), kind);
}

function withinLimit(value: number, kind: Kind): ParsedNumber {
  if (Math.abs(value) <= kind.limit) return { ok: true, value };
  const size = Number.isFinite(value)
    ? String(Number(value.toPrecision(9)))
    : 'a number without end';
  return bad(
    `this comes to ${size}; ${kind.article} must lie between -${kind.limitText} and ${kind.limitText}`,
  );
}

function commaSlip(text: string): string | undefined {
  const comma = /(\d*),(\d*)/.exec(text);
  if (comma === null) return undefined;
  const [, before = '', after = ''] = comma;
  const place = comma.index + before.length + 1;
  if (before === '' || after === '') return `the comma at character ${place} does not belong here`;
  const thousands = after.length === 3 ? `, or ${before}${after} if thousands are meant` : '';
  return `the comma at character ${place} is no decimal mark here; write ${before}.${after}${thousands}`;
}

/** A whole number joined by a hyphen to a fraction of an inch, or feet to inches. */
const HYPHENATED =
  /(?<![^\s(])(?<whole>\d+)-(?<fraction>\d+[/⁄]\d+)\s*(?:in|["″”“]|''|′′)|\d\s*(?:ft|(?<!['′’])['′’])-(?=[\d.])/i;

function hyphenSlip(text: string): string | undefined {
  const found = HYPHENATED.exec(text);
  if (found === null) return undefined;
  const { whole, fraction } = found.groups ?? {};
  const place = `the hyphen at character ${found.index + found[0].indexOf('-') + 1} can be read in two ways;`;
  return whole === undefined
    ? `${place} write a space instead for feet and inches, or spaces round it to subtract`
    : `${place} write ${whole} ${fraction}in for inches, or ${whole}mm - ${fraction}in to subtract from millimetres`;
}
