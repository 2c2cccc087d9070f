/**
 * The one reader for lengths, angles and small numbers that a person types, and the only place that knows how long
 * an inch is.
 *
 * A length is a number with or without a unit, or a sum of such: `101.6`, `10 cm`, `4in`, `4"`, `2 1/2"`, `1/8in`,
 * `2½in`, `5'`, `2ft 3in`, `120-2*3`, `4in + 1/8in`, `(300-2*1.5)/2`. The usual precedence holds. A number without
 * a unit is in millimetres, also beside a length that has one: `10 + 4in` is 10 mm and 4 inches. A fraction of whole
 * numbers takes the unit that follows it (`1/8in`), and a whole number, a space and a fraction make a mixed number.
 * A length may be multiplied or divided by a plain number only.
 *
 * Two signs in a row (`10 +-0.2`, `5 - -3`) are refused: the first reads as a tolerance. So are the hyphens of
 * `4-1/8"` and `2'-3"`, which one reader takes for "and" and the next for "minus".
 */

/** An inch is 25.4 mm exactly (international yard and pound agreement of 1959; ISO 80000-3). */
export const MM_PER_INCH = 25.4;

/** The number read (mm, degrees or plain), or one sentence that says what is wrong, where, and what would do. */
export type ParsedNumber =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly reason: string };

/** Names that may stand for numbers in a sum. */
export type Names = ReadonlyMap<string, number>;

/** Reads a length in mm, at most 100 000 mm either way. */
export const parseLength = (text: string, names?: Names): ParsedNumber => parse(text, LENGTH, names);

/** Reads an angle in degrees, at most a full turn either way: `90`, `90deg`, `90°`, `180-35.5`. */
export const parseAngle = (text: string, names?: Names): ParsedNumber => parse(text, ANGLE, names);

/** Reads a plain number, at most a thousand million either way: a count, a factor, a strength. It takes no unit. */
export const parseNumber = (text: string, names?: Names): ParsedNumber => parse(text, NUMBER, names);

interface Unit {
  readonly name: string;
  /** In mm or degrees. */
  readonly size: number;
}

interface Kind {
  readonly article: string;
  readonly units: ReadonlyMap<string, Unit>;
  readonly unitsAllowed: string;
  readonly limit: number;
  readonly limitText: string;
  readonly examples: string;
}

const MILLIMETRE: Unit = { name: 'mm', size: 1 };
const CENTIMETRE: Unit = { name: 'cm', size: 10 };
const METRE: Unit = { name: 'm', size: 1000 };
const INCH: Unit = { name: 'in', size: MM_PER_INCH };
const FOOT: Unit = { name: 'ft', size: 12 * MM_PER_INCH };
const DEGREE: Unit = { name: 'deg', size: 1 };

const spelt = (unit: Unit, ...spellings: string[]): [string, Unit][] => spellings.map((spelling) => [spelling, unit]);

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

const MOST_CHARACTERS = 200;
const DEEPEST_BRACKETS = 20;

const bad = (reason: string): ParsedNumber => ({ ok: false, reason });

/** Thousands of inputs are plain decimals; they need none of the machinery below. */
const PLAIN = /^\d{1,9}(?:\.\d{1,12})?$/;

function parse(text: string, kind: Kind, names: Names | undefined): ParsedNumber {
  if (PLAIN.test(text)) return withinLimit(Number(text), kind);
  if (text.length > MOST_CHARACTERS) {
    return bad(`${kind.article} takes at most ${MOST_CHARACTERS} characters, and this has ${text.length}`);
  }
  if (text.trim() === '') return bad(`nothing is given; write ${kind.article} such as ${kind.examples}`);
  const slip = commaSlip(text) ?? hyphenSlip(text);
  if (slip !== undefined) return bad(slip);

  const reader: Reader = { text, kind, names, at: 0, depth: 0, problem: undefined };
  const quantity = readSum(reader);
  if (quantity !== undefined && nextCharacter(reader) !== '') blameNext(reader, 'does not fit here');
  if (quantity === undefined || reader.problem !== undefined) {
    return bad(reader.problem ?? `this is not ${kind.article}; write one such as ${kind.examples}`);
  }
  return withinLimit(quantity.value, kind);
}

