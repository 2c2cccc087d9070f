import { MM_PER_INCH } from '../../text/units.ts';
import type { DxfRecord } from './records.ts';

/** What a number in a file stands for. */
export interface DxfUnit {
  readonly name: string;
  readonly mm: number;
}

const KM = 1e6;
/**
 * The foot of the old surveys of the United States: 1200 / 3937 m by definition (U.S. National
 * Bureau of Standards, 1959).
 */
const SURVEY_FOOT = 1_200_000 / 3937;
/**
 * The astronomical unit: 149,597,870,700 m by definition of the International Astronomical Union
 * (2012).
 */
const ASTRONOMICAL_UNIT = 149_597_870.7 * KM;

/**
 * All codes of `$INSUNITS` (DXF Reference, header variables; ezdxf documentation, units). A file
 * that states a unit in which no sheet is cut still states a unit. Code 0 stands for none.
 */
const BY_CODE: Readonly<Record<string, DxfUnit>> = {
  1: { name: 'inches', mm: MM_PER_INCH },
  2: { name: 'feet', mm: 12 * MM_PER_INCH },
  3: { name: 'miles', mm: 63_360 * MM_PER_INCH },
  4: { name: 'millimetres', mm: 1 },
  5: { name: 'centimetres', mm: 10 },
  6: { name: 'metres', mm: 1000 },
  7: { name: 'kilometres', mm: KM },
  8: { name: 'microinches', mm: MM_PER_INCH / 1e6 },
  9: { name: 'thousandths of an inch', mm: MM_PER_INCH / 1000 },
  10: { name: 'yards', mm: 36 * MM_PER_INCH },
  11: { name: 'angstroms', mm: 1 / 10_000_000 },
  12: { name: 'nanometres', mm: 1 / 1_000_000 },
  13: { name: 'microns', mm: 0.001 },
  14: { name: 'decimetres', mm: 100 },
  15: { name: 'decametres', mm: 10_000 },
  16: { name: 'hectometres', mm: 100_000 },
  17: { name: 'gigametres', mm: 1e6 * KM },
  18: { name: 'astronomical units', mm: ASTRONOMICAL_UNIT },
  19: { name: 'light years', mm: 9_460_730_472_580.8 * KM },
  20: { name: 'parsecs', mm: (648_000 / Math.PI) * ASTRONOMICAL_UNIT },
  21: { name: 'US survey feet', mm: SURVEY_FOOT },
  22: { name: 'US survey inches', mm: SURVEY_FOOT / 12 },
  23: { name: 'US survey yards', mm: 3 * SURVEY_FOOT },
  24: { name: 'US survey miles', mm: 5280 * SURVEY_FOOT },
};

/** The units in which a file that states none may be read. */
export const UNSTATED_UNITS = {
  mm: BY_CODE[4],
  cm: BY_CODE[5],
  m: BY_CODE[6],
  inch: BY_CODE[1],
} as Readonly<Record<'mm' | 'cm' | 'm' | 'inch', DxfUnit>>;

export type UnstatedUnit = keyof typeof UNSTATED_UNITS;

export interface StatedUnit {
  /** Undefined when the file states no unit, or one that is not known. */
  readonly stated: DxfUnit | undefined;
  /** A unit that is not known, as it stands in the file. */
  readonly unknown: string | undefined;
  /** `$MEASUREMENT`: the system that the drawing was begun in; it scales nothing. */
  readonly system: 'inch' | 'metric' | undefined;
}

export const unitOf = (header: DxfRecord): StatedUnit => {
  const code = String(Number(variable(header, '$INSUNITS') ?? '0'));
  const system = variable(header, '$MEASUREMENT');
  const stated = Object.hasOwn(BY_CODE, code) ? BY_CODE[code] : undefined;
  return {
    stated,
    unknown: stated === undefined && code !== '0' ? variable(header, '$INSUNITS') : undefined,
    system: system === '0' ? 'inch' : system === '1' ? 'metric' : undefined,
  };
};

/** The first value after the name of a header variable. */
const variable = ({ codes, values }: DxfRecord, name: string): string | undefined => {
  const at = values.findIndex((value, i) => codes[i] === 9 && value === name);
  return at < 0 ? undefined : values[at + 1];
};
