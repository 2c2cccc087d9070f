import { decodeDxf } from './decode.ts';
import { explode, type Oddity, type Stroke } from './explode.ts';
import { readRecords } from './records.ts';
import { type DxfUnit, hiddenLayers, UNSTATED_UNITS, type UnstatedUnit, unitOf } from './units.ts';

/** Where the unit of a file comes from. */
export type UnitFrom = 'file' | 'asked' | 'assumed';

/** What a file draws, in mm. */
export interface DxfDrawing {
  readonly version: string;
  readonly unit: DxfUnit;
  readonly unitFrom: UnitFrom;
  /** What the drawing was begun in, by `$MEASUREMENT`. */
  readonly system: 'inch' | 'metric' | undefined;
  readonly strokes: readonly Stroke[];
  readonly oddities: readonly Oddity[];
  readonly isCutOff: boolean;
}

/** Reads the bytes of a DXF file. A unit that is asked for goes before that of the file. Throws `Refused`. */
export const readDrawing = (bytes: Uint8Array, asked: UnstatedUnit | undefined): DxfDrawing => {
  const { text, version } = decodeDxf(bytes);
  const { header, tables, blocks, entities, isCutOff } = readRecords(text);
  const { stated, system } = unitOf(header);
  const unit = asked === undefined ? (stated ?? UNSTATED_UNITS.mm) : UNSTATED_UNITS[asked];
  const unitFrom = asked !== undefined ? 'asked' : stated === undefined ? 'assumed' : 'file';
  return { version, unit, unitFrom, system, isCutOff, ...explode(entities, blocks, hiddenLayers(tables), unit.mm) };
};