function withinLimit(value: number, kind: Kind): ParsedNumber {
  if (Math.abs(value) <= kind.limit) return { ok: true, value: value + 0 };
  const size = Number.isFinite(value) ? String(Number(value.toPrecision(9))) : 'a number without end';
  return bad(`this comes to ${size}; ${kind.article} must lie between -${kind.limitText} and ${kind.limitText}`);
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

/** A whole number glued by a hyphen to a fraction of an inch, or feet to inches. */
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

/** Where reading has got to. The first problem met stays. */
interface Reader {
  readonly text: string;
  readonly kind: Kind;
  readonly names: Names | undefined;
  at: number;
  depth: number;
  problem: string | undefined;
}

/** In mm or degrees. `unit` is the last unit that went into it; without one it is a bare number. */
interface Quantity {
  readonly value: number;
  readonly unit: Unit | undefined;
}

function fail(reader: Reader, problem: string): undefined {
  reader.problem ??= problem;
  return undefined;
}

/** The next character that is no space, or '' at the end. */
function nextCharacter(reader: Reader): string {
  take(reader, /\s*/y);
  return reader.text.charAt(reader.at);
}

/** Matches a sticky pattern here and steps over it. */
function take(reader: Reader, pattern: RegExp): RegExpExecArray | undefined {
  pattern.lastIndex = reader.at;
  const found = pattern.exec(reader.text);
  if (found === null) return undefined;
  reader.at += found[0].length;
  return found;
}

/** Names the word or character that stands next, and its place counted from 1. */
function blameNext(reader: Reader, what: string): undefined {
  if (nextCharacter(reader) === '') return fail(reader, `a number is missing at the end`);
  const word = /[\p{L}\p{N}_.]+|[^]/uy;
  word.lastIndex = reader.at;
  const found = word.exec(reader.text)?.[0] ?? '';
  const shown = found.replace(/[\p{C}\p{Z}]/gu, (c) => `U+${(c.codePointAt(0) ?? 0).toString(16).padStart(4, '0')}`);
  return fail(reader, `'${shown}' at character ${reader.at + 1} ${what}`);
}

const SIGNS = '+-−–';
const isMinus = (sign: string): boolean => sign !== '+';
const isSign = (character: string): boolean => character !== '' && SIGNS.includes(character);

function readSum(reader: Reader): Quantity | undefined {
  let left = readProduct(reader);
  while (left !== undefined && isSign(nextCharacter(reader))) {
    const sign = nextCharacter(reader);
    reader.at += 1;
    if (isSign(nextCharacter(reader))) return blameNext(reader, 'is a second sign in a row; put brackets round it');
    const right = readProduct(reader);
    if (right === undefined) return undefined;
    const value: number = left.value + (isMinus(sign) ? -right.value : right.value);
    left = { value, unit: left.unit ?? right.unit };
  }
  return left;
}

function readProduct(reader: Reader): Quantity | undefined {
  let left = readSigned(reader);
  while (left !== undefined) {
    const operator = nextCharacter(reader);
    if (operator === '' || !'*×·/÷⁄'.includes(operator)) return left;
    const place = reader.at + 1;
    reader.at += 1;
    const right = readSigned(reader);
    if (right === undefined) return undefined;
    left = '*×·'.includes(operator) ? times(reader, left, right, place) : over(reader, left, right, place);
  }
  return undefined;
}

function times(reader: Reader, left: Quantity, right: Quantity, place: number): Quantity | undefined {
  if (left.unit !== undefined && right.unit !== undefined) {
    return fail(reader, `the sign at character ${place} multiplies ${left.unit.name} by ${right.unit.name}; one side must be a plain number`);
  }
  return { value: left.value * right.value, unit: left.unit ?? right.unit };
}

function over(reader: Reader, left: Quantity, right: Quantity, place: number): Quantity | undefined {
  if (right.unit !== undefined) {
    return fail(reader, `the sign at character ${place} divides by a number in ${right.unit.name}; divide by a plain number`);
  }
  if (right.value === 0) return fail(reader, `the sign at character ${place} divides by zero`);
  return { value: left.value / right.value, unit: left.unit };
}

function readSigned(reader: Reader): Quantity | undefined {
  const sign = nextCharacter(reader);
  if (!isSign(sign)) return readPrimary(reader);
  reader.at += 1;
  if (isSign(nextCharacter(reader))) return blameNext(reader, 'is a second sign in a row; put brackets round it');
  const quantity = readPrimary(reader);
  return quantity && isMinus(sign) ? { value: -quantity.value, unit: quantity.unit } : quantity;
}

function readPrimary(reader: Reader): Quantity | undefined {
  const next = nextCharacter(reader);
  if (next === '(') return readBrackets(reader);
  if (/\p{L}|_/u.test(next)) return readName(reader);
  return readLiteral(reader);
}

function readBrackets(reader: Reader): Quantity | undefined {
  const place = reader.at + 1;
  if (reader.depth === DEEPEST_BRACKETS) return blameNext(reader, `is nested too deep; ${DEEPEST_BRACKETS} brackets are the most`);
  reader.at += 1;
  reader.depth += 1;
  const inner = readSum(reader);
  if (inner === undefined) return undefined;
  if (nextCharacter(reader) === '') return fail(reader, `the bracket at character ${place} is not closed`);
  if (take(reader, /\)/y) === undefined) return blameNext(reader, 'does not fit here');
  reader.depth -= 1;
  return withUnit(reader, inner);
}

