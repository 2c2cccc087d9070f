import { MM_PER_INCH } from '../units.ts';
import { type DxfRecord, textAt } from './records.ts';

/** What a number in a file stands for. */
export interface DxfUnit {
  readonly name: string;
  readonly mm: number;
}

/** Codes of `$INSUNITS` (DXF Reference, header variables; ezdxf documentation, units). */
const BY_CODE: Readonly<Record<string, DxfUnit>> = {
  1: { name: 'inches', mm: MM_PER_INCH },
  2: { name: 'feet', mm: 12 * MM_PER_INCH },
  3: { name: 'miles', mm: 63_360 * MM_PER_INCH },
  4: { name: 'millimetres', mm: 1 },
  5: { name: 'centimetres', mm: 10 },
  6: { name: 'metres', mm: 1000 },
  7: { name: 'kilometres', mm: 1e6 },
  8: { name: 'microinches', mm: MM_PER_INCH / 1e6 },
  9: { name: 'thousandths of an inch', mm: MM_PER_INCH / 1000 },
  10: { name: 'yards', mm: 36 * MM_PER_INCH },
  13: { name: 'microns', mm: 0.001 },
  14: { name: 'decimetres', mm: 100 },
};

/** What a file that states no unit may be read in. */
export const UNSTATED_UNITS = { mm: BY_CODE[4], cm: BY_CODE[5], m: BY_CODE[6], inch: BY_CODE[1] } as Readonly<Record<'mm' | 'cm' | 'm' | 'inch', DxfUnit>>;

export type UnstatedUnit = keyof typeof UNSTATED_UNITS;

export interface StatedUnit {
  /** Undefined when the file states none, or one that is not known. */
  readonly stated: DxfUnit | undefined;
  /** `$MEASUREMENT`: what the drawing was begun in; it scales nothing. */
  readonly system: 'inch' | 'metric' | undefined;
}

export const unitOf = (header: DxfRecord): StatedUnit => {
  const code = variable(header, '$INSUNITS') ?? '';
  const system = variable(header, '$MEASUREMENT');
  return { stated: Object.hasOwn(BY_CODE, code) ? BY_CODE[code] : undefined, system: system === '0' ? 'inch' : system === '1' ? 'metric' : undefined };
};

/** The first value behind the name of a header variable. */
const variable = ({ codes, values }: DxfRecord, name: string): string | undefined => {
  const at = values.findIndex((value, i) => codes[i] === 9 && value === name);
  return at < 0 ? undefined : values[at + 1];
};

/** Layers of the file that are switched off or frozen (LAYER, groups 62 and 70). */
export const hiddenLayers = (tables: readonly DxfRecord[]): ReadonlySet<string> =>
  new Set(
    tables.flatMap((record) => {
      if (record.type !== 'LAYER') return [];
      const isHidden = Number(textAt(record, 62) ?? 7) < 0 || (Number(textAt(record, 70) ?? 0) & 1) === 1;
      return isHidden ? [textAt(record, 2) ?? ''] : [];
    }),
  );
