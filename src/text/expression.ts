/**
 * Reads a sum of quantities: numbers, fractions and mixed numbers, each with or without a unit,
 * joined by + - * / and brackets. The kind of quantity that is asked for says what the units are
 * worth and which ones may be used.
 */

/** Names that may stand for numbers in a sum. */
export type Names = ReadonlyMap<string, number>;

export interface Unit {
  /** Size of the unit, mm or degrees. */
  readonly size: number;
  /** The unit that may follow without a sign: inches after feet. */
  readonly followedBy?: Unit;
}

/** A kind of quantity: what it is called, which units it takes, and examples to show. */
export interface Kind {
  readonly article: string;
  /** Units by spelling, in lower case. */
  readonly units: ReadonlyMap<string, Unit>;
  readonly unitsAllowed: string;
  readonly limit: number;
  readonly limitText: string;
  readonly examples: string;
}

/** The value in mm or degrees, or what is wrong and at which character, counted from 1. */
export type Evaluated =
  { readonly ok: true; readonly value: number } | { readonly ok: false; readonly reason: string };

const DEEPEST_BRACKETS = 20;

/** Evaluates the whole text. The value may be infinite, so the caller still checks its size. */
export function evaluate(text: string, kind: Kind, names: Names | undefined): Evaluated {
  const reader: Reader = { text, kind, names, at: 0, depth: 0, problem: undefined };
  const quantity = readSum(reader);
  if (quantity !== undefined && nextCharacter(reader) !== '')
    blameNext(reader, 'does not fit here');
  if (quantity !== undefined && reader.problem === undefined)
    return { ok: true, value: quantity.value };
  return { ok: false, reason: reader.problem ?? `this is not ${kind.article}` };
}

/** How far reading has got. The first problem stays. */
interface Reader {
  readonly text: string;
  readonly kind: Kind;
  readonly names: Names | undefined;
  at: number;
  depth: number;
  problem: string | undefined;
}

/**
 * A value in mm or degrees. `unit` is the last unit that went into it; without one it is a bare
 * number.
 */
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

/** Names the word or character that comes next, with its place counted from 1. */
function blameNext(reader: Reader, what: string): undefined {
  if (nextCharacter(reader) === '') return fail(reader, `a number is missing at the end`);
  const word = /[\p{L}\p{N}_.]+|[^]/uy;
  word.lastIndex = reader.at;
  const found = word.exec(reader.text)?.[0] ?? '';
  const shown = found.replace(
    /[\p{C}\p{Z}]/gu,
    (c) => `U+${(c.codePointAt(0) ?? 0).toString(16).padStart(4, '0')}`,
  );
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
    if (isSign(nextCharacter(reader)))
      return blameNext(reader, 'is a second sign in a row; put brackets round it');
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
    left = '*×·'.includes(operator)
      ? times(reader, left, right, place)
      : over(reader, left, right, place);
  }
  return undefined;
}

function times(
  reader: Reader,
  left: Quantity,
  right: Quantity,
  place: number,
): Quantity | undefined {
  const { article } = reader.kind;
  if (left.unit !== undefined && right.unit !== undefined) {
    return fail(
      reader,
      `the sign at character ${place} multiplies ${article} by ${article}; one side must be a plain number`,
    );
  }
  return { value: left.value * right.value, unit: left.unit ?? right.unit };
}

function over(
  reader: Reader,
  left: Quantity,
  right: Quantity,
  place: number,
): Quantity | undefined {
  if (right.unit !== undefined) {
    return fail(
      reader,
      `the sign at character ${place} divides by ${reader.kind.article}; divide by a plain number`,
    );
  }
  if (right.value === 0) return fail(reader, `the sign at character ${place} divides by zero`);
  return { value: left.value / right.value, unit: left.unit };
}

function readSigned(reader: Reader): Quantity | undefined {
  const sign = nextCharacter(reader);
  if (!isSign(sign)) return readPrimary(reader);
  reader.at += 1;
  if (isSign(nextCharacter(reader)))
    return blameNext(reader, 'is a second sign in a row; put brackets round it');
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
  if (reader.depth === DEEPEST_BRACKETS)
    return blameNext(reader, `is nested too deep; ${DEEPEST_BRACKETS} brackets are the most`);
  reader.at += 1;
  reader.depth += 1;
  const inner = readSum(reader);
  if (inner === undefined) return undefined;
  if (nextCharacter(reader) === '')
    return fail(reader, `the bracket at character ${place} is not closed`);
  if (take(reader, /\)/y) === undefined) return blameNext(reader, 'does not fit here');
  reader.depth -= 1;
  return withUnit(reader, inner);
}

/** `tankWidth`, or a length of something: `base.width`. */
const NAME = /[\p{L}_][\p{L}\p{N}_]*(?:\.[\p{L}_][\p{L}\p{N}_]*)*/uy;

function readName(reader: Reader): Quantity | undefined {
  const start = reader.at;
  const name = take(reader, NAME)?.[0] ?? '';
  const value = reader.names?.get(name);
  if (value !== undefined) return withUnit(reader, { value, unit: undefined });
  reader.at = start;
  return blameNext(
    reader,
    `is no number; write ${reader.kind.article} such as ${reader.kind.examples}`,
  );
}

/** A number, fraction or mixed number with the unit behind it, or feet and inches. */
function readLiteral(reader: Reader): Quantity | undefined {
  const number = readNumber(reader);
  if (number === undefined) return undefined;
  const quantity = withUnit(reader, number);
  const next = quantity?.unit?.followedBy;
  if (quantity === undefined || next === undefined) return quantity;
  if (!/[\d.\p{No}]/u.test(nextCharacter(reader))) return quantity;

  const place = reader.at + 1;
  const rest = readLiteral(reader);
  if (rest === undefined) return undefined;
  if (rest.unit !== next)
    return fail(reader, `after feet, the number at character ${place} must be in inches`);
  return { value: quantity.value + rest.value, unit: rest.unit };
}

function readNumber(reader: Reader): Quantity | undefined {
  const start = reader.at;
  const digits = take(reader, /(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?/iy)?.[0];
  if (digits !== undefined && !/^\d+$/.test(digits))
    return { value: Number(digits), unit: undefined };

  const sign = take(reader, /\s*([¼-¾⅐-⅞])/y)?.[1];
  const written =
    sign !== undefined
      ? /(\d+)⁄(\d+)/.exec(sign.normalize('NFKC'))
      : digits !== undefined && take(reader, /\s+(\d+)\s*[/⁄]\s*(\d+)(?![\d.])/y);
  if (written)
    return mixedNumber(reader, Number(digits ?? 0), Number(written[1]), Number(written[2]), start);
  if (digits === undefined)
    return blameNext(
      reader,
      `is no number; write ${reader.kind.article} such as ${reader.kind.examples}`,
    );
  return fractionBeforeUnit(reader, Number(digits));
}

function mixedNumber(
  reader: Reader,
  whole: number,
  top: number,
  bottom: number,
  start: number,
): Quantity | undefined {
  if (top >= bottom) {
    return fail(
      reader,
      `the fraction ${top}/${bottom} of the number at character ${start + 1} is not less than 1; a sign may be missing`,
    );
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
  if (unit !== undefined && quantity.unit === undefined)
    return { value: quantity.value * unit.size, unit };
  reader.at = start;
  return blameNext(
    reader,
    unit === undefined ? `is no unit; ${reader.kind.unitsAllowed}` : 'is a second unit',
  );
}
