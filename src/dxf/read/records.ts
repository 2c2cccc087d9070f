import { printable } from './printable.ts';
import { refuse } from './refusal.ts';

/** One thing in a file: its type (group 0), and its groups in turn. */
export interface DxfRecord {
  readonly type: string;
  readonly codes: number[];
  readonly values: string[];
}

/**
 * The records of a file by section; groups of the header are one record, of the tables there are
 * layers only.
 */
export interface DxfSections {
  readonly header: DxfRecord;
  readonly tables: readonly DxfRecord[];
  readonly blocks: readonly DxfRecord[];
  readonly entities: readonly DxfRecord[];
  readonly hasEntities: boolean;
  /** Cut off before `EOF`: told, as the rest may be missing. */
  readonly isCutOff: boolean;
}

/** A drawing for a cutter has some thousands; each takes some hundred bytes of memory. */
const MOST_RECORDS = 1_000_000;

/**
 * Reads a DXF text by its group codes (DXF Reference, "General DXF file structure"): a line with a
 * code, a line with its value. Sections that no geometry stands in are passed over. Refuses a text
 * that is none, or holds too much.
 */
export const readRecords = (text: string): DxfSections => {
  const [tables, blocks, entities]: [DxfRecord[], DxfRecord[], DxfRecord[]] = [[], [], []];
  const header: DxfRecord = { type: 'HEADER', codes: [], values: [] };
  const lines = new LinePairs(text);
  let [count, awaitsName, hasSection, hasEntities, isCutOff] = [0, false, false, false, true];
  let section: DxfRecord[] | undefined;
  let record: DxfRecord | undefined;
  while (lines.next()) {
    const { code, value } = lines;
    if (code === 0) {
      if (value === 'EOF') {
        isCutOff = false;
        break;
      }
      awaitsName = value === 'SECTION';
      if (value === 'ENDSEC') section = undefined;
      record = undefined;
      if (section === undefined || (section === tables && value !== 'LAYER')) continue;
      if (++count > MOST_RECORDS)
        refuse(
          `it holds more than ${MOST_RECORDS} things`,
          'leave pictures, hatches and other parts out',
        );
      record = { type: value, codes: [], values: [] };
      section.push(record);
    } else if (awaitsName && code === 2) {
      [awaitsName, hasSection] = [false, true];
      hasEntities ||= value === 'ENTITIES';
      section =
        value === 'ENTITIES'
          ? entities
          : value === 'BLOCKS'
            ? blocks
            : value === 'TABLES'
              ? tables
              : undefined;
      record = value === 'HEADER' ? header : undefined;
    } else if (record !== undefined) {
      record.codes.push(code);
      record.values.push(value);
    }
  }
  if (!hasSection) refuse('it is no DXF text', 'give a DXF file in text form');
  return { header, tables, blocks, entities, hasEntities, isCutOff };
};

const [NEW_LINE, MINUS, ZERO, NINE, BLANK] = [10, 45, 48, 57, 32] as const;
const MOST_DIGITS = 5;

/**
 * Walks through a text two lines at a time, without holding its lines: every file that is made is
 * read so.
 */
class LinePairs {
  code = 0;
  value = '';
  private at = 0;
  private line = 0;
  private readonly text: string;

  constructor(text: string) {
    this.text = text;
  }

  /** False at the end, where half a pair may be left. */
  next(): boolean {
    const start = this.at;
    const code = this.takeCode();
    if (this.at >= this.text.length) return false;
    if (Number.isNaN(code))
      refuse(
        `line ${this.line} should be a group code, not '${printable(this.text.slice(start, this.at))}'`,
        'give a DXF file in text form, as its program saved it',
      );
    this.code = code;
    this.value = this.take();
    return true;
  }

  /**
   * A line that holds a whole number and nothing else; NaN for any other, which is passed all the
   * same.
   */
  private takeCode(): number {
    const { text } = this;
    let at = this.at;
    while (isBlank(text.charCodeAt(at))) at += 1;
    const isLess = text.charCodeAt(at) === MINUS;
    if (isLess) at += 1;
    const first = at;
    let code = 0;
    for (let c = text.charCodeAt(at); c >= ZERO && c <= NINE; c = text.charCodeAt(++at))
      code = 10 * code + c - ZERO;
    const isNumber = at > first && at - first <= MOST_DIGITS;
    while (isBlank(text.charCodeAt(at))) at += 1;
    const isWhole = isNumber && (at >= text.length || text.charCodeAt(at) === NEW_LINE);
    this.passLine(at);
    return isWhole ? (isLess ? -code : code) : Number.NaN;
  }

  private take(): string {
    const start = this.at;
    return this.text.slice(start, this.passLine(start)).trim();
  }

  /** Goes on to the line after a place; gives where the line of the place ends. */
  private passLine(at: number): number {
    const found = this.text.indexOf('\n', at);
    const end = found < 0 ? this.text.length : found;
    this.at = end + 1;
    this.line += 1;
    return end;
  }
}

/** Within a line: a blank, a tab, the return that stands before a new line. */
const isBlank = (c: number): boolean => c <= BLANK && c !== NEW_LINE;

/** The first value of a code; `undefined` when it is not there. */
export const textAt = ({ codes, values }: DxfRecord, code: number): string | undefined => {
  const at = codes.indexOf(code);
  return at < 0 ? undefined : values[at];
};

/** The number of a code, or what it is when left out. NaN for a text that is no number. */
export const numberAt = (record: DxfRecord, code: number, leftOut = 0): number => {
  const text = textAt(record, code);
  return text === undefined ? leftOut : toNumber(text);
};

/** Decimal notation alone: other notations of numbers are no DXF. */
export const toNumber = (text: string): number =>
  isDecimal(text) ? Number(text) : withPower(text);

const [PLUS, POINT, LARGE_E, SMALL_E] = [43, 46, 69, 101] as const;

/**
 * Letter by letter, as it is asked of every number in every file; what is in a wrong order becomes
 * NaN all the same.
 */
const isDecimal = (text: string): boolean => {
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (!(
      (c >= ZERO && c <= NINE) ||
      c === POINT ||
      c === MINUS ||
      c === PLUS ||
      c === SMALL_E ||
      c === LARGE_E
    ))
      return false;
  }
  return text !== '';
};

/** Powers of ten as the language had them that the first of these programs were written in. */
const withPower = (text: string): number =>
  /^[+-]?(?:\d+\.?\d*|\.\d+)[dD][+-]?\d+$/.test(text)
    ? Number(text.replace(/d/i, 'e'))
    : Number.NaN;

/** All numbers of a code, in turn. */
export const numbersAt = ({ codes, values }: DxfRecord, code: number): number[] =>
  codes.flatMap((c, i) => (c === code ? [toNumber(values[i] ?? '')] : []));

/**
 * Rows that begin with the first of some codes, and hold the others where they follow; 0 where they
 * do not.
 */
export const rowsAt = (
  { codes, values }: DxfRecord,
  ...wanted: readonly [number, ...number[]]
): number[][] => {
  const rows: number[][] = [];
  codes.forEach((code, i) => {
    const column = wanted.indexOf(code);
    if (column === 0) rows.push(wanted.map(() => 0));
    const row = rows.at(-1);
    if (column >= 0 && row !== undefined) row[column] = toNumber(values[i] ?? '');
  });
  return rows;
};
