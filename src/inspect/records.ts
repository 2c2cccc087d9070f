import { printable } from './decode.ts';
import { refuse } from './refusal.ts';

/** One thing in a file: its type (group 0), and its groups in turn. */
export interface DxfRecord {
  readonly type: string;
  readonly codes: number[];
  readonly values: string[];
}

/** The records of a file by section; groups of the header are one record. */
export interface DxfSections {
  readonly header: DxfRecord;
  readonly tables: readonly DxfRecord[];
  readonly blocks: readonly DxfRecord[];
  readonly entities: readonly DxfRecord[];
  /** Cut off before `EOF`: told, as the rest may be missing. */
  readonly isCutOff: boolean;
}

/** A drawing for a cutter has some thousands; each takes some hundred bytes of memory. */
const MOST_RECORDS = 1_000_000;
const KEPT = new Set(['HEADER', 'TABLES', 'BLOCKS', 'ENTITIES']);

/**
 * Reads a DXF text by its group codes (DXF Reference, "General DXF file structure"): a line with a code, a line with its
 * value. Sections that no geometry stands in are passed over. Refuses a text that is none, or holds too much.
 */
export const readRecords = (text: string): DxfSections => {
  const kept = new Map<string, DxfRecord[]>([...KEPT].map((name) => [name, []]));
  const header: DxfRecord = { type: 'HEADER', codes: [], values: [] };
  const lines = new LinePairs(text);
  let [section, count, sawSection, awaitsName, isCutOff] = ['', 0, false, false, true];
  let record: DxfRecord | undefined;
  while (lines.next()) {
    const { code, value } = lines;
    if (code === 0) {
      if (value === 'EOF') {
        isCutOff = false;
        break;
      }
      awaitsName = value === 'SECTION';
      if (value === 'ENDSEC') section = '';
      record = undefined;
      if (!KEPT.has(section) || section === 'HEADER') continue;
      if (++count > MOST_RECORDS) refuse(`it holds more than ${MOST_RECORDS} things`, 'leave pictures, hatches and other parts out');
      record = { type: value, codes: [], values: [] };
      kept.get(section)?.push(record);
    } else if (awaitsName && code === 2) {
      [awaitsName, section, sawSection] = [false, value, true];
    } else if (section === 'HEADER') add(header, code, value);
    else if (record !== undefined) add(record, code, value);
  }
  if (!sawSection) refuse('it is no DXF', 'give a DXF file in text form');
  const of = (name: string): readonly DxfRecord[] => kept.get(name) ?? [];
  return { header, tables: of('TABLES'), blocks: of('BLOCKS'), entities: of('ENTITIES'), isCutOff };
};

const add = (record: DxfRecord, code: number, value: string): void => {
  record.codes.push(code);
  record.values.push(value);
};

/** Walks through a text two lines at a time, without holding its lines. */
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
    const code = this.take();
    const value = this.take();
    if (code === undefined || value === undefined) return false;
    if (!/^-?\d{1,5}$/.test(code)) refuse(`line ${this.line - 1} should be a group code, not '${printable(code)}'`, 'give a DXF file in text form, as its program saved it');
    [this.code, this.value] = [Number(code), value];
    return true;
  }

  private take(): string | undefined {
    const { text, at } = this;
    if (at >= text.length) return undefined;
    const end = text.indexOf('\n', at);
    this.at = end < 0 ? text.length : end + 1;
    this.line += 1;
    return text.slice(at, end < 0 ? undefined : end).trim();
  }
}

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
const toNumber = (text: string): number => (/^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eEdD][+-]?\d+)?$/.test(text) ? Number(text.replace(/d/i, 'e')) : Number.NaN);

/** All numbers of a code, in turn. */
export const numbersAt = ({ codes, values }: DxfRecord, code: number): number[] => codes.flatMap((c, i) => (c === code ? [toNumber(values[i] ?? '')] : []));

/** Rows that begin with the first of some codes, and hold the others where they follow; 0 where they do not. */
export const rowsAt = ({ codes, values }: DxfRecord, ...wanted: readonly [number, ...number[]]): number[][] => {
  const rows: number[][] = [];
  codes.forEach((code, i) => {
    const column = wanted.indexOf(code);
    if (column === 0) rows.push(wanted.map(() => 0));
    const row = rows.at(-1);
    if (column >= 0 && row !== undefined) row[column] = toNumber(values[i] ?? '');
  });
  return rows;
};