function readName(reader: Reader): Quantity | undefined {
  const start = reader.at;
  const name = take(reader, /[\p{L}_][\p{L}\p{N}_]*/uy)?.[0] ?? '';
  const value = reader.names?.get(name);
  if (value !== undefined) return withUnit(reader, { value, unit: undefined });
  reader.at = start;
  return blameNext(reader, `is no number; write ${reader.kind.article} such as ${reader.kind.examples}`);
}

/** A number, fraction or mixed number with the unit behind it, or feet and inches. */
function readLiteral(reader: Reader): Quantity | undefined {
  const number = readNumber(reader);
  if (number === undefined) return undefined;
  const quantity = withUnit(reader, number);
  if (quantity?.unit !== FOOT || !/[\d.\p{No}]/u.test(nextCharacter(reader))) return quantity;

  const place = reader.at + 1;
  const rest = readLiteral(reader);
  if (rest === undefined) return undefined;
  if (rest.unit !== INCH) return fail(reader, `after feet, the number at character ${place} must be in inches`);
  return { value: quantity.value + rest.value, unit: INCH };
}

function readNumber(reader: Reader): Quantity | undefined {
  const start = reader.at;
  const digits = take(reader, /(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?/iy)?.[0];
  if (digits !== undefined && !/^\d+$/.test(digits)) return { value: Number(digits), unit: undefined };

  const sign = take(reader, /\s*([¼-¾⅐-⅞])/y)?.[1];
  const written =
    sign !== undefined
      ? /(\d+)⁄(\d+)/.exec(sign.normalize('NFKC'))
      : digits !== undefined && take(reader, /\s+(\d+)\s*[/⁄]\s*(\d+)(?![\d.])/y);
  if (written) return mixedNumber(reader, Number(digits ?? 0), Number(written[1]), Number(written[2]), start);
  if (digits === undefined) return blameNext(reader, `is no number; write ${reader.kind.article} such as ${reader.kind.examples}`);
  return fractionBeforeUnit(reader, Number(digits));
}

function mixedNumber(reader: Reader, whole: number, top: number, bottom: number, start: number): Quantity | undefined {
  if (top >= bottom) {
    return fail(reader, `the fraction ${top}/${bottom} of the number at character ${start + 1} is not less than 1; a sign may be missing`);
  }
  return { value: whole + top / bottom, unit: undefined };
}

/** `1/8in` is an eighth of an inch, though `1/8` alone is a division like any other. */
function fractionBeforeUnit(reader: Reader, top: number): Quantity {
  const start = reader.at;
  const bottom = Number(take(reader, /\s*[/⁄]\s*(\d+)(?![\d.])(?=\s*[\p{L}"″”“'′’°])/uy)?.[1]);
  if (bottom > 0) return { value: top / bottom, unit: undefined };
  reader.at = start;
  return { value: top, unit: undefined };
}

/** The quantity in the unit that stands behind it, if one does. */
function withUnit(reader: Reader, quantity: Quantity): Quantity | undefined {
  nextCharacter(reader);
  const start = reader.at;
  const word = take(reader, /\p{L}+|''|′′|’’|["″”“'′’°]/uy)?.[0];
  if (word === undefined) return quantity;
  const unit = reader.kind.units.get(word.toLowerCase());
  if (unit !== undefined && quantity.unit === undefined) return { value: quantity.value * unit.size, unit };
  reader.at = start;
  return blameNext(reader, unit === undefined ? `is no unit; ${reader.kind.unitsAllowed}` : 'is a second unit');
}
