import { printable } from './printable.ts';
import { refuse } from './refusal.ts';

/** One thing in a file: its type (group 0), and its groups in order. */
export interface DxfRecord {
  readonly type: string;
  readonly codes: number[];
  readonly values: string[];
}

/**
 * The records of a file by section. The groups of the header are one record; only the layers are
 * kept of the tables.
 */
export interface DxfSections {
  readonly header: DxfRecord;
  readonly tables: readonly DxfRecord[];
  readonly blocks: readonly DxfRecord[];
  readonly entities: readonly DxfRecord[];
  readonly hasEntities: boolean;
  /** Whether the file ends before `EOF`, which is reported because the rest may be missing. */
  readonly isCutOff: boolean;
}

/**
 * The most records read. A drawing for a cutter has some thousands, and each takes some hundred
 * bytes of memory.
 */
const MOST_RECORDS = 1_000_000;

/**
 * Reads a DXF text by its group codes (DXF Reference, "General DXF file structure"): a line with a
 * code, then a line with its value. Sections without geometry are skipped. Refuses a text that is
 * not DXF, or that holds too much.
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
 * Walks through a text two lines at a time without holding its lines, because every file that is
 * made is read with it.
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

  /** Moves to the next pair; false at the end, where half a pair may be left. */
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
   * The whole number on a line that holds nothing else; NaN for any other line, which is skipped
   * just the same.
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

  /** Moves to the line after a place, and returns where the line of the place ends. */
  private passLine(at: number): number {
    const found = this.text.indexOf('\n', at);
    const end = found < 0 ? this.text.length : found;
    this.at = end + 1;
    this.line += 1;
    return end;
  }
}

/** Whether a character is blank within a line: a blank, a tab, or the return before a new line. */
const isBlank = (c: number): boolean => c <= BLANK && c !== NEW_LINE;

/** The first value of a code; `undefined` when the code is missing. */
export const textAt = ({ codes, values }: DxfRecord, code: number): string | undefined => {
  const at = codes.indexOf(code);
  return at < 0 ? undefined : values[at];
};

/**
 * The number of a code, or `leftOut` when the code is missing. NaN for a text that is no number.
 */
export const numberAt = (record: DxfRecord, code: number, leftOut = 0): number => {
  const text = textAt(record, code);
  return text === undefined ? leftOut : toNumber(text);
};

/** The number of a text in decimal notation; other notations are not allowed in DXF. */
export const toNumber = (text: string): number =>
  isDecimal(text) ? Number(text) : withPower(text);

const [PLUS, POINT, LARGE_E, SMALL_E] = [43, 46, 69, 101] as const;

/**
 * Whether a text holds only the characters of a decimal number. It goes letter by letter, because
 * every number in every file is checked; characters in a wrong order become NaN in any case.
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

/**
 * A number whose power of ten has the letter D, as in the language that the first of these programs
 * were written in.
 */
const withPower = (text: string): number =>
  /^[+-]?(?:\d+\.?\d*|\.\d+)[dD][+-]?\d+$/.test(text)
    ? Number(text.replace(/d/i, 'e'))
    : Number.NaN;

/** All numbers of a code, in order. */
export const numbersAt = ({ codes, values }: DxfRecord, code: number): number[] =>
  codes.flatMap((c, i) => (c === code ? [toNumber(values[i] ?? '')] : []));

/**
 * Rows that begin with the first of some codes, with the values of the others where they follow,
 * and 0 where they do not.
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
